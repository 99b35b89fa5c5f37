// docs/reference/licences.md and sbom.json: every package of others inside, read from the lock file, which holds no address of any registry.

/** What a package's own files say where its manifest says nothing. */
const LICENCE_IN_ITS_FILES = { 'png-js': 'MIT' };

/** Licences that ask for more than to be named, and why they may be used as they are here. */
const WITH_DUTIES = [
  [/LGPL/, 'a shared library in a file of its own, unchanged; anybody may put another build of it in its place'],
  [/MPL/, 'its own files stay under its own licence; they are unchanged'],
];

/**
 * @typedef {{ name: string, version: string, licence: string, sha512: string, scope: 'required' | 'optional' | 'excluded' }} Package
 *
 * @param {string} lockText package-lock.json
 * @returns {Package[]} sorted by name and version, each once
 */
export function packagesOf(lockText) {
  const found = new Map();
  for (const [path, entry] of Object.entries(JSON.parse(lockText).packages)) {
    const name =
      path.split('node_modules/')[1] === undefined ? null : path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);
    if (name === null || entry.link) continue;
    // CycloneDX: what is not delivered is "excluded", what another machine may need instead is "optional".
    const scope = entry.dev || entry.devOptional ? 'excluded' : entry.optional ? 'optional' : 'required';
    const licence = (entry.license ?? LICENCE_IN_ITS_FILES[name] ?? '').replace(/^\((.*)\)$/, '$1');
    const sha512 = Buffer.from(entry.integrity.replace(/^sha512-/, ''), 'base64').toString('hex');
    const key = `${name}@${entry.version}`;
    const before = found.get(key);
    if (before === undefined || before.scope === 'excluded') found.set(key, { name, version: entry.version, licence, sha512, scope });
  }
  return [...found.values()].sort((a, b) => (`${a.name}@${a.version}` < `${b.name}@${b.version}` ? -1 : 1));
}

const purlOf = ({ name, version }) => `pkg:npm/${name.replace('@', '%40')}@${version}`;
const licenceOf = (licence) => (/ (AND|OR) /.test(licence) ? { expression: licence } : { license: { id: licence } });

/** CycloneDX 1.5, one component a line; no time and no number of its own, so that the same lock file gives the same bytes. */
export function sbomText(lockText, version) {
  const components = packagesOf(lockText).map((one) => {
    const { name, version: at, licence, sha512, scope } = one;
    const hashes = [{ alg: 'SHA-512', content: sha512 }];
    return JSON.stringify({
      type: 'library',
      'bom-ref': purlOf(one),
      name,
      version: at,
      scope,
      purl: purlOf(one),
      hashes,
      licenses: [licenceOf(licence)],
    });
  });
  const self = { type: 'application', 'bom-ref': 'middenry', name: 'middenry', version, licenses: [{ license: { id: 'Apache-2.0' } }] };
  return `{
"bomFormat": "CycloneDX",
"specVersion": "1.5",
"version": 1,
"metadata": ${JSON.stringify({ component: self })},
"components": [
${components.join(',\n')}
]
}
`;
}

const SCOPES = {
  required: ['Runs with the program', 'Every machine has these.'],
  optional: ['One of several for different machines', 'Only those for the machine at hand are installed.'],
  excluded: ['For building and testing', 'None of them runs in the server or is sent to a browser.'],
};

export function licencesText(lockText) {
  const packages = packagesOf(lockText);
  const parts = Object.entries(SCOPES).map(([scope, [title, text]]) => {
    const rows = packages.filter((one) => one.scope === scope).map(({ name, version, licence }) => `| ${name} | ${version} | ${licence} |`);
    return `## ${title}\n\n${text} ${rows.length} packages.\n\n| package | version | licence |\n| --- | --- | --- |\n${rows.join('\n')}`;
  });
  const duties = WITH_DUTIES.map(([pattern, why]) => {
    const names = new Set(packages.filter(({ licence, scope }) => pattern.test(licence) && scope !== 'excluded').map(({ name }) => name));
    return `- ${pattern.source}: ${why}. ${[...names].map((name) => `\`${name}\``).join(', ')}.`;
  });
  return `# Packages and licences

Made by \`npm run gen\` from \`package-lock.json\`; for programs the same list is [sbom.json](sbom.json) (CycloneDX 1.5). Middenry itself is under the Apache License 2.0; the typeface under the SIL Open Font License 1.1.

Most licences here ask only to be named. These ask for more:

${duties.join('\n')}

${parts.join('\n\n')}
`;
}
