import type { CaseFilm } from '@gapline/core/plan/case.ts';

/** Slices asked for at once: some 8 MB of the usual size. */
const RUN = 16;
const AT_ONCE = 2;

/** One slice as it lies in memory: Hounsfield units plus 1024. */
export type SliceValues = Uint16Array<ArrayBuffer>;

/** A stack whose slices come one run after the other, those nearest to the slice that is looked at first. */
export interface LoadedStack {
  readonly slice: (index: number) => SliceValues | null;
  /** The slice that is looked at now. */
  readonly lookAt: (index: number) => void;
  /** Changes whenever slices came or failed. */
  readonly version: () => number;
  readonly subscribe: (changed: () => void) => () => void;
  readonly loaded: () => number;
  /** Brightest value so far. */
  readonly most: () => number;
  readonly fault: () => string | null;
}

interface Shelved {
  readonly key: string;
  readonly stack: LoadedStack;
}

/** A stack of 400 slices takes some 210 MB: one is kept. */
let shelved: Shelved | null = null;

/** The stack of a film of a case; the one opened last stays in memory. */
export function openStack(caseId: string, film: CaseFilm): LoadedStack {
  const key = `${caseId}/${film.id}`;
  if (shelved?.key !== key) shelved = { key, stack: loadStack(caseId, film) };
  return shelved.stack;
}

/** The run that is wanted next: not yet asked for, and nearest to the slice looked at; of two equally near ones the lower. */
export function nextRun(asked: readonly boolean[], lookedAt: number): number | null {
  const middle = Math.floor(lookedAt / RUN);
  for (let off = 0; off < asked.length; off++)
    for (const run of [middle - off, middle + off]) if (asked[run] === false) return run;
  return null;
}

function loadStack(caseId: string, { id, slices, scaleFacts }: CaseFilm): LoadedStack {
  const count = slices?.each.length ?? 0;
  const size = scaleFacts.rows * scaleFacts.columns;
  const values: (SliceValues | null)[] = Array(count).fill(null);
  const asked: boolean[] = Array(Math.ceil(count / RUN)).fill(false);
  const listeners = new Set<() => void>();
  const state = { version: 0, loaded: 0, most: 0, lookedAt: 0, busy: 0, fault: null as string | null };
  const tell = (): void => {
    state.version += 1;
    for (const changed of listeners) changed();
  };
  const take = (from: number, bytes: ArrayBuffer): void => {
    const came = Math.min(RUN, count - from);
    if (bytes.byteLength !== came * size * 2) throw new Error('The slices came incomplete.');
    for (let i = 0; i < came; i++) {
      const slice = new Uint16Array(bytes, i * size * 2, size);
      values[from + i] = slice;
      for (let p = 0; p < size; p++) if (slice[p]! > state.most) state.most = slice[p]!;
    }
    state.loaded += came;
  };
  const load = async (run: number): Promise<void> => {
    asked[run] = true;
    state.busy += 1;
    try {
      const path = `/api/cases/${encodeURIComponent(caseId)}/films/${encodeURIComponent(id)}/slices`;
      const answer = await fetch(`${path}?from=${run * RUN}&count=${RUN}`);
      if (!answer.ok) throw new Error(`The slices cannot be loaded (${answer.status}).`);
      take(run * RUN, await answer.arrayBuffer());
      state.fault = null;
    } catch (fault) {
      state.fault = fault instanceof Error ? fault.message : 'The slices cannot be loaded.';
    } finally {
      state.busy -= 1;
      tell();
    }
    if (state.fault === null) goOn();
    // Asked for again with the next look at the stack, not at once.
    else asked[run] = false;
  };
  const goOn = (): void => {
    while (state.busy < AT_ONCE) {
      const run = nextRun(asked, state.lookedAt);
      if (run === null) return;
      void load(run);
    }
  };
  return {
    slice: (index) => values[index] ?? null,
    lookAt: (index) => {
      state.lookedAt = index;
      goOn();
    },
    version: () => state.version,
    subscribe: (changed) => {
      listeners.add(changed);
      return () => listeners.delete(changed);
    },
    loaded: () => state.loaded,
    most: () => state.most,
    fault: () => state.fault,
  };
}
