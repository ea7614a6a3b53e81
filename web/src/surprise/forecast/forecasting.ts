import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import type { NineCells, NineCellsAsked } from '@gapline/core/gaps/nine-cells.ts';
import { cannot, type Outcome } from '@gapline/core/measure/outcome.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { SurpriseAnswer, SurpriseInput, SurpriseProgress } from '@gapline/core/plan/surprise.ts';
import { createStore, type StoreApi } from 'zustand/vanilla';
import type { PlanningState } from '../../case/planning.ts';
import type { FromWorker, ToWorker } from './messages.ts';
import type { RoomState } from './room.ts';

export interface ForecastingState {
  /** Last answer that came; it stays shown while the next one is made. */
  readonly answer: SurpriseAnswer | null;
  /** The case, and the catalogue with it, that the answer was made for. */
  readonly of: { readonly file: CaseFile; readonly catalogue: Catalogue | null } | null;
  /** `waiting`: something changed, and the run begins once the hand rests. */
  readonly is: 'nothing-yet' | 'waiting' | 'running' | 'settled' | 'stopped' | 'failed';
  /** While it runs: the forecast of this state is there already, the sets are still being weighed. */
  readonly forecastIsNew: boolean;
  readonly progress: SurpriseProgress | null;
  readonly fault: string | null;
  /** Time that the last answer took in the worker, ms. */
  readonly tookMs: number | null;
}

export interface Forecasting {
  readonly store: StoreApi<ForecastingState>;
  /** Ends the run; the answer before it stays shown, marked as not of this state. */
  stop(): void;
  /** Begins anew without waiting. */
  again(): void;
  /** The table of nine cells, reckoned beside the forecast; null = another question was asked meanwhile. */
  cells(question: NineCellsAsked): Promise<Outcome<NineCells> | null>;
  close(): void;
}

interface Around {
  readonly planning: StoreApi<PlanningState>;
  readonly room: StoreApi<RoomState>;
  readonly today: () => string;
  readonly openWorker: () => WorkerLike;
  /** Does something later; gives a way to call it off. */
  readonly later: (what: () => void, ms: number) => () => void;
}

/** As much of a worker as is used here, so that a test can stand in for it. */
export interface WorkerLike {
  postMessage(message: ToWorker): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<FromWorker>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

/** A change rests this long before the forecast is made anew. */
export const REST_MS = 250;

/**
 * Keeps the forecast and the kit abreast of the case, in a worker: a change stops the run and starts another once the
 * hand rests; the answer before it stays shown meanwhile.
 */
export function openForecasting({ planning, room, today, openWorker, later }: Around): Forecasting {
  const store = createStore<ForecastingState>(() => ({
    answer: null,
    of: null,
    is: 'nothing-yet',
    forecastIsNew: false,
    progress: null,
    fault: null,
    tookMs: null,
  }));
  const worker = openWorker();
  let run = 0;
  let asked = '';
  let seen: readonly unknown[] = [];
  let running: ForecastingState['of'] = null;
  let callOff: () => void = () => undefined;
  let cellsAsked = 0;
  let onCells: (cells: Outcome<NineCells> | null) => void = () => undefined;

  const input = (): SurpriseInput | null => {
    const { settled, catalogue } = planning.getState();
    const { setList, stock, ready } = room.getState();
    return ready ? { file: settled.of, catalogue, setList, stock: stock?.items ?? null, today: today() } : null;
  };
  const start = (): void => {
    callOff();
    const next = input();
    if (!next) return;
    asked = askedFor(next);
    running = { file: next.file, catalogue: next.catalogue };
    run += 1;
    store.setState({ is: 'running', progress: null, fault: null, forecastIsNew: false });
    worker.postMessage({ kind: 'start', run, input: next });
  };
  const halt = (): void => {
    callOff();
    run += 1;
    worker.postMessage({ kind: 'stop' });
  };
  const changed = (): void => {
    const { settled, catalogue } = planning.getState();
    const now = [settled, catalogue, room.getState()];
    // In the middle of a drag nothing of this changes, and nothing need be compared.
    if (now.every((part, i) => part === seen[i])) return;
    seen = now;
    const next = input();
    if (!next || askedFor(next) === asked) return;
    asked = askedFor(next);
    const first = store.getState().is === 'nothing-yet';
    halt();
    store.setState({ is: 'waiting', progress: null, forecastIsNew: false });
    if (first) start();
    else callOff = later(start, REST_MS);
  };
  worker.onmessage = ({ data }) => {
    if (data.kind === 'cells') {
      if (data.asked === cellsAsked) onCells(data.cells);
    } else if (data.run === run) store.setState((state) => heard(state, data, running));
  };
  worker.onerror = () => store.setState({ is: 'failed', progress: null, fault: 'The forecast could not start.' });

  const leave = [planning.subscribe(changed), room.subscribe(changed)];
  changed();
  return {
    store,
    stop() {
      halt();
      store.setState({ is: 'stopped', progress: null });
    },
    again: start,
    cells(question) {
      onCells(null);
      cellsAsked += 1;
      worker.postMessage({ kind: 'cells', asked: cellsAsked, question });
      return new Promise((done) => {
        onCells = done;
      });
    },
    close() {
      callOff();
      for (const off of leave) off();
      worker.terminate();
    },
  };
}

/** What a word from the worker changes; `of` is what the run was begun with. */
function heard(
  { answer }: ForecastingState,
  data: Exclude<FromWorker, { kind: 'cells' }>,
  of: ForecastingState['of'],
): Partial<ForecastingState> {
  switch (data.kind) {
    case 'progress':
      return { progress: data.progress };
    case 'forecast':
      // The sets of the answer before stay beside it, marked as not of this state.
      return { answer: { ...data.answer, kit: answer?.kit ?? BEING_WEIGHED }, of, forecastIsNew: true };
    case 'failed':
      return { is: 'failed', progress: null, fault: data.message };
    case 'done':
      return { is: 'settled', progress: null, answer: data.answer, of, tookMs: data.tookMs, forecastIsNew: true };
  }
}

const BEING_WEIGHED = cannot({ code: 'being-weighed', message: 'The sets are being weighed.' });

/** All of the input that the answer hangs on; what the patient is called or what was found in the end is no part of it. */
function askedFor({ file, catalogue, setList, stock, today }: SurpriseInput): string {
  const { workUp: _w, patient: _p, title: _t, note: _n, found: _f, keptForecast: _k, ...rest } = file;
  return JSON.stringify([rest, catalogue?.id, setList, stock, today]);
}
