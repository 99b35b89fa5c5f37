// Where the browser for the browser tests is. Used by scripts/test.mjs and by the tests themselves.
import { existsSync } from 'node:fs';
import { aptInstall, mayApt } from './lib.mjs';

// The same engine without the browser's own windows round it, which cost each page opened a second one.
const SHELL = '/usr/bin/chromium-headless-shell';
const knownPaths = [
  SHELL,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome-stable',
  '/usr/bin/google-chrome',
  '/snap/bin/chromium',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:/Program Files/Google/Chrome/Application/chrome.exe',
];

/** One sentence for whoever has no browser. */
export const chromiumMissing =
  'No Chromium was found, so the browser tests fail: run `sudo apt-get install chromium-headless-shell` (or set CHROMIUM_PATH to a Chromium or Chrome) and test again.';

/** Arguments that make Chromium steady in a container and silent on the network. */
export const chromiumArgs = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/**
 * Gives the path of a Chromium, or undefined.
 * @returns {string | undefined}
 */
export function findChromium() {
  const named = process.env.CHROMIUM_PATH;
  if (named) return existsSync(named) ? named : undefined;
  return knownPaths.find((path) => existsSync(path));
}

/** Like findChromium, but installs the quick one first where that is ours to do: as root on Debian (which is what a CI machine is). */
export async function ensureChromium() {
  if (process.env.CHROMIUM_PATH || existsSync(SHELL) || !mayApt()) return findChromium();
  const isInstalled = await aptInstall(['chromium-headless-shell']);
  // An old Debian has only the other.
  if (!isInstalled && findChromium() === undefined) await aptInstall(['chromium']);
  return findChromium();
}
