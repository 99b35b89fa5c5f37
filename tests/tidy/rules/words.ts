import { isGenerated, isScript, isTidy, matches, type TidyRule } from '../rule.ts';

const join = (...parts: string[]): string => parts.join('');

/** Spelled in pieces, so that this file does not break its own rules. */
const later = new RegExp(
  `\\b(${['TO', 'FIX', 'XX', 'HA'].map((start, index) => start + ['DO', 'ME', 'X', 'CK'][index]).join('|')})\\b`,
  'g',
);
const machinePath = /(?<![\w./:-])\/(work|root|tmp|home|Users|var\/folders)\/[\w.-]+/g;
const registryHost = /https?:\/\/(registry\.|npm\.|[\w.-]*(artifactory|nexus|verdaccio|jfrog|pypi|mirror)[\w.-]*)[^\s"']*/gi;

export const laterRule: TidyRule = {
  name: 'words: nothing put off in a comment',
  applies: (path) => !isGenerated(path) && !isTidy(path),
  complaints: (file) => matches(file, later, (found) => `"${found}": do it now, or write it down as an issue`),
  caught: [{ path: 'apps/api/src/a.ts', text: join('// TO', 'DO: later') }],
  allowed: [{ path: 'apps/api/src/a.ts', text: '// todos are a word in Spanish' }],
};

export const machineRule: TidyRule = {
  name: 'words: no path or registry of one machine',
  applies: (path) => !isTidy(path),
  complaints: (file) => [
    ...matches(file, machinePath, (found) => `"${found}" exists on one machine only: build the path from where the file is`),
    ...matches(file, registryHost, (found) => `"${found}" is somebody's registry: leave the host out`),
  ],
  caught: [
    { path: 'docs/a.md', text: join('see /wo', 'rk/main/README.md') },
    { path: 'apps/api/src/a.ts', text: join("open('/tm", "p/middenry.db')") },
    { path: 'package-lock.json', text: join('"resolved": "ht', 'tps://regis', 'try.example.org/zod"') },
  ],
  allowed: [
    { path: 'apps/web/src/a.ts', text: "const path = '/api/root/of/things'; const shown = 'packages/home/x';" },
    { path: 'docs/a.md', text: 'https://www.rfc-editor.org/rfc/rfc4180' },
  ],
};

const webUrl = /(?<![\w:/])(https?:)?\/\/(?!127\.0\.0\.1|localhost|www\.w3\.org\/)[\w-]+(\.[\w-]+)+[^\s"'`)<]*/g;
const comment = /\/\*[\s\S]*?\*\/|(?<=^|\s)\/\/[^\n]*|<!--[\s\S]*?-->/g;
const withoutComments = (text: string): string => text.replace(comment, (found) => found.replace(/[^\n]/g, ' '));

/** C30's part that reading can settle; the other part is the browser tests' list of requests. */
export const thirdPartyRule: TidyRule = {
  name: 'C30: a page names no other host',
  applies: (path) => /^apps\/web\/(src|static)\/.*(?<!\.test)\.(ts|js|svelte|css|html|webmanifest|svg)$/.test(path),
  complaints: (file) =>
    matches({ ...file, text: withoutComments(file.text) }, webUrl, (found) => `"${found}": serve it ourselves, or leave it out`),
  caught: [
    { path: 'apps/web/src/app.html', text: join('<link href="https://', 'fonts.example.com/a.css">') },
    { path: 'apps/web/src/a.css', text: join('@import url(//', 'cdn.example.com/a.css);') },
  ],
  allowed: [
    { path: 'apps/web/src/a.ts', text: "/* see https://example.org/a */\nconst ns = 'http://www.w3.org/2000/svg';" },
    // A test stands in no page, and an address has to be tried with one.
    { path: 'apps/web/src/a.test.ts', text: join("labelAddress('https://", "example.org')") },
    { path: 'apps/web/src/b.ts', text: "// https://example.org\nfetch('/api/board');" },
  ],
};

export const locationRule: TidyRule = {
  name: 'C24: nobody is asked where they are',
  applies: (path) => isScript(path) && /^(apps|packages)\//.test(path),
  complaints: (file) =>
    matches(file, /navigator\s*\??\.\s*geolocation|\bgetCurrentPosition\b|\bwatchPosition\b/g, (found) => `${found}: no location, ever`),
  caught: [{ path: 'apps/web/src/a.ts', text: 'navigator.geolocation.getCurrentPosition(show);' }],
  allowed: [{ path: 'apps/api/src/a.ts', text: "reply.header('permissions-policy', 'geolocation=()');" }],
};
