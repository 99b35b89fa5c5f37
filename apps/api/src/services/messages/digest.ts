/** Once a day, what coordinators may want to see to; with nothing to see to there is no message (criteria C8). */
import type { Context } from '../../context.ts';
import { isBelievable } from '../../db/clock-sense.ts';
import { countMail } from '../../db/repositories/mail.ts';
import { wasTold } from '../../db/repositories/message.ts';
import { messageSetting } from '../../db/repositories/message-setting.ts';
import { listPersons } from '../../db/repositories/person.ts';
import { findProgramme } from '../../db/repositories/programme.ts';
import { shiftsWithGroups } from '../../db/repositories/shift-group.ts';
import { write } from '../../db/store.ts';
import { listDuties } from '../duties.ts';
import { addDays, localDateAt, localTimeAt, startOf } from '../local-time.ts';
import { shiftShapes } from '../shift-shape.ts';
import { openAhead, shiftOrRefuse } from '../shifts.ts';
import { type MessageFacts, tell } from './tell.ts';

const KIND = 'digest';
/** In the morning, when the quiet hours of most are over; later in the day it can wait for tomorrow. */
const FROM_TIME = '07:00';
const TO_TIME = '12:00';
const OPEN_DAYS = 7;

/** Tells every coordinator who wants it; says how many. */
export async function tellDigest(call: Context): Promise<number> {
  const { store, now } = call;
  const programme = findProgramme(store);
  if (programme === undefined || !isBelievable(now)) return 0;
  const time = localTimeAt(now, programme.timeZone);
  if (time < FROM_TIME || time >= TO_TIME) return 0;
  const occasion = localDateAt(now, programme.timeZone);
  const waiting = listPersons(store)
    .filter(({ role, disabled }) => role === 'coordinator' && !disabled)
    .filter(({ id }) => messageSetting(store, id).digest === 1 && !wasTold(store, id, { kind: KIND, occasion }));
  if (waiting.length === 0) return 0;
  const facts = await digestFacts(call);
  if (Object.values(facts).every((value) => value === 0)) return 0;
  const { startsAt: goodUntil } = startOf({ localDate: addDays(occasion, 1), localTime: FROM_TIME, timeZone: programme.timeZone });
  return write(store, () => waiting.filter(({ id }) => tell(store, { personId: id, kind: KIND, occasion, facts, now, goodUntil })).length);
}

async function digestFacts(call: Context): Promise<MessageFacts> {
  const { store, now } = call;
  const yesterday = new Date(now);
  yesterday.setUTCDate(yesterday.getUTCDate() - 1);
  const withPupils = shiftsWithGroups(store, localDateAt(now, 'UTC')).map((id) => shiftOrRefuse(call, id));
  const duties = await listDuties(call, { days: 0 });
  return {
    openShifts: openAhead(call, { days: OPEN_DAYS, siteId: null }).length,
    needsAdult: shiftShapes(call, withPupils).filter(({ adults, over }) => adults.state === 'needs-adult' && !over).length,
    overdueDuties: duties.filter(({ urgency, plannedOn }) => urgency !== 'in-window' && plannedOn === null).length,
    failedMail: countMail(store, yesterday.toISOString()).failed,
  };
}
