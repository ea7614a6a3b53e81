/** What goes over the wire between the pages and the server. Types only: the pages import nothing else from here. */

import type { SetList, StockItem } from '@gapline/core/kit/set-list.ts';
import type { Found, KeptForecast } from '@gapline/core/learning/found.ts';
import type { CaseFile, CaseFilm } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import type { MarkChange } from '@gapline/core/plan/mark-changes.ts';
import type { Plan } from '@gapline/core/plan/plan.ts';
import type { Label } from '@gapline/exchange/labels/label.ts';
import type { ReadLaboratory } from '@gapline/exchange/laboratory/read-laboratory.ts';

/** Any error answer. `mend` says what to do; `file` and `field` name what is at fault. */
export interface ErrorBody {
  readonly error: {
    readonly code: string;
    readonly message: string;
    readonly file?: string;
    readonly field?: string;
    readonly mend?: string;
  };
}

/** GET /api/about */
export interface About {
  readonly version: string;
  readonly storage: 'embedded' | 'postgresql';
}

/** GET /api/cases -> CaseSummary[] */
export interface CaseSummary {
  readonly id: string;
  readonly title: string;
  readonly side: CaseFile['side'];
  readonly invented: boolean;
  readonly films: number;
  readonly revision: number;
  readonly changedAt: string;
  readonly lastPlanAt: string | null;
}

/** POST /api/imports (multipart, one or many files; query ?strip=1 removes identity) -> ImportedFile[] */
export type ImportedFile =
  | {
      readonly file: string;
      readonly accepted: true;
      readonly sha256: string;
      readonly film: CaseFilm;
      readonly about: FilmAbout;
      /** Name of the film with the same picture that was imported before. */
      readonly duplicateOf: string | null;
      /** What to look at before the film is used, such as a side that the file does not state. */
      readonly warnings?: readonly ErrorBody['error'][];
      readonly patient: {
        readonly id?: string;
        readonly name?: string;
        readonly sex?: 'female' | 'male';
        readonly birthDate?: string;
      };
    }
  | { readonly file: string; readonly accepted: false; readonly error: ErrorBody['error'] };

/** POST /api/cases with NewCase -> CaseState (201). Films must have been imported before. */
export interface NewCase {
  readonly title: string;
  readonly side: CaseFile['side'];
  readonly patient?: CaseFile['patient'];
  readonly films: readonly CaseFilm[];
  readonly catalogue?: string;
}

/** GET /api/cases/:id; also the answer to every change. */
export interface CaseState {
  readonly case: CaseFile;
  readonly revision: number;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  /** What undo and redo would take back or bring back, in words. */
  readonly undoLabel: string | null;
  readonly redoLabel: string | null;
}

/** POST /api/cases/:id/edits -> CaseState; 409 with ErrorBody when baseRevision is not the newest. Also POST /api/cases/:id/undo and /redo with { baseRevision }. */
export interface EditRequest {
  readonly baseRevision: number;
  readonly edits: readonly Edit[];
  readonly label: string;
  /** Who makes the change, as that person says; absent = not said. Undo and redo take it too. */
  readonly by?: string;
}

/** GET /api/cases/:id/history -> HistoryLine[], oldest first: every change, with the marks that it touched before and after. */
export interface HistoryLine {
  readonly revision: number;
  readonly kind: 'edit' | 'undo' | 'redo';
  readonly label: string;
  /** ISO 8601. */
  readonly at: string;
  readonly by?: string;
  readonly marks: readonly MarkChange[];
}

/** GET /api/films/:sha256/about */
export interface FilmAbout {
  readonly rows: number;
  readonly columns: number;
  /** Initial window on the delivered values. */
  readonly window: { readonly low: number; readonly high: number };
  readonly least: number;
  readonly most: number;
}

// GET /api/films/:sha256/pixels -> application/octet-stream: rows x columns unsigned 16-bit little-endian, row by row,
// after modality transform, rescaled to 0..65535 at most and turned so that a higher value is brighter (MONOCHROME1 already inverted).

// GET /api/cases/:id/films/:film/slices?from=0&count=16 -> application/octet-stream: slices of a CT stack one after the other,
// each rows x columns unsigned 16-bit little-endian: Hounsfield units plus 1024, on one scale for all. An import of many slices
// answers with one ImportedFile a stack, whose film carries its slices, and one for each slice that is in none.

/**
 * GET /api/catalogues -> CatalogueSummary[]; GET /api/catalogues/:id -> Catalogue (core). POST /api/catalogues
 * imports one, as the Catalogue itself or as `{ csv: { 'femurs.csv': text, ... } }` -> CatalogueSummary (201).
 */
export interface CatalogueSummary {
  readonly id: string;
  readonly name: string;
  readonly invented: boolean;
}

/** POST /api/cases/:id/plans -> SavedPlan (201): computed by the server from the saved case, kept for ever. */
export interface SavedPlan {
  readonly id: string;
  readonly caseId: string;
  readonly revision: number;
  readonly madeAt: string;
  readonly coreVersion: string;
  /** SHA-256 of the plan's canonical JSON. */
  readonly sha256: string;
}
// GET /api/cases/:id/plans -> SavedPlan[]; GET /api/plans/:id -> Plan; GET /api/plans/:id/sheet.pdf -> application/pdf
export type PlanBody = Plan;

/** POST /api/read/label with { text } -> LabelBody: what an implant's label says, check digits verified. */
export type LabelBody = Label;

/** POST /api/read/laboratory with { kind: 'fhir' | 'csv', text } -> LaboratoryBody: results as entered, and what was left aside. */
export type LaboratoryBody = ReadLaboratory;
// POST /api/cases/:id/letters with { identity: boolean, to?: string } -> application/pdf: the work-up on one page. Not stored.

/**
 * GET /api/set-lists -> SetListSummary[]; GET /api/set-lists/:id -> SetListBody; POST /api/set-lists with a SetList
 * -> SetListSummary (201).
 */
export interface SetListSummary {
  readonly id: string;
  readonly name: string;
  /** Catalogue whose parts the sets hold. */
  readonly catalogue: string;
  readonly invented: boolean;
}
export type SetListBody = SetList;

/** GET /api/stock -> StockBody, or null while nothing was imported; POST /api/stock with StockImport -> StockBody (201). */
export interface StockBody {
  readonly items: readonly StockItem[];
  /** File that it came from. */
  readonly from: string;
  readonly importedAt: string;
}
export interface StockImport {
  readonly name: string;
  readonly csv: string;
}

/**
 * POST /api/cases/:id/kit-list.pdf and /api/cases/:id/kit-list.csv with KitListRequest: computed anew from the saved
 * case, so that the paper holds what is saved. Not stored.
 */
export interface KitListRequest {
  /** Sets to bring; absent = those decided on in the case, or else those proposed. */
  readonly bring?: readonly string[];
}

/** GET /api/learning -> LearntCase[]: what was forecast and found, of every case in which it was noted. */
export interface LearntCase {
  readonly id: string;
  readonly title: string;
  readonly found: Found;
  readonly kept?: KeptForecast;
}
