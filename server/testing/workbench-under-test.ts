import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Running, type RunOptions, runWorkbench } from '../src/run-workbench.ts';

/** A workbench on a port of its own with an empty data folder, and a browser's worth of manners to ask it. */
export interface WorkbenchUnderTest {
  readonly running: Running;
  readonly folder: string;
  readonly base: string;
  readonly cookie: string;
  /** The whole header that set it. */
  readonly setCookie: string;
  /** Faults inside that the server reported; a test that provokes none expects this to stay empty. */
  readonly faults: unknown[];
  get(path: string): Promise<Response>;
  post(path: string, body: unknown): Promise<Response>;
  upload(path: string, files: readonly { readonly name: string; readonly bytes: Uint8Array }[]): Promise<Response>;
  close(): Promise<void>;
}

export async function workbenchUnderTest(options: Partial<RunOptions> = {}): Promise<WorkbenchUnderTest> {
  const root = mkdtempSync(join(tmpdir(), 'gapline-server-'));
  const pages = join(root, 'pages');
  mkdirSync(pages);
  writeFileSync(join(pages, 'index.html'), '<!doctype html><title>Pages under test</title>');
  writeFileSync(join(pages, 'main.js'), '// pages under test');
  writeFileSync(join(root, 'secret.txt'), 'outside the pages');
  const folder = options.folder ?? join(root, 'data');
  const faults: unknown[] = [];
  const opened = await runWorkbench({
    port: 0,
    databaseUrl: null,
    pages,
    report: (error) => faults.push(error),
    ...options,
    folder,
  });
  if (!opened.ok) throw new Error(opened.reason.message);
  const running = opened.value;
  const base = `http://127.0.0.1:${running.port}`;
  const signedIn = await fetch(running.address, { redirect: 'manual' });
  const setCookie = signedIn.headers.get('set-cookie') ?? '';
  const cookie = setCookie.split(';')[0] ?? '';
  const headers = { cookie, origin: base };
  return {
    running,
    folder,
    base,
    cookie,
    setCookie,
    faults,
    get: (path) => fetch(base + path, { headers: { cookie } }),
    post: (path, body) =>
      fetch(base + path, {
        method: 'POST',
        headers: { ...headers, 'content-type': 'application/json' },
        body: JSON.stringify(body),
      }),
    upload(path, files) {
      const form = new FormData();
      for (const { name, bytes } of files) form.append('films', new Blob([new Uint8Array(bytes)]), name);
      return fetch(base + path, { method: 'POST', headers, body: form });
    },
    async close() {
      await running.close();
      rmSync(root, { recursive: true, force: true });
    },
  };
}

/** The JSON of an answer, as the type that the contract promises for it. */
export const jsonOf = async <T>(answer: Response | Promise<Response>): Promise<T> => (await (await answer).json()) as T;
