/** How long pupils stay: to the end of the season in which they were last here, and then for a time that the retention says. */
import { all } from '../rows.ts';
import type { Store } from '../store.ts';

/** Last here: put in, signed in, or on the list of a shift. A season is one that reports count by, or a term of places. */
const LAST_HERE = `WITH here AS (
    SELECT p.id, max(
      substr(p.created_at, 1, 10),
      ifnull((SELECT max(substr(s.last_seen_at, 1, 10)) FROM sign_in_session s WHERE s.person_id = p.id), ''),
      ifnull((SELECT max(h.local_date) FROM shift_group_pupil n JOIN shift_group g ON g.id = n.group_id JOIN shift h ON h.id = g.shift_id
        WHERE n.person_id = p.id), '')
    ) AS lastOn
    FROM person p WHERE p.erased_at IS NULL AND EXISTS (SELECT 1 FROM membership m WHERE m.person_id = p.id AND m.role = 'pupil')
  ), ranges AS (
    SELECT site_id, from_date, to_date FROM season UNION ALL SELECT site_id, from_date, to_date FROM sign_up_season
  )
  SELECT id FROM here WHERE ifnull(
    (SELECT max(r.to_date) FROM ranges r WHERE lastOn BETWEEN r.from_date AND r.to_date AND (r.site_id IS NULL OR EXISTS (
      SELECT 1 FROM membership m WHERE m.person_id = here.id AND (m.site_id IS NULL OR m.site_id = r.site_id)))),
    lastOn) <= ?`;

/** Pupils whose season ended on that day or before; without a season, those who were last here then. */
export const pupilsLastHereBefore = (store: Store, day: string): string[] =>
  all<{ readonly id: string }>(store, LAST_HERE, day).map(({ id }) => id);
