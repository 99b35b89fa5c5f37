import type { classRoutes, eventsRoutes, keepRoutes, ROUTES } from '@middenry/contract';
import type * as z from 'zod';

/** Classes and keeping are named apart, since the pages may come before the API serves them. */
type Known = (typeof ROUTES)[number] | (typeof classRoutes)[number] | (typeof keepRoutes)[number] | (typeof eventsRoutes)[number];
type RouteName = Known['name'];
type RouteOf<N extends RouteName> = Extract<Known, { readonly name: N }>;
type Shape<N extends RouteName, K extends 'answer' | 'body' | 'query'> =
  RouteOf<N> extends Record<K, infer S extends z.ZodType> ? S : never;

/** What a route answers, by its name in the contract. */
export type Answer<N extends RouteName> = z.output<Shape<N, 'answer'>>;
export type BodyOf<N extends RouteName> = z.input<Shape<N, 'body'>>;

/**
 * The routes the pages call. Only types come from the contract, so that its schemas stay out of
 * the phone's download; the test beside this file compares every line with the route table.
 */
export const CALLS = {
  readSession: 'GET /api/session',
  signIn: 'POST /api/session',
  enterDemo: 'POST /api/session/demo',
  signOut: 'DELETE /api/session',
  readProgramme: 'GET /api/programme',
  listSites: 'GET /api/sites',
  listBins: 'GET /api/bins',
  readBin: 'GET /api/bins/:id',
  readBoard: 'GET /api/board',
  readOutlook: 'GET /api/bins/:id/outlook',
  listEntries: 'GET /api/bins/:id/entries',
  undoEntry: 'DELETE /api/entries/:id',
  logFeeding: 'POST /api/feedings',
  logCheck: 'POST /api/checks',
  logHarvest: 'POST /api/harvests',
  listMaterials: 'GET /api/materials',
  listContainers: 'GET /api/containers',
  listShifts: 'GET /api/shifts',
  readShift: 'GET /api/shifts/:id',
  addShifts: 'POST /api/shifts',
  changeShift: 'PATCH /api/shifts/:id',
  cancelShift: 'DELETE /api/shifts/:id',
  takePlace: 'POST /api/shifts/:id/sign-ups',
  changeSignUp: 'PATCH /api/shifts/:id/sign-ups/:signUpId',
  joinWaiting: 'POST /api/shifts/:id/waiting',
  leaveWaiting: 'DELETE /api/shifts/:id/waiting/:waitingId',
  giveBackPlace: 'DELETE /api/shifts/:id/sign-ups/:signUpId',
  readSeason: 'GET /api/season',
  readSeasonCsv: 'GET /api/season.csv',
  logCare: 'POST /api/cares',
  logNote: 'POST /api/notes',
  logWorms: 'POST /api/worms',
  readEntry: 'GET /api/entries/:id',
  correctEntry: 'PUT /api/entries/:id',
  readEntryHistory: 'GET /api/entries/:id/history',
  changeProgramme: 'PATCH /api/programme',
  addSite: 'POST /api/sites',
  changeSite: 'PATCH /api/sites/:id',
  addBin: 'POST /api/bins',
  changeBin: 'PATCH /api/bins/:id',
  addMaterial: 'POST /api/materials',
  fillMaterial: 'PUT /api/materials/:id/figures',
  addContainer: 'POST /api/containers',
  changeContainer: 'PATCH /api/containers/:id',
  weighContainer: 'POST /api/containers/:id/weighings',
  readBeddingStock: 'GET /api/bedding-stock',
  moveBedding: 'POST /api/bedding-moves',
  listAirReadings: 'GET /api/sites/:id/air-readings',
  putAirReadings: 'PUT /api/sites/:id/air-readings',
  listPeople: 'GET /api/people',
  changePerson: 'PATCH /api/people/:id',
  readSetup: 'GET /api/setup',
  beginProgramme: 'POST /api/setup',
  listInvites: 'GET /api/invites',
  addInvite: 'POST /api/invites',
  revokeInvite: 'DELETE /api/invites/:id',
  readInviteCard: 'GET /api/invite-cards/:token',
  useInvite: 'POST /api/session/invite',
  listDevices: 'GET /api/devices',
  endDevice: 'DELETE /api/devices/:id',
  addDeviceCode: 'POST /api/device-codes',
  useDeviceCode: 'POST /api/session/device',
  changePassword: 'PUT /api/password',
  startTotp: 'POST /api/totp',
  confirmTotp: 'PUT /api/totp',
  endTotp: 'DELETE /api/totp',
  listClasses: 'GET /api/classes',
  addClass: 'POST /api/classes',
  addPupil: 'POST /api/classes/:id/pupils',
  renewCard: 'POST /api/pupils/:id/card',
  erasePupil: 'DELETE /api/pupils/:id',
  enterAsPupil: 'POST /api/session/pupil',
  readAudit: 'GET /api/audit',
  readKeep: 'GET /api/keep',
  addBackup: 'POST /api/keep/backups',
  listLinks: 'GET /api/links',
  addLink: 'POST /api/links',
  revokeLink: 'DELETE /api/links/:id',
  readLinkedBoard: 'GET /api/linked-boards/:token',
  readEvents: 'GET /api/events',
  openapi: 'GET /api/openapi.json',
} as const satisfies Partial<Record<RouteName, string>>;
export type CallName = keyof typeof CALLS;
