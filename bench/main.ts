import { cpus } from 'node:os';
import { benchBoard } from './board.ts';
import { benchCalendar } from './calendar.ts';
import { benchCarry } from './carry.ts';
import { benchFanOut } from './fan-out.ts';
import { benchIntake } from './intake.ts';
import { benchLoad } from './load.ts';
import { benchModel } from './model.ts';
import { benchPages } from './pages.ts';
import { benchPhone } from './phone.ts';
import { benchRota } from './rota.ts';
import { benchSeason } from './season.ts';
import { benchSignUp } from './sign-up.ts';
import { benchStart } from './start.ts';
import { benchStore } from './store.ts';
import { benchWhatIf } from './what-if.ts';

/** Every measurement by the name that chooses it: `npm run bench -- pages start`. */
const benches: Readonly<Record<string, { readonly title: string; readonly run: () => Promise<string> }>> = {
  pages: { title: 'Board, bin page and one logged feeding', run: benchPages },
  board: {
    title: 'The board of 60 and of 600 bins, and on a slow phone',
    run: () => benchBoard({ many: !process.argv.includes('--sixty') }),
  },
  load: {
    title: 'Three hundred phones',
    run: () => benchLoad({ bins: Number(/--bins=(\d+)/.exec(process.argv.join(' '))?.[1] ?? 60) }),
  },
  model: { title: 'The bin model', run: benchModel },
  phone: { title: 'The log page on a slow phone', run: benchPhone },
  rota: { title: 'Filling a rota of eight weeks', run: benchRota },
  intake: { title: 'Sharing scraps among bins', run: benchIntake },
  'sign-up': { title: 'Taking places, and the page that shows them', run: benchSignUp },
  calendar: { title: 'Feeds for calendars', run: benchCalendar },
  'fan-out': { title: 'One change, 200 open pages', run: benchFanOut },
  'what-if': { title: 'A slider of the what-if, held', run: benchWhatIf },
  carry: { title: 'A list of 10,000 rows, and everything as one file and back', run: benchCarry },
  season: { title: 'The season of 60 bins over five years', run: benchSeason },
  store: { title: 'The demonstration and its store', run: benchStore },
  start: { title: 'npm start', run: () => benchStart({ compile: !process.argv.includes('--no-compile') }) },
};

const asked = process.argv.slice(2).filter((arg) => !arg.startsWith('--'));
const unknown = asked.filter((name) => !(name in benches));
if (unknown.length > 0)
  throw new RangeError(
    `Cannot measure as the name is unknown: current value is ${unknown.join(', ')}; known are ${Object.keys(benches).join(', ')}`,
  );

console.log(
  `Node ${process.version}, ${cpus().length} cores (${cpus()[0]?.model ?? 'unknown'}). Ratios travel between machines, times do not.`,
);
for (const [name, { title, run }] of Object.entries(benches)) {
  if (asked.length > 0 && !asked.includes(name)) continue;
  console.log(`\n## ${title}\n\n${await run()}`);
}
