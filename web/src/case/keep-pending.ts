import type { Pending } from './pending.ts';

/**
 * Unconfirmed changes on this machine's disk, so that a closed or crashed page loses none. Each open page
 * writes under a name of its own; a page that opens takes over what pages no longer open have left.
 */
export interface PendingKeeper {
  keep(pending: readonly Pending[]): void;
  /** Changes left behind by this page before its reload, and by pages that are gone. */
  takeOver(): Promise<readonly Pending[]>;
}

const PREFIX = 'gapline.pending';

/** Name of this page, the same before and after a reload. */
function pageName(): string {
  const there = sessionStorage.getItem('gapline.page');
  if (there) return there;
  const name = crypto.randomUUID();
  sessionStorage.setItem('gapline.page', name);
  return name;
}

let held = false;
/** Holds a lock for as long as the page lives; its absence tells other pages that this one is gone. */
function holdLock(name: string): void {
  if (held) return;
  held = true;
  void navigator.locks?.request(`gapline.page.${name}`, () => new Promise<never>(() => {}));
}

async function livingPages(): Promise<ReadonlySet<string>> {
  const locks = (await navigator.locks?.query())?.held ?? [];
  return new Set(locks.map((lock) => (lock.name ?? '').replace('gapline.page.', '')));
}

export function pendingKeeper(caseId: string): PendingKeeper {
  const page = pageName();
  holdLock(page);
  const mine = `${PREFIX}.${caseId}.${page}`;
  return {
    keep(pending) {
      if (pending.length === 0) localStorage.removeItem(mine);
      else localStorage.setItem(mine, JSON.stringify(pending));
    },
    async takeOver() {
      const living = await livingPages();
      const names = Object.keys(localStorage).filter((key) => key.startsWith(`${PREFIX}.${caseId}.`));
      const found = names.filter((key) => key === mine || !living.has(key.split('.').at(-1) ?? '')).sort();
      const pending = found.flatMap((key) => read(localStorage.getItem(key)));
      for (const key of found) if (key !== mine) localStorage.removeItem(key);
      this.keep(pending);
      return pending;
    },
  };
}

function read(text: string | null): readonly Pending[] {
  try {
    const list: unknown = JSON.parse(text ?? '[]');
    return Array.isArray(list) ? (list as Pending[]) : [];
  } catch {
    return [];
  }
}
