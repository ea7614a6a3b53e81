import type { Outcome } from '@gapline/core/measure/outcome.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';

/**
 * What the workbench asks of its storage, and nothing more. Two engines stand behind it: an embedded
 * database in one file, and PostgreSQL. When a promise of a change resolves, the change is on the disk.
 * Times are ISO 8601 texts given by the caller; the store has no clock.
 */
export interface Store {
  readonly storage: 'embedded' | 'postgresql';
  readonly cases: CaseStore;
  readonly films: FilmStore;
  readonly plans: PlanStore;
  readonly catalogues: CatalogueStore;
  readonly setLists: SetListStore;
  readonly stock: StockStore;
  readonly sessions: SessionStore;
  close(): Promise<void>;
}

export interface CaseRow {
  readonly id: string;
  readonly title: string;
  readonly side: CaseFile['side'];
  readonly invented: boolean;
  readonly films: number;
  readonly revision: number;
  readonly changedAt: string;
  readonly lastPlanAt: string | null;
}

/** A case as it stands, with what undo and redo would do. */
export interface StoredCase {
  readonly case: CaseFile;
  readonly revision: number;
  readonly undoLabel: string | null;
  readonly redoLabel: string | null;
}

export interface Change {
  /** The revision that the person saw; another one means that someone else was quicker. */
  readonly baseRevision: number;
  readonly edits: readonly Edit[];
  readonly label: string;
  readonly at: string;
  /** Who makes it, as that person says; absent = not said. */
  readonly by?: string;
}

export interface HistoryEntry {
  readonly revision: number;
  readonly kind: 'edit' | 'undo' | 'redo';
  readonly label: string;
  readonly edit: Edit;
  /** What takes the step back, as it stood then. */
  readonly inverse: Edit;
  readonly at: string;
  readonly by?: string;
}

export interface CaseStore {
  /** Newest change first. */
  list(): Promise<readonly CaseRow[]>;
  /** Refuses an id that exists. */
  create(file: CaseFile, at: string): Promise<Outcome<StoredCase>>;
  read(id: string): Promise<StoredCase | null>;
  /** The case as it stood at an earlier revision. */
  readAt(id: string, revision: number): Promise<CaseFile | null>;
  /** Applies all edits or none. Drops what could have been redone. */
  change(id: string, change: Change): Promise<Outcome<StoredCase>>;
  undo(id: string, at: Pick<Change, 'baseRevision' | 'at' | 'by'>): Promise<Outcome<StoredCase>>;
  redo(id: string, at: Pick<Change, 'baseRevision' | 'at' | 'by'>): Promise<Outcome<StoredCase>>;
  /** Cases in which it was noted what was found at surgery, by id. */
  withFindings(): Promise<readonly CaseFile[]>;
  /** Oldest first. */
  history(id: string): Promise<readonly HistoryEntry[]>;
}

/** What is known of an imported film; its bytes lie in the film files under the same hash. */
export interface FilmRow {
  readonly sha256: string;
  /** SHA-256 of the decoded picture: tells a copy with another header. */
  readonly pixelsSha256: string;
  readonly file: string;
  readonly bytes: number;
  readonly importedAt: string;
  /** Size and window of the picture, as the pages ask for it. */
  readonly about: FilmAboutRow;
}

export interface FilmAboutRow {
  readonly rows: number;
  readonly columns: number;
  readonly window: { readonly low: number; readonly high: number };
  readonly least: number;
  readonly most: number;
}

export interface FilmStore {
  /** Keeps the first entry where the hash is known already. */
  add(film: FilmRow): Promise<void>;
  read(sha256: string): Promise<FilmRow | null>;
  /** Earliest film with the same picture, whatever its header says. */
  samePicture(pixelsSha256: string): Promise<FilmRow | null>;
}

export interface PlanRow {
  readonly id: string;
  readonly caseId: string;
  readonly revision: number;
  readonly madeAt: string;
  readonly coreVersion: string;
  readonly sha256: string;
}

/** A plan with all that went into it, as canonical JSON texts. */
export interface PlanRecord extends PlanRow {
  readonly body: string;
  readonly caseBody: string;
  readonly catalogueBody: string | null;
}

/** Append-only: there is no way to change or to delete a plan, here or in the tables. */
export interface PlanStore {
  append(plan: PlanRecord): Promise<void>;
  /** Newest first. */
  list(caseId: string): Promise<readonly PlanRow[]>;
  read(id: string): Promise<PlanRecord | null>;
}

export interface CatalogueRow {
  readonly id: string;
  readonly name: string;
  readonly invented: boolean;
  /** Comes with the program; an import cannot replace it. */
  readonly shipped: boolean;
}

export interface CatalogueStore {
  list(): Promise<readonly CatalogueRow[]>;
  /** The catalogue's JSON text. */
  read(id: string): Promise<string | null>;
  /** Adds or replaces; refuses to replace a shipped catalogue by one that is not. */
  put(catalogue: CatalogueRow & { readonly body: string; readonly at: string }): Promise<Outcome<CatalogueRow>>;
}

export interface SetListRow {
  readonly id: string;
  readonly name: string;
  /** Catalogue whose parts the sets hold. */
  readonly catalogue: string;
  readonly invented: boolean;
  /** Comes with the program; an import cannot replace it. */
  readonly shipped: boolean;
}

export interface SetListStore {
  list(): Promise<readonly SetListRow[]>;
  /** The list's JSON text. */
  read(id: string): Promise<string | null>;
  /** Adds or replaces; refuses to replace a shipped list by one that is not. */
  put(list: SetListRow & { readonly body: string; readonly at: string }): Promise<Outcome<SetListRow>>;
}

/** One import of what lies on the shelf: the checked items as JSON text. */
export interface StockRow {
  readonly file: string;
  readonly importedAt: string;
  readonly body: string;
}

export interface StockStore {
  newest(): Promise<StockRow | null>;
  put(stock: StockRow): Promise<void>;
}

/** Sessions of browsers, known by the hash of their token alone. */
export interface SessionStore {
  open(session: { readonly tokenHash: string; readonly openedAt: string; readonly endsAt: string }): Promise<void>;
  isOpen(tokenHash: string, at: string): Promise<boolean>;
  close(tokenHash: string): Promise<void>;
}
