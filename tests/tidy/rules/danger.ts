import { isScript, isTidy, type TidyRule } from '../rule.ts';

interface Danger {
  readonly applies: (path: string) => boolean;
  readonly pattern: RegExp;
  readonly what: string;
}

const anywhere = () => true;
const inApi = (path: string) => path.startsWith('apps/api/src/');

const DANGERS: readonly Danger[] = [
  { applies: anywhere, pattern: /\beval\s*\(|\bnew Function\s*\(/, what: 'text is run as a program' },
  {
    applies: anywhere,
    pattern: /\b(inner|outer)HTML\b|\binsertAdjacentHTML\b|\bdocument\.write\b/,
    what: 'text becomes markup: set textContent, or let Svelte write it',
  },
  // The only markup that is put in as it is are the codes that our own server draws.
  { applies: anywhere, pattern: /\{@html (?![\w.]+\.qr\})/, what: 'text becomes markup: let Svelte write it' },
  { applies: anywhere, pattern: /\bcreateHash\(\s*['"`](md5|sha1)['"`]/, what: 'a hash that is broken: use sha256' },
  {
    applies: anywhere,
    pattern: /\bcreate(Cipher|Decipher)(iv)?\b/,
    what: 'encryption of our own: there is none here, and a new one wants a decision',
  },
  { applies: inApi, pattern: /\bchild_process\b/, what: 'the server starts no other program' },
  {
    applies: (path) => inApi(path) && path !== 'apps/api/src/services/mail/sender.ts',
    pattern: /(?<![.\w])fetch\(|^import (?!type |\{ isIP \}).*['"]node:(http|https|net|tls|dgram)['"]|\bcreateTransport\b/,
    what: 'E21: the server speaks to nobody but the mail server of its operator, in services/mail/sender.ts',
  },
  { applies: inApi, pattern: /\bMath\.random\b/, what: 'chance that can be guessed: use services/secret.ts, or pass a seed' },
];

/** ASVS 5.0 rows 1.2.5, 1.3.2, 3.2.2, 11.3.1, 11.3.2 and 11.4.1; see docs/security.md. */
export const dangerRule: TidyRule = {
  name: 'E1: nothing that runs, draws or hashes what strangers sent in a dangerous way',
  applies: (path) => isScript(path) && /^(apps|packages)\//.test(path) && !isTidy(path),
  complaints: ({ path, text }) =>
    text
      .split('\n')
      .flatMap((line, index) =>
        DANGERS.filter(({ applies, pattern }) => applies(path) && pattern.test(line)).map(({ what }) => ({ line: index + 1, what })),
      ),
  caught: [
    { path: 'apps/web/src/a.ts', text: 'eval(text);' },
    { path: 'packages/domain/src/a.ts', text: 'const run = new Function("x", body);' },
    { path: 'apps/web/src/A.svelte', text: '<p>{@html note}</p>' },
    { path: 'apps/web/src/a.ts', text: 'box.innerHTML = note;' },
    { path: 'apps/api/src/a.ts', text: "createHash('md5')" },
    { path: 'apps/api/src/a.ts', text: "createCipheriv('aes-128-ecb', key, null)" },
    { path: 'apps/api/src/a.ts', text: "import { exec } from 'node:child_process';" },
    { path: 'apps/api/src/a.ts', text: 'const token = Math.random();' },
    { path: 'apps/api/src/a.ts', text: 'await fetch(body.url);' },
    { path: 'apps/api/src/a.ts', text: "import { request } from 'node:https';" },
  ],
  allowed: [
    { path: 'apps/web/src/A.svelte', text: '<div class="qr">{@html invite.qr}</div>' },
    { path: 'apps/api/src/a.ts', text: "createHash('sha256').update(text)" },
    { path: 'apps/web/src/a.ts', text: 'waitMs(failed, null, Math.random())' },
  ],
};
