import type { Outcome } from '@gapline/core/measure/outcome.ts';

/** A kit list that is asked for: the case, its catalogue and its sets as JSON texts. */
export interface KitListWanted {
  readonly kind: 'pdf' | 'csv';
  readonly caseBody: string;
  readonly catalogueBody: string | null;
  readonly setListBody: string | null;
  readonly stockBody: string | null;
  readonly madeAt: string;
}

/** Forecast and choice of sets take seconds: done in another thread so that the server answers at all times. */
export interface KitWork {
  kitList(wanted: KitListWanted): Promise<Outcome<Uint8Array>>;
  close(): Promise<void>;
}

const IDLE_MS = 30_000;

/** The thread starts with the first list. */
export function kitWork(): KitWork {
  let pool: import('piscina').Piscina | undefined;
  return {
    kitList: async (wanted) => {
      const { Piscina } = await import('piscina');
      pool ??= new Piscina({ minThreads: 0, maxThreads: 1, idleTimeout: IDLE_MS });
      const filename = new URL('./kit-worker.ts', import.meta.url).href;
      return (await pool.run(wanted, { name: 'kitListOf', filename })) as Outcome<Uint8Array>;
    },
    close: async () => pool?.destroy(),
  };
}
