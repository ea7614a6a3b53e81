/** The tables, as both engines hold them. Documents are JSON texts, times ISO 8601 texts, flags 0 or 1. */
export interface Tables {
  cases: {
    id: string;
    title: string;
    side: 'right' | 'left';
    invented: number;
    films: number;
    revision: number;
    changed_at: string;
    body: string;
  };
  /** Every revision after the first: what changed, and what takes it back. Never updated. */
  history: {
    case_id: string;
    revision: number;
    kind: 'edit' | 'undo' | 'redo';
    /** The edit that is undone or redone; null for an edit of its own. */
    target: number | null;
    label: string;
    edit: string;
    inverse: string;
    at: string;
    /** Who made the step, as that person said. */
    person: string | null;
  };
  films: {
    sha256: string;
    pixels_sha256: string;
    file: string;
    bytes: number;
    imported_at: string;
    about: string;
  };
  /** Never updated, never deleted. */
  plans: {
    id: string;
    case_id: string;
    revision: number;
    made_at: string;
    core_version: string;
    sha256: string;
    body: string;
    case_body: string;
    catalogue_body: string | null;
  };
  catalogues: {
    id: string;
    name: string;
    invented: number;
    shipped: number;
    body: string;
    put_at: string;
  };
  set_lists: {
    id: string;
    name: string;
    catalogue: string;
    invented: number;
    shipped: number;
    body: string;
    put_at: string;
  };
  /** One row an import, the highest number counts. */
  stock: {
    number: number;
    file: string;
    imported_at: string;
    body: string;
  };
  sessions: {
    token_hash: string;
    opened_at: string;
    ends_at: string;
  };
}
