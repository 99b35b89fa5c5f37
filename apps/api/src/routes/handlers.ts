import type { BoundRoute } from '../routing/route.ts';
import { bringBackHandlers } from './bring-back/handlers.ts';
import { addCalendarLink } from './calendar/add-calendar-link.ts';
import { listCalendarLinks } from './calendar/list-calendar-links.ts';
import { readCalendar } from './calendar/read-calendar.ts';
import { readShiftCalendar } from './calendar/read-shift-calendar.ts';
import { revokeCalendarLink } from './calendar/revoke-calendar-link.ts';
import { castingsHandlers } from './castings/handlers.ts';
import { addClass } from './class/add-class.ts';
import { addPupil } from './class/add-pupil.ts';
import { enterAsPupil } from './class/enter-as-pupil.ts';
import { erasePupil } from './class/erase-pupil.ts';
import { listClasses } from './class/list-classes.ts';
import { renewCard } from './class/renew-card.ts';
import { consentHandlers } from './consent/handlers.ts';
import { addDeviceCode } from './device/add-device-code.ts';
import { changePassword } from './device/change-password.ts';
import { confirmTotp } from './device/confirm-totp.ts';
import { endDevice } from './device/end-device.ts';
import { endTotp } from './device/end-totp.ts';
import { listDevices } from './device/list-devices.ts';
import { startTotp } from './device/start-totp.ts';
import { useDeviceCode } from './device/use-device-code.ts';
import { listDuties } from './duty/list-duties.ts';
import { correctEntry } from './entry/correct-entry.ts';
import { listEntries } from './entry/list-entries.ts';
import { logBatch } from './entry/log-batch.ts';
import { logCare } from './entry/log-care.ts';
import { logCheck } from './entry/log-check.ts';
import { logFeeding } from './entry/log-feeding.ts';
import { logHarvest } from './entry/log-harvest.ts';
import { logNote } from './entry/log-note.ts';
import { logWorms } from './entry/log-worms.ts';
import { readEntry } from './entry/read-entry.ts';
import { readEntryHistory } from './entry/read-entry-history.ts';
import { readPocket } from './entry/read-pocket.ts';
import { undoEntry } from './entry/undo-entry.ts';
import { readEvents } from './events/read-events.ts';
import { readExport } from './export/read-export.ts';
import { sheetImportHandlers } from './import/handlers.ts';
import { acceptIntake } from './intake/accept-intake.ts';
import { listIntakePlans } from './intake/list-intake-plans.ts';
import { planIntake } from './intake/plan-intake.ts';
import { addInvite } from './invite/add-invite.ts';
import { listInvites } from './invite/list-invites.ts';
import { readInviteCard } from './invite/read-invite-card.ts';
import { revokeInvite } from './invite/revoke-invite.ts';
import { useInvite } from './invite/use-invite.ts';
import { addBackup } from './keep/add-backup.ts';
import { addLink } from './keep/add-link.ts';
import { listLinks } from './keep/list-links.ts';
import { readAudit } from './keep/read-audit.ts';
import { readKeep } from './keep/read-keep.ts';
import { readLinkedBoard } from './keep/read-linked-board.ts';
import { renewDemonstration } from './keep/renew-demonstration.ts';
import { revokeLink } from './keep/revoke-link.ts';
import { changeMessageSetting } from './message/change-message-setting.ts';
import { confirmMailAddress } from './message/confirm-mail-address.ts';
import { dropMailAddress } from './message/drop-mail-address.ts';
import { listMessages } from './message/list-messages.ts';
import { listTold } from './message/list-told.ts';
import { putMailAddress } from './message/put-mail-address.ts';
import { readGroupText } from './message/read-group-text.ts';
import { readMail } from './message/read-mail.ts';
import { readMessageSetting } from './message/read-message-setting.ts';
import { readMessages } from './message/read-messages.ts';
import { readReply } from './message/read-reply.ts';
import { sendReply } from './message/send-reply.ts';
import { testMail } from './message/test-mail.ts';
import { OUTLOOK_HANDLERS } from './outlook/handlers.ts';
import { ownDataHandlers } from './own-data/handlers.ts';
import { addPerson } from './people/add-person.ts';
import { changePerson } from './people/change-person.ts';
import { listPeople } from './people/list-people.ts';
import { putAvailability } from './people/put-availability.ts';
import { readAvailability } from './people/read-availability.ts';
import { photoHandlers } from './photo/handlers.ts';
import { addBin } from './place/add-bin.ts';
import { addSite } from './place/add-site.ts';
import { changeBin } from './place/change-bin.ts';
import { changeProgramme } from './place/change-programme.ts';
import { changeSite } from './place/change-site.ts';
import { listAirReadings } from './place/list-air-readings.ts';
import { listBins } from './place/list-bins.ts';
import { listSites } from './place/list-sites.ts';
import { putAirReadings } from './place/put-air-readings.ts';
import { putSiteTimes } from './place/put-site-times.ts';
import { readBin } from './place/read-bin.ts';
import { readBinCard } from './place/read-bin-card.ts';
import { readLife } from './place/read-life.ts';
import { readProgramme } from './place/read-programme.ts';
import { readSiteTimes } from './place/read-site-times.ts';
import { acceptProposals } from './proposal/accept-proposals.ts';
import { dropDuties } from './proposal/drop-duties.ts';
import { listProposals } from './proposal/list-proposals.ts';
import { acceptInvitation } from './rota/accept-invitation.ts';
import { endInvitation } from './rota/end-invitation.ts';
import { fillGaps } from './rota/fill-gaps.ts';
import { listInvitations } from './rota/list-invitations.ts';
import { listRotaRuns } from './rota/list-rota-runs.ts';
import { readRotaRun } from './rota/read-rota-run.ts';
import { sendInvitations } from './rota/send-invitations.ts';
import { seasonHandlers } from './season/handlers.ts';
import { enterDemo } from './session/enter-demo.ts';
import { readSession } from './session/read-session.ts';
import { signIn } from './session/sign-in.ts';
import { signOut } from './session/sign-out.ts';
import { beginProgramme } from './setup/begin-programme.ts';
import { readSetup } from './setup/read-setup.ts';
import { acceptSwap } from './shift/accept-swap.ts';
import { addPupilGroup } from './shift/add-pupil-group.ts';
import { addShifts } from './shift/add-shifts.ts';
import { cancelShift } from './shift/cancel-shift.ts';
import { changeShift } from './shift/change-shift.ts';
import { changeSignUp } from './shift/change-sign-up.ts';
import { checkInPupils } from './shift/check-in-pupils.ts';
import { endSwap } from './shift/end-swap.ts';
import { giveBackPlace } from './shift/give-back-place.ts';
import { joinWaiting } from './shift/join-waiting.ts';
import { leaveWaiting } from './shift/leave-waiting.ts';
import { listShifts } from './shift/list-shifts.ts';
import { offerSwap } from './shift/offer-swap.ts';
import { putShiftNeeds } from './shift/put-shift-needs.ts';
import { readPlaces } from './shift/read-places.ts';
import { readShift } from './shift/read-shift.ts';
import { readShiftCard } from './shift/read-shift-card.ts';
import { sayResults } from './shift/say-results.ts';
import { takeOffPupilGroup } from './shift/take-off-pupil-group.ts';
import { takePlace } from './shift/take-place.ts';
import { addSignUpSeason } from './sign-up-season/add-sign-up-season.ts';
import { changeSignUpSeason } from './sign-up-season/change-sign-up-season.ts';
import { drawPlaces } from './sign-up-season/draw-places.ts';
import { listSignUpSeasons } from './sign-up-season/list-sign-up-seasons.ts';
import { putWishes } from './sign-up-season/put-wishes.ts';
import { addContainer } from './stuff/add-container.ts';
import { addMaterial } from './stuff/add-material.ts';
import { changeContainer } from './stuff/change-container.ts';
import { fillMaterial } from './stuff/fill-material.ts';
import { listBeddingMoves } from './stuff/list-bedding-moves.ts';
import { listContainers } from './stuff/list-containers.ts';
import { listMaterials } from './stuff/list-materials.ts';
import { moveBedding } from './stuff/move-bedding.ts';
import { readBeddingStock } from './stuff/read-bedding-stock.ts';
import { weighContainer } from './stuff/weigh-container.ts';
import { systemHandlers } from './system/handlers.ts';

/** Every handler there is. A row of the route table that is missing here keeps the server from starting. */
export const HANDLERS: readonly BoundRoute[] = [
  ...systemHandlers,
  ...photoHandlers,
  ...consentHandlers,
  readSession,
  signIn,
  enterDemo,
  signOut,
  readProgramme,
  changeProgramme,
  listSites,
  addSite,
  changeSite,
  listBins,
  addBin,
  readBin,
  changeBin,
  readBinCard,
  readLife,
  listPeople,
  addPerson,
  changePerson,
  readAvailability,
  putAvailability,
  putShiftNeeds,
  acceptInvitation,
  endInvitation,
  fillGaps,
  listInvitations,
  listRotaRuns,
  readRotaRun,
  sendInvitations,
  logFeeding,
  logCheck,
  logHarvest,
  logBatch,
  readPocket,
  listEntries,
  readEntry,
  undoEntry,
  listMaterials,
  addMaterial,
  listContainers,
  addContainer,
  changeContainer,
  listShifts,
  addShifts,
  readShift,
  changeShift,
  cancelShift,
  takePlace,
  changeSignUp,
  giveBackPlace,
  joinWaiting,
  leaveWaiting,
  acceptSwap,
  addPupilGroup,
  checkInPupils,
  endSwap,
  offerSwap,
  takeOffPupilGroup,
  listDuties,
  readSiteTimes,
  putSiteTimes,
  readShiftCard,
  sayResults,
  readPlaces,
  listSignUpSeasons,
  addSignUpSeason,
  changeSignUpSeason,
  putWishes,
  drawPlaces,
  listCalendarLinks,
  addCalendarLink,
  revokeCalendarLink,
  readCalendar,
  readShiftCalendar,
  listMessages,
  listTold,
  readMessageSetting,
  changeMessageSetting,
  putMailAddress,
  confirmMailAddress,
  dropMailAddress,
  readMail,
  testMail,
  readReply,
  sendReply,
  readGroupText,
  readMessages,
  listProposals,
  acceptProposals,
  dropDuties,
  listIntakePlans,
  planIntake,
  acceptIntake,
  ...castingsHandlers,
  ...seasonHandlers,
  logCare,
  logNote,
  logWorms,
  correctEntry,
  readEntryHistory,
  weighContainer,
  fillMaterial,
  readBeddingStock,
  listBeddingMoves,
  moveBedding,
  listAirReadings,
  putAirReadings,
  beginProgramme,
  readSetup,
  readEvents,
  addClass,
  addPupil,
  enterAsPupil,
  erasePupil,
  listClasses,
  renewCard,
  addBackup,
  addLink,
  listLinks,
  readAudit,
  readKeep,
  renewDemonstration,
  readLinkedBoard,
  revokeLink,
  addInvite,
  listInvites,
  readInviteCard,
  revokeInvite,
  useInvite,
  addDeviceCode,
  changePassword,
  confirmTotp,
  endDevice,
  endTotp,
  listDevices,
  startTotp,
  useDeviceCode,
  readExport,
  ...ownDataHandlers,
  ...bringBackHandlers,
  ...sheetImportHandlers,
  ...OUTLOOK_HANDLERS,
];
