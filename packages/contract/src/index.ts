import { availabilityRoutes } from './resources/availability.ts';
import { batchRoutes } from './resources/batch.ts';
import { binLifeRoutes } from './resources/bin-life.ts';
import { bringBackRoutes } from './resources/bring-back.ts';
import { calendarRoutes } from './resources/calendar.ts';
import { careRoutes } from './resources/care.ts';
import { castingsRoutes } from './resources/castings.ts';
import { classRoutes } from './resources/class.ts';
import { climateFactorsRoutes } from './resources/climate-factors.ts';
import { consentRoutes } from './resources/consent.ts';
import { deviceRoutes } from './resources/device.ts';
import { dutyRoutes } from './resources/duty.ts';
import { entryRoutes } from './resources/entry.ts';
import { eventsRoutes } from './resources/events.ts';
import { exportRoutes } from './resources/export.ts';
import { flagNoteRoutes } from './resources/flag-note.ts';
import { intakeRoutes } from './resources/intake.ts';
import { inviteRoutes } from './resources/invite.ts';
import { keepRoutes } from './resources/keep.ts';
import { mailRoutes } from './resources/mail.ts';
import { messageRoutes } from './resources/message.ts';
import { messageSettingRoutes } from './resources/message-setting.ts';
import { namedSeasonRoutes } from './resources/named-season.ts';
import { outlookRoutes } from './resources/outlook.ts';
import { ownDataRoutes } from './resources/own-data.ts';
import { peopleRoutes } from './resources/people.ts';
import { photoRoutes } from './resources/photo.ts';
import { photoPeopleRoutes } from './resources/photo-people.ts';
import { placeRoutes } from './resources/place.ts';
import { placesRoutes } from './resources/places.ts';
import { pocketRoutes } from './resources/pocket.ts';
import { privacyRoutes } from './resources/privacy.ts';
import { proposalRoutes } from './resources/proposal.ts';
import { publishedSeasonRoutes } from './resources/published-season.ts';
import { pupilGroupRoutes } from './resources/pupil-group.ts';
import { rotaRoutes } from './resources/rota.ts';
import { seasonRoutes } from './resources/season.ts';
import { seasonPhotoRoutes } from './resources/season-photo.ts';
import { seasonWeekRoutes } from './resources/season-weeks.ts';
import { sessionRoutes } from './resources/session.ts';
import { setupRoutes } from './resources/setup.ts';
import { sheetImportRoutes } from './resources/sheet-import.ts';
import { shiftRoutes } from './resources/shift.ts';
import { shiftCardRoutes } from './resources/shift-card.ts';
import { signUpSeasonRoutes } from './resources/sign-up-season.ts';
import { statusRoutes } from './resources/status.ts';
import { stockRoutes } from './resources/stock.ts';
import { stuffRoutes } from './resources/stuff.ts';
import { swapRoutes } from './resources/swap.ts';
import { systemRoutes } from './resources/system.ts';
import { whatIfRoutes } from './resources/what-if.ts';

export * from './common.ts';
export * from './problem.ts';
export * from './release.ts';
export * from './resources/availability.ts';
export * from './resources/batch.ts';
export * from './resources/bin-life.ts';
export * from './resources/bring-back.ts';
export * from './resources/calendar.ts';
export * from './resources/care.ts';
export * from './resources/castings.ts';
export * from './resources/class.ts';
export * from './resources/climate-factors.ts';
export * from './resources/consent.ts';
export * from './resources/device.ts';
export * from './resources/duty.ts';
export * from './resources/entry.ts';
export * from './resources/entry-base.ts';
export * from './resources/events.ts';
export * from './resources/export.ts';
export * from './resources/flag-note.ts';
export * from './resources/intake.ts';
export * from './resources/invite.ts';
export * from './resources/keep.ts';
export * from './resources/kept-season.ts';
export * from './resources/mail.ts';
export * from './resources/message.ts';
export * from './resources/message-setting.ts';
export * from './resources/named-season.ts';
export * from './resources/outlook.ts';
export * from './resources/own-data.ts';
export * from './resources/people.ts';
export * from './resources/photo.ts';
export * from './resources/photo-people.ts';
export * from './resources/place.ts';
export * from './resources/places.ts';
export * from './resources/pocket.ts';
export * from './resources/privacy.ts';
export * from './resources/proposal.ts';
export * from './resources/published-season.ts';
export * from './resources/pupil-group.ts';
export * from './resources/rota.ts';
export * from './resources/season.ts';
export * from './resources/season-photo.ts';
export * from './resources/season-weeks.ts';
export * from './resources/session.ts';
export * from './resources/setup.ts';
export * from './resources/sheet-import.ts';
export * from './resources/shift.ts';
export * from './resources/shift-card.ts';
export * from './resources/shift-parts.ts';
export * from './resources/sign-up-season.ts';
export * from './resources/status.ts';
export * from './resources/stock.ts';
export * from './resources/stuff.ts';
export * from './resources/swap.ts';
export * from './resources/system.ts';
export * from './resources/what-if.ts';
export * from './route.ts';

/** Every route of the API, in one list. */
export const ROUTES = [
  ...systemRoutes,
  ...sessionRoutes,
  ...placeRoutes,
  ...outlookRoutes,
  ...binLifeRoutes,
  ...whatIfRoutes,
  ...entryRoutes,
  ...careRoutes,
  ...batchRoutes,
  ...pocketRoutes,
  ...photoRoutes,
  ...photoPeopleRoutes,
  ...consentRoutes,
  ...flagNoteRoutes,
  ...stockRoutes,
  ...castingsRoutes,
  ...stuffRoutes,
  ...peopleRoutes,
  ...ownDataRoutes,
  ...privacyRoutes,
  ...availabilityRoutes,
  ...rotaRoutes,
  ...shiftRoutes,
  ...shiftCardRoutes,
  ...swapRoutes,
  ...intakeRoutes,
  ...proposalRoutes,
  ...placesRoutes,
  ...signUpSeasonRoutes,
  ...dutyRoutes,
  ...pupilGroupRoutes,
  ...messageRoutes,
  ...messageSettingRoutes,
  ...mailRoutes,
  ...calendarRoutes,
  ...seasonRoutes,
  ...seasonWeekRoutes,
  ...namedSeasonRoutes,
  ...publishedSeasonRoutes,
  ...seasonPhotoRoutes,
  ...climateFactorsRoutes,
  ...setupRoutes,
  ...bringBackRoutes,
  ...inviteRoutes,
  ...deviceRoutes,
  ...classRoutes,
  ...eventsRoutes,
  ...keepRoutes,
  ...statusRoutes,
  ...exportRoutes,
  ...sheetImportRoutes,
] as const;
export type RouteName = (typeof ROUTES)[number]['name'];
