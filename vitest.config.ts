import { defineConfig } from 'vitest/config';

// One project a kind of test, so that quick checks can be run alone: npx vitest run --project core
const project = (name: string, include: string[], extra: object = {}) => ({
  test: { name, include, environment: 'node' as const, testTimeout: 30_000, hookTimeout: 60_000, ...extra },
});

export default defineConfig({
  test: {
    maxWorkers: 2,
    projects: [
      project('core', ['core/**/*.test.ts']),
      project('shells', ['{film,exchange,store,sheet,phantoms,server,cli,tools,cases}/**/*.test.ts'], {
        testTimeout: 120_000,
        hookTimeout: 180_000,
      }),
      project('web', ['web/**/*.test.{ts,tsx}'], { exclude: ['web/**/*.browser.test.ts', '**/node_modules/**'] }),
      project('browser', ['web/**/*.browser.test.ts'], {
        testTimeout: 180_000,
        hookTimeout: 240_000,
        // One browser at a time: two would take nearly as long together, and get in each other's way.
        fileParallelism: false,
        globalSetup: ['web/testing/demo-data.ts'],
        // What is waited for may take its time on a busy machine.
        expect: { poll: { timeout: 20_000 } },
      }),
    ],
  },
});
