import { setTimeout as sleep } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { freshDataDir, startServer } from './server-process.ts';

const LONGEST_MS = 10_000;
const stillMs = (output: string) => [...output.matchAll(/"stillMs":(\d+)/g)].map(([, ms]) => Number(ms));

test('F26 at length: a server that is held for 5 s says so in its log; held for longer than 10 s it does not live meanwhile, and then does', async () => {
  const server = await startServer({ dataDir: freshDataDir() });
  const isAlive = () =>
    fetch(`${server.url}/livez`, { signal: AbortSignal.timeout(LONGEST_MS) }).then(
      ({ ok }) => ok,
      () => false,
    );
  const hold = async (ms: number) => {
    server.child.kill('SIGSTOP');
    const [alive] = await Promise.all([isAlive(), sleep(ms).then(() => server.child.kill('SIGCONT'))]);
    await sleep(3000);
    return alive;
  };
  try {
    expect(await isAlive()).toBe(true);
    const before = stillMs(server.output()).length;
    expect(await hold(5000)).toBe(true);
    expect(await hold(12_000)).toBe(false);
    expect(await isAlive()).toBe(true);
    const told = stillMs(server.output()).slice(before);
    console.log(`told: ${told.join(', ')} ms`);
    expect(told.filter((ms) => ms > 4000)).toHaveLength(2);
  } finally {
    server.child.kill('SIGKILL');
    await server.ended;
  }
});
