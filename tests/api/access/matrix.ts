import type { Reach, RouteName } from '@middenry/contract';

/** anonymous, pupil, volunteer, site lead, coordinator */
export type Row = readonly [Reach, Reach, Reach, Reach, Reach];

const everyone: Row = ['any', 'any', 'any', 'any', 'any'];
const members: Row = ['none', 'any', 'any', 'any', 'any'];
const adults: Row = ['none', 'none', 'any', 'any', 'any'];
const leads: Row = ['none', 'none', 'none', 'own', 'any'];
const coordinators: Row = ['none', 'none', 'none', 'none', 'any'];
const ownRow: Row = ['none', 'own', 'own', 'own', 'any'];

/**
 * Who may do what, written down a second time and by hand: a route whose access is changed by
 * accident, or that nobody thought about, fails here.
 */
export const matrix: Readonly<Record<RouteName, Row>> = {
  live: everyone,
  ready: everyone,
  openapi: everyone,
  readSession: everyone,
  signIn: everyone,
  enterDemo: everyone,
  signOut: members,
  readSetup: everyone,
  beginProgramme: everyone,
  readEvents: members,
  listInvites: coordinators,
  addInvite: coordinators,
  revokeInvite: coordinators,
  readInviteCard: everyone,
  useInvite: everyone,
  listDevices: ownRow,
  endDevice: ownRow,
  addDeviceCode: ['none', 'none', 'own', 'own', 'any'],
  useDeviceCode: everyone,
  changePassword: adults,
  startTotp: adults,
  confirmTotp: adults,
  endTotp: adults,
  readProgramme: members,
  changeProgramme: coordinators,
  listSites: members,
  addSite: coordinators,
  changeSite: leads,
  listBins: members,
  addBin: leads,
  readBin: members,
  changeBin: leads,
  readBinCard: everyone,
  readBoard: members,
  readOutlook: members,
  logFeeding: adults,
  logCheck: adults,
  logHarvest: adults,
  listEntries: members,
  readEntry: members,
  undoEntry: ownRow,
  correctEntry: ownRow,
  readEntryHistory: members,
  logCare: adults,
  logNote: adults,
  logWorms: adults,
  listMaterials: members,
  addMaterial: coordinators,
  listContainers: members,
  addContainer: leads,
  changeContainer: leads,
  weighContainer: adults,
  fillMaterial: coordinators,
  readBeddingStock: members,
  listBeddingMoves: members,
  moveBedding: adults,
  listAirReadings: members,
  putAirReadings: leads,
  listPeople: coordinators,
  addPerson: coordinators,
  changePerson: coordinators,
  listShifts: members,
  addShifts: leads,
  readShift: members,
  changeShift: leads,
  cancelShift: leads,
  takePlace: adults,
  changeSignUp: ownRow,
  giveBackPlace: ownRow,
  readSeason: leads,
  readSeasonCsv: leads,
};
