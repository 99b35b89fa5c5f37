import { SETTINGS } from '../../apps/api/src/config.ts';
import { markdownTable, type ReferencePage } from './page.ts';

const flagOf = (name: string): string => `--${name.toLowerCase().replaceAll('_', '-')}`;

export const settingsPage: ReferencePage = {
  file: 'settings.md',
  title: 'Settings',
  about: 'Each is read from the environment or given as a flag to `npm start --`; the flag wins. Made from `apps/api/src/config.ts`.',
  body: () =>
    markdownTable(
      ['Environment', 'Flag', 'When left out', 'What it does'],
      SETTINGS.map(({ name, fallback, words }) => [
        `\`${name}\``,
        `\`${flagOf(name)}\``,
        fallback === '' ? 'nothing' : `\`${fallback}\``,
        words,
      ]),
    ),
};
