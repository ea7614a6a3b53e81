import { readFileSync } from 'node:fs';
import { request } from 'node:http';
import { connect } from 'node:net';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { jsonOf, type WorkbenchUnderTest, workbenchUnderTest } from '../testing/workbench-under-test.ts';
import type { CaseState, CaseSummary, ErrorBody, FilmAbout, ImportedFile } from './contract.ts';
import { filmWork } from './film-work.ts';

const ctFilm = readFileSync(new URL('../../film/testdata/pydicom/CT_small.dcm', import.meta.url));

let bench: WorkbenchUnderTest;
beforeAll(async () => {
  bench = await workbenchUnderTest();
});
afterAll(async () => {
  await bench.close();
  expect(bench.faults).toEqual([]);
});

const errorOf = async (answer: Promise<Response>) => {
  const got = await answer;
  const { error } = await jsonOf<ErrorBody>(got);
  return { status: got.status, ...error };
};
const newCase = async (title: string, films: readonly CaseFilm[] = []): Promise<CaseState> =>
  jsonOf(bench.post('/api/cases', { title, side: 'left', films }));
const importCt = async (query = ''): Promise<Extract<ImportedFile, { accepted: true }>> => {
  const [file] = await jsonOf<ImportedFile[]>(
    bench.upload(`/api/imports${query}`, [{ name: 'CT_small.dcm', bytes: ctFilm }]),
  );
  if (!file?.accepted) throw new Error('the film was refused');
  return file;
};

/** A request as no browser would send it: every header by hand. */
const raw = (path: string, headers: Record<string, string>, method = 'GET'): Promise<number> =>
  new Promise((resolve, reject) => {
    const sent = request({ host: '127.0.0.1', port: bench.running.port, path, method, headers }, (answer) => {
      answer.resume();
      resolve(answer.statusCode ?? 0);
    });
    sent.once('error', reject);
    sent.end();
  });

describe('signing in', () => {
  test('the key opens one session and is dead after that', async () => {
    const again = await fetch(bench.running.address, { redirect: 'manual' });
    expect(again.status).toBe(401);
    expect(again.headers.get('set-cookie')).toBeNull();
    expect((await jsonOf<ErrorBody>(again)).error.code).toBe('key-not-valid');
  });

  test('a used key in a browser that is signed in just leads to the pages', async () => {
    const again = await fetch(bench.running.address, { redirect: 'manual', headers: { cookie: bench.cookie } });
    expect([again.status, again.headers.get('location')]).toEqual([303, '/']);
  });

  test('a wrong key spends nothing', async () => {
    const other = await workbenchUnderTest();
    expect(other.cookie).toMatch(/^gapline-\d+=.{40,}$/);
    await other.close();
    const third = await workbenchUnderTest();
    expect((await fetch(`${third.base}/?key=wrong`, { redirect: 'manual' })).status).toBe(401);
    expect((await third.get('/api/cases')).status).toBe(200);
    await third.close();
  });

  test('the cookie cannot be read by scripts nor sent along by another site', () => {
    expect(bench.setCookie).toMatch(/^gapline-\d+=[\w-]{43}; Path=\/; HttpOnly; SameSite=Strict; Max-Age=43200$/);
    expect(bench.setCookie).toContain(`gapline-${bench.running.port}=`);
  });

  test('a restart has a new key, and browsers that were signed in stay so', async () => {
    const first = await workbenchUnderTest();
    const { port } = first.running;
    const oldKey = first.running.address;
    await first.running.close();
    const second = await workbenchUnderTest({ folder: first.folder, port });
    expect(second.running.address).not.toBe(oldKey);
    expect((await fetch(oldKey, { redirect: 'manual' })).status).toBe(401);
    expect((await fetch(`${second.base}/api/cases`, { headers: { cookie: first.cookie } })).status).toBe(200);
    await second.close();
    await first.close();
  });

  test('a session ends after a working day', async () => {
    let now = Date.UTC(2026, 0, 1, 8);
    const day = await workbenchUnderTest({ now: () => new Date(now) });
    expect((await day.get('/api/cases')).status).toBe(200);
    now += 11.9 * 3_600_000;
    expect((await day.get('/api/cases')).status).toBe(200);
    now += 0.2 * 3_600_000;
    expect((await day.get('/api/cases')).status).toBe(401);
    await day.close();
  });

  test.each(['/', '/main.js', '/api/cases', '/api/about', '/api/films/x/pixels', '/nowhere'])(
    'without a session %s is refused',
    async (path) => {
      expect(await errorOf(fetch(bench.base + path))).toMatchObject({ status: 401, code: 'not-signed-in' });
      const forged = fetch(bench.base + path, { headers: { cookie: bench.cookie.replace(/=.*/, '=forged') } });
      expect((await forged).status).toBe(401);
    },
  );

  test('a person who opens the address without a key reads what to do', async () => {
    const page = await fetch(bench.base, { headers: { accept: 'text/html' } });
    expect(page.headers.get('content-type')).toContain('text/html');
    expect(await page.text()).toContain('Open the address that the terminal shows');
  });
});

describe('who may ask', () => {
  test.each(['evil.example', 'evil.example:80', '127.0.0.1', '127.0.0.1:1', 'localhost.evil.example'])(
    'a request to the host %j is refused (DNS rebinding)',
    async (host) => {
      expect(await raw('/api/cases', { host, cookie: bench.cookie })).toBe(403);
    },
  );

  test('localhost with the right port is ours', async () => {
    const host = `localhost:${bench.running.port}`;
    expect(await raw('/api/cases', { host, cookie: bench.cookie })).toBe(200);
  });

  test.each(['http://evil.example', 'null', 'http://127.0.0.1:1', 'https://127.0.0.1'])(
    'a change asked for by a page of %s is refused although the cookie is right (CSRF)',
    async (origin) => {
      const answer = fetch(`${bench.base}/api/cases`, {
        method: 'POST',
        headers: { cookie: bench.cookie, origin, 'content-type': 'application/json' },
        body: JSON.stringify({ title: 'Forged', side: 'left', films: [] }),
      });
      expect(await errorOf(answer)).toMatchObject({ status: 403, code: 'origin-not-allowed' });
      const titles = (await jsonOf<CaseSummary[]>(bench.get('/api/cases'))).map((c) => c.title);
      expect(titles).not.toContain('Forged');
    },
  );

  test('a change that tells no origin is refused, and so is data asked for from another site', async () => {
    const host = `127.0.0.1:${bench.running.port}`;
    const cookie = bench.cookie;
    expect(await raw('/api/cases', { host, cookie, 'content-type': 'application/json' }, 'POST')).toBe(403);
    expect(await raw('/api/cases', { host, cookie, origin: 'http://evil.example' })).toBe(403);
    expect(await raw('/api/cases', { host, cookie, 'sec-fetch-site': 'cross-site' })).toBe(403);
    expect(await raw('/api/cases', { host, cookie, 'sec-fetch-site': 'same-origin' })).toBe(200);
  });

  test('the server listens on the loopback alone', () => {
    expect(bench.running.address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/\?key=[\w-]{32}$/);
  });
});

describe('headers of every answer', () => {
  test.each(['/', '/main.js', '/api/cases', '/api/nowhere'])('%s is guarded and not kept', async (path) => {
    const { headers } = await bench.get(path);
    const policy = headers.get('content-security-policy') ?? '';
    expect(policy).toContain("default-src 'self'");
    expect(policy).toContain("frame-ancestors 'none'");
    // WebAssembly from here may run (the barcode reader); inline scripts and eval may not.
    expect(policy).not.toMatch(/'unsafe-/);
    expect(headers.get('cache-control')).toBe('no-store');
    expect(headers.get('referrer-policy')).toBe('no-referrer');
    expect(headers.get('x-content-type-options')).toBe('nosniff');
    expect(headers.get('cross-origin-opener-policy')).toBe('same-origin');
    expect(headers.get('cross-origin-embedder-policy')).toBe('require-corp');
    expect(headers.get('cross-origin-resource-policy')).toBe('same-origin');
    expect(headers.get('access-control-allow-origin')).toBeNull();
    expect(headers.get('strict-transport-security')).toBeNull();
  });
});

describe('hostile requests', () => {
  test.each([
    '/../secret.txt',
    '/..%2fsecret.txt',
    '/%2e%2e/secret.txt',
    '/%2e%2e%2fsecret.txt',
    '/..%5csecret.txt',
    '/main.js/../../secret.txt',
    '/%00',
    '/api/../../secret.txt',
    '/%c0%ae%c0%ae/secret.txt',
  ])('%s leads nowhere', async (path) => {
    const text = await new Promise<string>((resolve, reject) => {
      const socket = connect(bench.running.port, '127.0.0.1', () => {
        const host = `127.0.0.1:${bench.running.port}`;
        socket.write(`GET ${path} HTTP/1.1\r\nHost: ${host}\r\nCookie: ${bench.cookie}\r\nConnection: close\r\n\r\n`);
      });
      let got = '';
      socket.setEncoding('utf8').on('data', (chunk: string) => {
        got += chunk;
      });
      socket.once('close', () => resolve(got));
      socket.once('error', reject);
    });
    expect(text).toMatch(/^HTTP\/1\.1 4\d\d /);
    expect(text).not.toContain('outside the pages');
  });

  test('a body that is no JSON, of another type, or of another form is refused with what is wrong', async () => {
    const send = (body: string, type = 'application/json') =>
      errorOf(
        fetch(`${bench.base}/api/cases`, {
          method: 'POST',
          headers: { cookie: bench.cookie, origin: bench.base, 'content-type': type },
          body,
        }),
      );
    expect(await send('{"title":')).toMatchObject({ status: 400, code: 'body-not-json' });
    expect(await send('')).toMatchObject({ status: 400, code: 'body-not-json' });
    expect(await send('x', 'text/plain')).toMatchObject({ code: 'body-not-json' });
    expect(await send('{"title":"x","side":"left"}')).toMatchObject({ status: 400, code: 'body-not-valid' });
    expect(await send('{"title":"x","side":"left","films":{}}')).toMatchObject({ field: 'films' });
    expect(await send('{"title":7,"side":"left","films":[]}')).toMatchObject({ field: 'title' });
    expect(await send('{"title":"x","side":"left","films":[],"x":1}')).toMatchObject({ code: 'body-not-valid' });
    expect(await send('{"__proto__":{"x":1},"title":"x","side":"left","films":[]}')).toMatchObject({ status: 400 });
  });

  test('a huge body is refused before it is read', async () => {
    const host = `127.0.0.1:${bench.running.port}`;
    const headers = {
      host,
      cookie: bench.cookie,
      origin: bench.base,
      'content-type': 'application/json',
      'content-length': String(2 ** 40),
    };
    expect(await raw('/api/cases', headers, 'POST')).toBe(413);
  });

  test('an unknown address is told', async () => {
    expect(await errorOf(bench.get('/api/nowhere'))).toMatchObject({ status: 404, code: 'no-such-page' });
    expect(await errorOf(bench.get('/api/cases/none'))).toMatchObject({ status: 404, code: 'no-such-case' });
    expect(await errorOf(bench.get('/api/plans/none'))).toMatchObject({ status: 404, code: 'no-such-plan' });
    expect(await errorOf(bench.get('/api/catalogues/none'))).toMatchObject({ status: 404, code: 'no-such-catalogue' });
  });
});

describe('cases', () => {
  test('the server tells its version and storage', async () => {
    expect(await jsonOf(bench.get('/api/about'))).toEqual({
      version: expect.stringMatching(/^\d+\.\d+\.\d+$/),
      storage: 'embedded',
    });
  });

  test('a case is made, listed, changed, undone and redone', async () => {
    const made = await newCase('Thread');
    expect(made).toMatchObject({
      revision: 1,
      canUndo: false,
      canRedo: false,
      case: { title: 'Thread', side: 'left' },
    });
    const { id } = made.case;
    const path = `/api/cases/${id}`;
    const edits = [{ kind: 'set', field: '/examination/mcl', value: 'absent' }];
    const changed = await jsonOf<CaseState>(bench.post(`${path}/edits`, { baseRevision: 1, edits, label: '' }));
    expect(changed).toMatchObject({
      revision: 2,
      canUndo: true,
      undoLabel: 'Medial collateral ligament set to absent',
      case: { examination: { mcl: 'absent' } },
    });
    const undone = await jsonOf<CaseState>(bench.post(`${path}/undo`, { baseRevision: 2 }));
    expect(undone).toMatchObject({ revision: 3, canUndo: false, canRedo: true });
    expect(undone.case).toEqual(made.case);
    const redone = await jsonOf<CaseState>(bench.post(`${path}/redo`, { baseRevision: 3 }));
    expect(redone.case).toEqual(changed.case);
    expect(await jsonOf<CaseState>(bench.get(path))).toEqual(redone);
    const list = await jsonOf<CaseSummary[]>(bench.get('/api/cases'));
    expect(list.find((c) => c.id === id)).toMatchObject({ revision: 4, films: 0, invented: false, lastPlanAt: null });
  });

  test('a change on an older revision is a conflict', async () => {
    const { case: file } = await newCase('Conflict');
    const edit = (value: string) => ({
      baseRevision: 1,
      edits: [{ kind: 'set', field: '/note', value }],
      label: 'Note',
    });
    expect((await bench.post(`/api/cases/${file.id}/edits`, edit('one'))).status).toBe(200);
    const late = errorOf(bench.post(`/api/cases/${file.id}/edits`, edit('two')));
    expect(await late).toMatchObject({ status: 409, code: 'revision-conflict', field: 'baseRevision' });
    expect(await errorOf(bench.post(`/api/cases/${file.id}/redo`, { baseRevision: 2 }))).toMatchObject({
      status: 409,
      code: 'nothing-to-redo',
    });
    const fresh = await newCase('Fresh');
    expect(await errorOf(bench.post(`/api/cases/${fresh.case.id}/undo`, { baseRevision: 1 }))).toMatchObject({
      status: 409,
      code: 'nothing-to-undo',
    });
  });

  test.each([
    [{ kind: 'set', field: '/__proto__/polluted', value: true }, 422, 'edit-refused'],
    [{ kind: 'set', field: '/examination/mcl', value: 'fine' }, 422, 'edit-refused'],
    [{ kind: 'set', field: '/patient/name', value: '' }, 422, 'edit-refused'],
    [{ kind: 'put-mark', mark: {} }, 400, 'body-not-valid'],
    [{ kind: 'set', field: '/note' }, 400, 'body-not-valid'],
    [{ kind: 'explode' }, 400, 'body-not-valid'],
    [{ kind: 'remove-film', film: 'none' }, 422, 'edit-refused'],
  ])('the edit %j is refused and changes nothing', async (edit, status, code) => {
    const { case: file } = await newCase('Refused edits');
    const refused = await errorOf(
      bench.post(`/api/cases/${file.id}/edits`, { baseRevision: 1, edits: [edit], label: '' }),
    );
    expect(refused).toMatchObject({ status, code, message: expect.stringMatching(/\w/), mend: expect.any(String) });
    expect((await jsonOf<CaseState>(bench.get(`/api/cases/${file.id}`))).revision).toBe(1);
  });

  test('a case that a case file could not hold is not stored', async () => {
    const patient = { birthDate: 'yesterday' };
    const refused = errorOf(bench.post('/api/cases', { title: 'x', side: 'left', films: [], patient }));
    expect(await refused).toMatchObject({
      status: 422,
      code: 'case-refused',
      field: expect.stringContaining('birthDate'),
    });
  });
});

describe('films', () => {
  test('a film is imported, described and delivered as 16-bit pixels', async () => {
    const file = await importCt();
    expect(file.film).toMatchObject({ view: 'ct', file: 'CT_small.dcm', sha256: file.sha256 });
    // Identity of this public sample, as its own documentation shows it.
    expect(file.patient).toMatchObject({ id: '1CT1' });
    const about = await jsonOf<FilmAbout>(bench.get(`/api/films/${file.sha256}/about`));
    expect(about).toEqual(file.about);
    expect([about.rows, about.columns]).toEqual([128, 128]);
    const answer = await bench.get(`/api/films/${file.sha256}/pixels`);
    expect(answer.headers.get('content-type')).toBe('application/octet-stream');
    expect(answer.headers.get('content-encoding')).toBeNull();
    expect(answer.headers.get('cache-control')).toBe('no-store');
    const pixels = new DataView(await answer.arrayBuffer());
    expect(pixels.byteLength).toBe(128 * 128 * 2);
    let least = 65_535;
    let most = 0;
    for (let i = 0; i < pixels.byteLength; i += 2) {
      least = Math.min(least, pixels.getUint16(i, true));
      most = Math.max(most, pixels.getUint16(i, true));
    }
    // Stored values of the sample run from 128 to 2191 (pydicom: ds.pixel_array.min(), .max()).
    expect([least, most]).toEqual([0, 2191 - 128]);
    const tag = answer.headers.get('etag') ?? '';
    const unchanged = await fetch(`${bench.base}/api/films/${file.sha256}/pixels`, {
      headers: { cookie: bench.cookie, 'if-none-match': tag },
    });
    expect(unchanged.status).toBe(304);
  });

  test('the same film again is told as a duplicate', async () => {
    await importCt();
    expect((await importCt()).duplicateOf).toBe('CT_small.dcm');
  });

  test('each file of an upload is answered for by itself', async () => {
    const answers = await jsonOf<ImportedFile[]>(
      bench.upload('/api/imports', [
        { name: 'letter.txt', bytes: Buffer.from('Dear colleague') },
        { name: 'folder/CT_small.dcm', bytes: ctFilm },
        { name: 'cut.dcm', bytes: ctFilm.subarray(0, 20_000) },
        { name: 'empty.dcm', bytes: Buffer.alloc(0) },
      ]),
    );
    expect(answers.map((a) => [a.file, a.accepted])).toEqual([
      ['letter.txt', false],
      ['CT_small.dcm', true],
      ['cut.dcm', false],
      ['empty.dcm', false],
    ]);
    for (const answer of answers) {
      if (answer.accepted) continue;
      expect(answer.error).toMatchObject({ code: 'film-refused', mend: expect.any(String) });
      expect(answer.error.message).toContain(answer.file);
    }
  });

  test('a fault of ours over one film is told for that film and reported, the others are answered for', async () => {
    const reader = filmWork();
    const faulty = await workbenchUnderTest({
      filmWork: {
        ...reader,
        take: (received) =>
          received.name === 'bug.dcm' ? Promise.reject(new TypeError('bug')) : reader.take(received),
      },
    });
    const answers = await jsonOf<ImportedFile[]>(
      faulty.upload('/api/imports', [
        { name: 'bug.dcm', bytes: ctFilm },
        { name: 'good.dcm', bytes: ctFilm },
      ]),
    );
    expect(answers).toMatchObject([
      { file: 'bug.dcm', accepted: false, error: { code: 'internal' } },
      { file: 'good.dcm', accepted: true },
    ]);
    expect(faulty.faults).toEqual([new TypeError('bug')]);
    await faulty.close();
  });

  test('an upload without a file, or that is none, is refused', async () => {
    expect(await errorOf(bench.upload('/api/imports', []))).toMatchObject({ status: 400, code: 'upload-not-valid' });
    expect(await errorOf(bench.post('/api/imports', {}))).toMatchObject({ code: 'upload-not-valid' });
  });

  test('a film that is not there, or is named wrongly, is refused', async () => {
    expect(await errorOf(bench.get(`/api/films/${'0'.repeat(64)}/pixels`))).toMatchObject({
      status: 404,
      code: 'film-not-stored',
    });
    expect(await errorOf(bench.get('/api/films/..%2f..%2fetc/about'))).toMatchObject({ status: 400 });
  });

  test('a case takes imported films and marks on them, and no film that was not imported', async () => {
    const { film } = await importCt();
    const state = await newCase('With film', [film]);
    const mark: Mark = {
      landmark: 'fibular-tip',
      side: 'left',
      film: film.id,
      points: [{ x: 10, y: 20 }],
      how: 'by-hand',
    };
    const marked = await jsonOf<CaseState>(
      bench.post(`/api/cases/${state.case.id}/edits`, {
        baseRevision: 1,
        edits: [{ kind: 'put-mark', mark }],
        label: '',
      }),
    );
    expect(marked.case.marks).toEqual([mark]);
    const strange = { ...film, id: 'strange', sha256: '1'.repeat(64) };
    expect(await errorOf(bench.post('/api/cases', { title: 'x', side: 'left', films: [strange] }))).toMatchObject({
      status: 422,
      code: 'film-needs-import',
    });
    const put = { baseRevision: 2, edits: [{ kind: 'put-film', film: strange }], label: '' };
    expect(await errorOf(bench.post(`/api/cases/${state.case.id}/edits`, put))).toMatchObject({
      code: 'film-needs-import',
    });
  });

  test('the server answers while films are being read', async () => {
    const many = Array.from({ length: 12 }, (_, i) => ({ name: `${i}.dcm`, bytes: ctFilm }));
    const upload = bench.upload('/api/imports', many);
    const started = performance.now();
    expect((await bench.get('/api/about')).status).toBe(200);
    expect(performance.now() - started).toBeLessThan(1000);
    expect((await jsonOf<ImportedFile[]>(upload)).filter((f) => f.accepted)).toHaveLength(12);
  });
});
