/** What a phone carries to the bin: enough to note things there for days without a network, and nobody else's name. */
import * as z from 'zod';
import { Id, Instant, LocalDate, LocalTime } from '../common.ts';
import { members, type RouteSpec } from '../route.ts';
import { Entry } from './entry.ts';
import { BinOutlook } from './outlook.ts';
import { Bin } from './place.ts';
import { Session } from './session.ts';
import { ShiftCard } from './shift-card.ts';
import { Container, Material } from './stuff.ts';

/** The part of a bin's outlook that noting something there leans on. */
export const PocketOutlook = BinOutlook.pick({ binId: true, today: true, band: true, zones: true, advice: true });
export type PocketOutlook = z.infer<typeof PocketOutlook>;

export const PocketBin = z.object({
  bin: Bin,
  outlook: PocketOutlook.nullable().describe('null for a retired bin'),
  entries: z.array(Entry).describe('the latest of its log, newest first; `by` and `note` only where they are my own'),
});
/** A shift of mine: what to do, not who else comes. */
export const PocketShift = ShiftCard.omit({ shift: true }).extend({
  id: Id,
  siteName: z.string(),
  title: z.string(),
  localDate: LocalDate,
  localTime: LocalTime,
  timeZone: z.string(),
  minutes: z.int(),
});
export const Pocket = z.object({
  asOf: Instant,
  session: Session,
  bins: z.array(PocketBin).describe('in the order in which they stand'),
  containers: z.array(Container),
  materials: z.array(Material),
  shifts: z.array(PocketShift).describe('my next ones, soonest first'),
});
export type Pocket = z.infer<typeof Pocket>;

export const pocketRoutes = [
  {
    method: 'GET',
    path: '/api/pocket',
    name: 'readPocket',
    summary: 'What a phone carries to the bin (If-None-Match: 304 when nothing changed)',
    tag: 'entry',
    access: members,
    own: 'nothing',
    answer: Pocket,
    status: 200,
  },
] as const satisfies readonly RouteSpec[];
