import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const never = ['**/node_modules/**', '**/build/**', '**/.svelte-kit/**'];
const alias = { $lib: here('./apps/web/src/lib') };

// Minutes to hours each, so they exist only for `npm run proof`, which says so.
const proof = {
  test: {
    name: 'proof',
    include: ['tests/**/*.proof.ts'],
    exclude: never,
    fileParallelism: false,
    sequence: { groupOrder: 2 },
    testTimeout: 3_600_000,
    hookTimeout: 120_000,
  },
};

/** One project per kind of test; `scripts/test.mjs` runs them all, `npx vitest run --project unit` runs one. */
export default defineConfig({
  test: {
    // A retry would hide a race, and a test that passes by having nothing in it would hide everything.
    retry: 0,
    // Left alone, the runner keeps one core of two for itself and takes nearly twice as long.
    maxWorkers: Math.max(2, availableParallelism() - 1),
    passWithNoTests: false,
    projects: [
      {
        resolve: { alias },
        test: {
          name: 'unit',
          // No file leaves anything behind in a module, so they share what they import.
          isolate: false,
          include: [
            'packages/**/*.test.ts',
            'apps/*/src/**/*.test.ts',
            'apps/web/adapter/**/*.test.ts',
            'seed/**/*.test.ts',
            'scripts/**/*.test.ts',
          ],
          exclude: never,
        },
      },
      {
        test: {
          name: 'api',
          isolate: false,
          include: ['tests/{api,outside,faults,migrations}/**/*.test.ts'],
          exclude: never,
          testTimeout: 30_000,
          hookTimeout: 60_000,
        },
      },
      { test: { name: 'tidy', include: ['tests/tidy/**/*.test.ts'], exclude: never, testTimeout: 30_000 } },
      {
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          globalSetup: ['tests/browser/prepared.ts'],
          exclude: never,
          // After everything else, and two files at once, each with its browser and its server: one alone leaves half of two cores idle.
          maxWorkers: 2,
          // What is tested runs in processes of its own, so the files share what they import and not what they test.
          isolate: false,
          maxConcurrency: 2,
          sequence: { groupOrder: 1 },
          testTimeout: 60_000,
          hookTimeout: 90_000,
          // A page says a thing when it has it: a second is too short for one that waits its turn on a busy machine.
          expect: { poll: { timeout: 10_000 } },
        },
      },
      ...(process.env.PROOF === 'long' ? [proof] : []),
    ],
  },
});
