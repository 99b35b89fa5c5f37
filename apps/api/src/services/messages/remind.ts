/** Reminders, made by the clock alone: each once for a person and a shift, whatever restarts and clocks do (criteria C6). */
import { isBelievable } from '../../db/clock-sense.ts';
import { type MessageSettingRow, messageSetting } from '../../db/repositories/message-setting.ts';
import { type PlaceAhead, placesAhead, remindersMade } from '../../db/repositories/reminder.ts';
import { type Store, write } from '../../db/store.ts';
import { addDays, localDateAt } from '../local-time.ts';
import { type ReminderTime, reminderTimes } from './reminder-times.ts';
import { tell } from './tell.ts';

/** A reminder comes a day before at most, or the evening before that. */
const AHEAD_DAYS = 3;

interface DueReminder extends ReminderTime {
  readonly place: PlaceAhead;
}

/** Makes every reminder that is due now; says how many. */
export function remind(store: Store, now: Date): number {
  if (!isBelievable(now)) return 0;
  const due = dueReminders(store, now);
  if (due.length === 0) return 0;
  return write(store, () => due.filter((one) => tell(store, toTell(one, now))).length);
}

function dueReminders(store: Store, now: Date): DueReminder[] {
  const today = localDateAt(now, 'UTC');
  const places = placesAhead(store, { from: addDays(today, -1), to: addDays(today, AHEAD_DAYS) });
  if (places.length === 0) return [];
  const shiftIds = [...new Set(places.map(({ shiftId }) => shiftId))];
  const made = new Set(remindersMade(store, shiftIds).map(keyOf));
  const settings = new Map<string, MessageSettingRow>();
  return places.flatMap((place) => {
    const setting = settings.get(place.personId) ?? messageSetting(store, place.personId);
    settings.set(place.personId, setting);
    return reminderTimes(place, setting)
      .filter(({ kind }) => (kind === 'reminder-day' ? setting.remindDay : setting.remindHours) === 1)
      .filter(({ dueAt, staleAt }) => dueAt <= now && now < staleAt && place.takenAt < dueAt.toISOString())
      .filter(({ kind }) => !made.has(keyOf({ ...place, kind, occasion: place.localDate })))
      .map((time) => ({ ...time, place }));
  });
}

const keyOf = (of: { personId: string; shiftId: string; kind: string; occasion: string }): string =>
  [of.personId, of.shiftId, of.kind, of.occasion].join(' ');

/** The occasion is the day: a shift that was moved to another day is another one to be reminded of. */
const toTell = ({ kind, staleAt, place }: DueReminder, now: Date): Parameters<typeof tell>[1] => ({
  ...{ personId: place.personId, kind, shiftId: place.shiftId, occasion: place.localDate, now },
  goodUntil: staleAt,
});
