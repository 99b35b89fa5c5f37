// `node scripts/audit.mjs`: asks the registry whether a package in the lock file has a known hole.
// Exit 1 when one has that is high or critical; 0 when none has, and 0 with plain words when nobody could be asked.
import { pathToFileURL } from 'node:url';
import { main, runQuietly, say } from './lib.mjs';

const GRAVE = ['critical', 'high'];
/** How soon each is closed, as docs/security.md says. */
const WITHIN = { critical: 'within 7 days', high: 'within 30 days', moderate: 'with the next release', low: 'with the next release' };

/**
 * What npm's answer comes to.
 *
 * @param {string} output of `npm audit --json`
 * @returns {{ answered: boolean, lines: string[], grave: number }} `answered` is false when there was no answer about packages
 */
export function readAudit(output) {
  const start = output.indexOf('{');
  const end = output.lastIndexOf('}');
  const answer = start < 0 || end < start ? null : parsed(output.slice(start, end + 1));
  if (answer?.vulnerabilities === undefined) return { answered: false, lines: [], grave: 0 };
  const found = Object.values(answer.vulnerabilities);
  const lines = found.map(({ name, severity, range, fixAvailable }) => {
    const mend = fixAvailable ? 'a newer version closes it' : 'no newer version closes it yet';
    return `${severity}: ${name} ${range}; ${mend}; to be closed ${WITHIN[severity] ?? 'with the next release'}`;
  });
  return { answered: true, lines: lines.sort(), grave: found.filter(({ severity }) => GRAVE.includes(severity)).length };
}

function parsed(text) {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

async function ask() {
  const { output } = runQuietly('npm', ['audit', '--json', '--package-lock-only']);
  const { answered, lines, grave } = readAudit(output);
  if (!answered)
    return say('no answer about packages: the registry cannot be reached from here, or does not answer such questions. Nothing is known.');
  for (const line of lines) say(line);
  say(
    lines.length === 0
      ? 'no known hole in any package of the lock file.'
      : `${lines.length} packages with a known hole, ${grave} of them high or critical.`,
  );
  if (grave > 0) process.exitCode = 1;
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) await main(ask);
