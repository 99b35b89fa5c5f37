import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { addressOf, carriedFiles } from './carried.js';
import { iconPng } from './icon.js';

/** Pages that work from a cold start with no network: those at the bin, and the made-up bin, which asks nobody. */
const CARRIED_PAGES = ['/(app)/log', '/(app)/bins/[id]/log', '/(app)/waiting', '/(app)/find', '/b/[code]', '/(app)/what-if'];
const ALSO_CARRIED = ['shell.html', 'mark.svg', 'manifest.webmanifest', 'fonts/atkinson-hyperlegible-next-latin-wght-normal.woff2'];
/** The mark of an icon that may be cut to a circle stays well within it. */
const SAFE_SHARE = 0.62;

/**
 * Puts the built pages where the Fastify process mounts them: client files to be served as
 * they are, the server as a module that answers a Request. No listener of its own.
 *
 * @param {{ out: string }} options
 * @returns {import('@sveltejs/kit').Adapter}
 */
export default function adapter({ out }) {
  return {
    name: 'middenry-in-process',
    async adapt(builder) {
      rmSync(out, { recursive: true, force: true });
      builder.writeClient(`${out}/client`);
      builder.writePrerendered(`${out}/prerendered`);
      builder.writeServer(`${out}/server`);
      for (const size of [192, 512]) writeFileSync(`${out}/client/icon-${size}.png`, iconPng(size));
      writeFileSync(`${out}/client/icon-masked.png`, iconPng(512, SAFE_SHARE));
      await writeShell(builder, out);
      writeFileSync(`${out}/server/manifest.js`, `export const manifest = ${builder.generateManifest({ relativePath: './' })};\n`);
      await fillWorker(builder, out);
      await builder.compress(`${out}/client`);
    },
  };
}

/**
 * The shell stands in for pages at the bin when there is no signal; it says so, since then nobody waits long.
 *
 * @param {import('@sveltejs/kit').Builder} builder
 * @param {string} out
 */
async function writeShell(builder, out) {
  const file = `${out}/client/shell.html`;
  await builder.generateFallback(file);
  writeFileSync(file, readFileSync(file, 'utf8').replace('<html ', '<html data-shell '));
}

/**
 * Tells the service worker what it carries.
 *
 * @param {import('@sveltejs/kit').Builder} builder
 * @param {string} out
 */
async function fillWorker(builder, out) {
  const worker = `${out}/client/service-worker.js`;
  if (!existsSync(worker)) throw new Error('Cannot fill the service worker as it was not built');
  const chunks = JSON.parse(readFileSync(path.join(builder.config.kit.outDir, 'output/client/.vite/manifest.json'), 'utf8'));
  const { manifest } = await import(`${pathToFileURL(path.resolve(`${out}/server/manifest.js`)).href}?${Date.now()}`);
  const files = [...carriedFiles(chunks, manifest._.routes, CARRIED_PAGES), ...ALSO_CARRIED].map((file) => `/${file}`);
  const filled = readFileSync(worker, 'utf8')
    .replace('%carried-files%', files.join(' '))
    .replace('%carried-pages%', CARRIED_PAGES.map(addressOf).join(' '));
  if (filled.includes('%carried')) throw new Error('Cannot fill the service worker as it no longer says where');
  writeFileSync(worker, filled);
}
