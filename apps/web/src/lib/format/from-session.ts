import type { Answer } from '../api/calls.ts';
import { words } from '../messages/index.ts';
import { type Format, makeFormat } from './format.ts';

/** How numbers and days look before anybody has signed in, and after. */
export function formatOf(session: Answer<'readSession'>): Format {
  const programme = session.programme;
  return makeFormat({
    units: programme?.units ?? 'metric',
    locale: words.figures.locale(programme?.locale ?? 'en-GB'),
    timeZone: programme?.timeZone ?? 'UTC',
    today: session.today,
  });
}
