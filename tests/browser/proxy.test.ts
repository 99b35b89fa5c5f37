/** Reached by phones: through nginx with the very file of docs/how-to, over TLS. */
import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { createHash, X509Certificate } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, request } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { aptInstall, mayApt } from '../../scripts/lib.mjs';
import { freshId } from '../cast.ts';
import { openBrowser, type Running, serve, visit } from './harness.ts';

const NGINX = '/usr/sbin/nginx';
const site = readFileSync(fileURLToPath(new URL('../../docs/how-to/nginx-middenry.conf', import.meta.url)), 'utf8');

let dir: string;
let proxy: ChildProcess;
let server: Running;
let browser: Browser;
let origin: string;

async function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const probe = createServer().listen(0, '127.0.0.1', () => {
      const { port } = probe.address() as { port: number };
      probe.close(() => resolve(port));
    });
  });
}

/** One certificate is trusted by its key. Errors that are looked away from instead cost Chromium a restart each, and it counts those. */
function trusting(certFile: string): string {
  const key = new X509Certificate(readFileSync(certFile)).publicKey.export({ type: 'spki', format: 'der' });
  return `--ignore-certificate-errors-spki-list=${createHash('sha256').update(key).digest('base64')}`;
}

/** nginx's own frame round the file as it is written, with the ports and the certificate of this test. */
function startNginx(tlsPort: number, appPort: number): ChildProcess {
  const [key, cert] = [join(dir, 'key.pem'), join(dir, 'cert.pem')];
  execFileSync(
    'openssl',
    ['req', '-x509', '-newkey', 'rsa:2048', '-nodes', '-days', '2', '-subj', '/CN=localhost', '-keyout', key, '-out', cert],
    { stdio: 'ignore' },
  );
  const ours = site
    .replace('listen 443 ssl;', `listen 127.0.0.1:${tlsPort} ssl;`)
    .replace(/ssl_certificate {2,}\S+;/, `ssl_certificate ${cert};`)
    .replace(/ssl_certificate_key \S+;/, `ssl_certificate_key ${key};`)
    .replaceAll('127.0.0.1:4860', `127.0.0.1:${appPort}`);
  mkdirSync(join(dir, 'temp'));
  const temp = ['client_body', 'proxy', 'fastcgi', 'uwsgi', 'scgi']
    .map((name) => `${name}_temp_path ${join(dir, 'temp', name)};`)
    .join(' ');
  const user = process.getuid?.() === 0 ? 'user root;' : '';
  const file = join(dir, 'nginx.conf');
  writeFileSync(
    file,
    `${user} daemon off; pid ${join(dir, 'pid')}; error_log ${join(dir, 'error.log')};\nevents {}\nhttp { access_log ${join(dir, 'access.log')}; ${temp}\n${ours}\n}\n`,
  );
  return spawn(NGINX, ['-c', file, '-p', dir], { stdio: 'ignore' });
}

beforeAll(async () => {
  if (!existsSync(NGINX) && mayApt()) await aptInstall(['nginx-light', 'openssl']);
  if (!existsSync(NGINX)) throw new Error('nginx was not found: install it with `sudo apt-get install nginx-light` and test again.');
  dir = mkdtempSync(join(tmpdir(), 'middenry-proxy-'));
  const [tlsPort, appPort] = [await freePort(), await freePort()];
  origin = `https://localhost:${tlsPort}`;
  server = await serve({
    flags: ['--public-demo'],
    env: { PORT: String(appPort), PUBLIC_URL: origin, TRUSTED_PROXY: '127.0.0.1' },
  });
  proxy = startNginx(tlsPort, appPort);
  process.once('exit', () => proxy.kill('SIGKILL'));
  browser = await openBrowser([trusting(join(dir, 'cert.pem'))]);
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
  if (proxy?.exitCode === null) {
    const ended = new Promise((resolve) => proxy.once('exit', resolve));
    proxy.kill('SIGTERM');
    await ended;
  }
  rmSync(dir, { recursive: true, force: true });
});

test('H18: signing in, the board and live changes work over TLS, with a cookie that never leaves it', async () => {
  const asker = await request.newContext({ baseURL: origin, ignoreHTTPSErrors: true });
  await expect.poll(async () => (await asker.get('/livez').catch(() => null))?.status(), { timeout: 10_000 }).toBe(200);
  await asker.dispose();
  const walk = await visit(browser, origin, { viewport: { width: 360, height: 640 } });
  await walk.page.goto('/sign-in');
  await walk.page.getByRole('button', { name: 'Look round as volunteer' }).click();
  await walk.page.waitForURL(`${origin}/`);
  const cookie = (await walk.context.cookies()).find((one) => one.httpOnly);
  expect(cookie).toMatchObject({ secure: true, httpOnly: true });
  expect(cookie?.name.startsWith('__Host-')).toBe(true);
  // The first words of the event stream arrive although the stream never ends.
  const first = await walk.page.evaluate(
    () =>
      new Promise<string>((resolve, reject) => {
        const source = new EventSource('/api/events');
        source.onopen = () => resolve('open');
        source.onerror = () => reject(new Error('the stream broke'));
      }),
  );
  expect(first).toBe('open');
  expect(await walk.page.locator('.tile').count()).toBe(14);
  expect(walk.strangers).toEqual([]);
  expect(walk.complaints).toEqual([]);
  await walk.close();
});

test('E9, H18: pages, files and what is not there say what a browser may do with them, and for a year by https alone', async () => {
  const asker = await request.newContext({ baseURL: origin, ignoreHTTPSErrors: true });
  await expect.poll(async () => (await asker.get('/livez').catch(() => null))?.status(), { timeout: 10_000 }).toBe(200);
  for (const path of ['/sign-in', '/no-such-page', '/api/session', '/manifest.webmanifest', '/mark.svg']) {
    const headers = (await asker.get(path)).headers();
    expect([path, headers['strict-transport-security'], headers['x-content-type-options'], headers['x-frame-options']]).toEqual([
      path,
      'max-age=31536000; includeSubDomains',
      'nosniff',
      'DENY',
    ]);
    if (!String(headers['content-type']).startsWith('text/html')) continue;
    const policy = headers['content-security-policy'] ?? '';
    for (const part of ["default-src 'none'", "object-src 'none'", "base-uri 'none'", "frame-ancestors 'none'", "form-action 'self'"])
      expect([path, policy]).toEqual([path, expect.stringContaining(part)]);
    expect(policy).toMatch(/script-src 'self' 'sha256-[^;]*'nonce-/);
    expect(policy).not.toMatch(/unsafe-(inline|eval)|\*|https?:/);
  }
  await asker.dispose();
});

test('H18: the pages with most scripts come through whole, as their headers name them all', async () => {
  const asker = await request.newContext({ baseURL: origin, ignoreHTTPSErrors: true });
  await asker.post('/api/session/demo', { data: { as: 'coordinator' }, headers: { origin } });
  const [bin] = (await (await asker.get('/api/bins')).json()).items;
  let longest = 0;
  for (const path of [
    '/',
    `/bins/${bin.id}`,
    `/bins/${bin.id}/log`,
    `/bins/${bin.id}/what-if`,
    '/season',
    '/sites',
    '/look',
    '/look/wall',
  ]) {
    const answer = await asker.get(path);
    expect([path, answer.status()]).toEqual([path, 200]);
    longest = Math.max(longest, ...answer.headersArray().map(({ value }) => value.length));
  }
  // Else the file's own size of buffer would not be tried: nginx has 4 kB for all headers of an answer when nothing is said.
  expect(longest).toBeGreaterThan(3500);
  await asker.dispose();
});

test('E15: a change goes through whatever a stranger forwards, and one from another origin does not', async () => {
  const walk = await visit(browser, origin, { ignoreHTTPSErrors: true });
  const asker = walk.context.request;
  const send = (path: string, data: object, headers: Record<string, string>) => asker.post(path, { data, headers });
  const entered = await send('/api/session/demo', { as: 'volunteer' }, { origin });
  expect(entered.status()).toBe(201);
  const [bin] = (await (await asker.get('/api/bins')).json()).items;
  const note = () => ({ id: freshId(), binId: bin.id, happenedAt: new Date().toISOString(), note: 'by way of the proxy' });
  const spoof = { 'x-forwarded-for': '203.0.113.77', 'x-forwarded-host': 'elsewhere.example', 'x-forwarded-proto': 'http' };
  const noted = await send('/api/notes', note(), { origin, ...spoof });
  expect([noted.status(), (await noted.json()).note]).toEqual([201, 'by way of the proxy']);
  const refused = await send('/api/notes', note(), { origin: 'https://elsewhere.example', ...spoof });
  expect([refused.status(), (await refused.json()).code]).toEqual([403, 'cross-site']);
  await walk.close();
});

test('C16, E14: neither log of the proxy holds the secret of an address that must have one, with Middenry there or gone', async () => {
  const walk = await visit(browser, origin);
  const asker = await request.newContext({ baseURL: origin, ignoreHTTPSErrors: true });
  const make = async (path: string, data: object) => (await (await asker.post(path, { data, headers: { origin } })).json()).path as string;
  expect((await asker.post('/api/session/demo', { data: { as: 'coordinator' }, headers: { origin } })).status()).toBe(201);
  const feed = await make('/api/calendar-links', { id: freshId() });
  const season = await make('/api/links', { id: freshId(), kind: 'season' });
  const [invite, board] = [await make('/api/invites', { id: freshId() }), await make('/api/links', { id: freshId(), kind: 'board' })];
  const older = [invite.replace('#', '/'), board.replace('#', '/'), `${board.replace('#', '/')}/wall`];
  for (const path of [feed, season, ...older]) expect([path, (await asker.get(path)).status()]).toEqual([path, 200]);
  for (const [opened, there] of [
    [invite, 'Come in'],
    [board, ''],
  ] as const) {
    await walk.page.goto(opened);
    await (there === '' ? walk.page.locator('.tile').first() : walk.page.getByRole('button', { name: there })).waitFor();
  }
  await server.stop();
  for (const path of [feed, season, ...older, '/sign-in']) expect([path, (await asker.get(path)).status()]).toEqual([path, 503]);
  const logs = ['access.log', 'error.log'].map((name) => readFileSync(join(dir, name), 'utf8'));
  // Both logs are kept: of what else was asked, well and in vain.
  expect(logs[0]).toContain('POST /api/invite-cards HTTP');
  expect(logs[0]).toContain('POST /api/linked-boards HTTP');
  expect(logs[1]).toContain('GET /sign-in HTTP');
  const secrets = [feed, season, invite, board].map((path) => /[\w-]{43}/.exec(path)![0]);
  expect(secrets.filter((secret) => logs.some((log) => log.includes(secret)))).toEqual([]);
  await Promise.all([walk.close(), asker.dispose()]);
});

test('F32: while Middenry is not there yet, a page in words that loads itself again is there in its place', async () => {
  const walk = await visit(browser, origin, { viewport: { width: 360, height: 640 } });
  const answer = await walk.page.goto('/bins', { waitUntil: 'commit' });
  const { 'retry-after': again, 'content-type': type, 'cache-control': cache } = answer!.headers();
  expect([answer!.status(), again, type, cache]).toEqual([503, '5', 'text/html; charset=utf-8', 'no-store']);
  await walk.page.getByRole('heading', { name: 'One moment: Middenry is starting.' }).waitFor();
  expect(await walk.page.locator('meta[http-equiv=refresh]').getAttribute('content')).toBe('5');
  await walk.close();
});
