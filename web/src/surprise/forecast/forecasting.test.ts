import type { NineCells, NineCellsAsked } from '@gapline/core/gaps/nine-cells.ts';
import type { Outcome } from '@gapline/core/measure/outcome.ts';
import { bareCase } from '@gapline/core/plan/bare-case.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { makePlan } from '@gapline/core/plan/make-plan.ts';
import type { SurpriseAnswer } from '@gapline/core/plan/surprise.ts';
import { describe, expect, test } from 'vitest';
import { createStore } from 'zustand/vanilla';
import type { PlanningState } from '../../case/planning.ts';
import { openForecasting, type WorkerLike } from './forecasting.ts';
import type { FromWorker, ToWorker } from './messages.ts';
import type { RoomState } from './room.ts';

const plan = makePlan(bareCase, null);
const REASON = { code: 'none', message: 'None.' };
const ANSWER: SurpriseAnswer = {
  plan,
  forecast: { ok: false, reason: REASON },
  kit: { ok: false, reason: REASON },
  missing: [],
};

function page(ready = true) {
  const told: ToWorker[] = [];
  const worker: WorkerLike = {
    postMessage: (message) => told.push(message),
    terminate: () => undefined,
    onmessage: null,
    onerror: null,
  };
  const settled = (of: CaseFile): PlanningState => ({
    plan,
    of,
    settled: { plan, of },
    changes: null,
    catalogue: null,
    tookMs: 1,
  });
  const planning = createStore<PlanningState>(() => settled(bareCase));
  const room = createStore<RoomState>(() => ({ lists: null, setList: null, stock: null, fault: null, ready }));
  const later: (() => void)[] = [];
  const forecasting = openForecasting({
    planning,
    room,
    today: () => '2025-06-01',
    openWorker: () => worker,
    later: (what) => {
      later.push(what);
      return () => void later.splice(later.indexOf(what), 1);
    },
  });
  return {
    told,
    forecasting,
    later,
    room,
    change: (part: Partial<CaseFile>) => planning.setState(settled({ ...planning.getState().of, ...part })),
    hear: (data: FromWorker) => worker.onmessage?.({ data } as MessageEvent<FromWorker>),
    state: () => forecasting.store.getState(),
    rest: () => {
      for (const what of later.splice(0)) what();
    },
  };
}

const starts = (told: readonly ToWorker[]) => told.filter((m) => m.kind === 'start');

describe('forecast beside the case', () => {
  test('begins at once, and tells progress and answer with the case that it was made for', () => {
    const p = page();
    expect(starts(p.told)).toHaveLength(1);
    const run = starts(p.told)[0]!.run;
    p.hear({ run, kind: 'progress', progress: { part: 'forecast', done: 0.4, words: '800 of 2000 knees' } });
    expect(p.state()).toMatchObject({ is: 'running', progress: { done: 0.4 }, answer: null });
    p.hear({ run, kind: 'done', answer: ANSWER, tookMs: 900 });
    expect(p.state()).toMatchObject({
      is: 'settled',
      answer: ANSWER,
      of: { file: bareCase },
      tookMs: 900,
      progress: null,
    });
  });

  test('waits for the sets that the case names', () => {
    const p = page(false);
    expect(starts(p.told)).toHaveLength(0);
    p.room.setState({ ready: true });
    expect(starts(p.told)).toHaveLength(1);
  });

  test('a change stops the run and starts one more, once the hand rests; the answer before stays shown', () => {
    const p = page();
    p.hear({ run: starts(p.told)[0]!.run, kind: 'done', answer: ANSWER, tookMs: 1 });
    p.change({ forecast: { seed: 2 } });
    p.change({ forecast: { seed: 3 } });
    p.change({ forecast: { seed: 4 } });
    expect(p.told.at(-1)).toEqual({ kind: 'stop' });
    expect(p.state()).toMatchObject({ is: 'waiting', answer: ANSWER });
    expect(p.later).toHaveLength(1);
    p.rest();
    expect(starts(p.told)).toHaveLength(2);
    expect(starts(p.told)[1]!.input.file.forecast).toEqual({ seed: 4 });
  });

  test('the forecast is shown before the sets are weighed; sets of the answer before stay beside it', () => {
    const p = page();
    const run = starts(p.told)[0]!.run;
    p.hear({ run, kind: 'forecast', answer: ANSWER });
    expect(p.state()).toMatchObject({ is: 'running', forecastIsNew: true, of: { file: bareCase } });
    expect(p.state().answer?.kit).toMatchObject({ ok: false, reason: { code: 'being-weighed' } });
    p.hear({ run, kind: 'done', answer: ANSWER, tookMs: 1 });
    p.change({ forecast: { seed: 2 } });
    expect(p.state()).toMatchObject({ is: 'waiting', forecastIsNew: false });
    p.rest();
    p.hear({ run: starts(p.told)[1]!.run, kind: 'forecast', answer: ANSWER });
    expect(p.state().answer?.kit).toBe(ANSWER.kit);
  });

  test('an answer that comes late, of a run that was given up, is not heard', () => {
    const p = page();
    const old = starts(p.told)[0]!.run;
    p.change({ forecast: { seed: 2 } });
    p.hear({ run: old, kind: 'done', answer: ANSWER, tookMs: 1 });
    expect(p.state()).toMatchObject({ is: 'waiting', answer: null });
  });

  test('what the answer does not hang on starts nothing: title, note, work-up, what was found', () => {
    const p = page();
    p.change({ title: 'Another', note: 'n', workUp: {}, found: { on: '2025-06-20' } });
    expect(starts(p.told)).toHaveLength(1);
    expect(p.state().is).toBe('running');
  });

  test('stopped stays stopped until something changes or it is begun again', () => {
    const p = page();
    p.forecasting.stop();
    expect(p.state().is).toBe('stopped');
    expect(p.told.at(-1)).toEqual({ kind: 'stop' });
    p.hear({ run: 1, kind: 'done', answer: ANSWER, tookMs: 1 });
    expect(p.state().is).toBe('stopped');
    p.forecasting.again();
    expect(p.state().is).toBe('running');
    p.hear({ run: starts(p.told).at(-1)!.run, kind: 'failed', message: 'Broken.' });
    expect(p.state()).toMatchObject({ is: 'failed', fault: 'Broken.' });
  });

  test('of two questions for nine cells only the last is answered', async () => {
    const p = page();
    const question = { byMm: 4 } as NineCellsAsked;
    const first = p.forecasting.cells(question);
    const second = p.forecasting.cells(question);
    const cells: Outcome<NineCells> = { ok: false, reason: REASON };
    p.hear({ kind: 'cells', asked: 1, cells: { ok: false, reason: { code: 'old', message: 'Old.' } } });
    p.hear({ kind: 'cells', asked: 2, cells });
    expect(await first).toBeNull();
    expect(await second).toEqual(cells);
    expect(p.state().is).toBe('running');
  });
});
