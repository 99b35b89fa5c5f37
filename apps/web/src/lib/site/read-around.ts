import { call, need } from '../api/call.ts';
import { addDays } from '../format/days.ts';
import { lastYear } from './year.ts';

const WEEK_DAYS = 7;

/**
 * What goes on at a site in the seven days to come, and in the year behind.
 *
 * @param siteId left out: at all sites of whoever asks
 */
export async function readAround(send: typeof fetch, { today, siteId, leads }: { today: string; siteId?: string; leads: boolean }) {
  const [shifts, duties, stock, year] = await Promise.all([
    need(send, 'listShifts', { query: { from: today, to: addDays(today, WEEK_DAYS - 1), siteId } }),
    need(send, 'listDuties', { query: { siteId, days: WEEK_DAYS } }),
    need(send, 'readBeddingStock', { query: { siteId } }),
    // A lead of another site reads this one and does not add it up.
    leads ? call(send, 'readSeasonWeeks', { query: { ...lastYear(today), siteId } }) : null,
  ]);
  return {
    shifts: shifts.items,
    duties: duties.items,
    stock: stock.items,
    weeks: year?.ok ? year.data.weeks : null,
  };
}
