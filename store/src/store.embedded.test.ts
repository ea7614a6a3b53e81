import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { afterAll } from 'vitest';
import { type StoreUnderTest, storeSuite } from '../testing/store-suite.ts';
import { openEmbeddedStore } from './open-store.ts';

async function openIn(folder: string): Promise<StoreUnderTest> {
  const opened = await openEmbeddedStore(folder);
  if (!opened.ok) throw new Error(opened.reason.message);
  const store = opened.value;
  return {
    store,
    async sql(text) {
      const database = new DatabaseSync(join(folder, 'gapline.db'));
      try {
        database.exec(text);
      } finally {
        database.close();
      }
    },
    async reopen() {
      await store.close();
      return openIn(folder);
    },
    close: () => store.close(),
  };
}

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true });
});

storeSuite('the embedded database', () => {
  const folder = mkdtempSync(join(tmpdir(), 'gapline-store-'));
  folders.push(folder);
  return openIn(folder);
});
