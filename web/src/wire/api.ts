import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import type {
  About,
  CaseState,
  CaseSummary,
  CatalogueSummary,
  EditRequest,
  ErrorBody,
  FilmAbout,
  HistoryLine,
  ImportedFile,
  NewCase,
  SavedPlan,
} from '../../../server/src/contract.ts';

/** The server said no, and why. */
export class Refused extends Error {
  readonly status: number;
  readonly error: ErrorBody['error'];
  constructor(status: number, error: ErrorBody['error']) {
    super(error.message);
    this.status = status;
    this.error = error;
  }
}

/** No answer at all: the server is stopped or out of reach. Trying again later makes sense. */
export class OutOfReach extends Error {
  constructor() {
    super('The workbench does not answer.');
  }
}

async function call<T>(path: string, init?: RequestInit): Promise<T> {
  let answer: Response;
  let text: string;
  try {
    answer = await fetch(path, { ...init, headers: { accept: 'application/json', ...init?.headers } });
    text = await answer.text();
  } catch {
    throw new OutOfReach();
  }
  const body = parsed(text);
  if (answer.ok) return body as T;
  throw new Refused(answer.status, errorIn(body) ?? unexplained(answer.status));
}

function parsed(text: string): unknown {
  try {
    return text === '' ? null : JSON.parse(text);
  } catch {
    return null;
  }
}

const errorIn = (body: unknown): ErrorBody['error'] | null =>
  typeof body === 'object' && body !== null && 'error' in body ? (body as ErrorBody).error : null;

const unexplained = (status: number): ErrorBody['error'] =>
  status === 401
    ? {
        code: 'no-session',
        message: 'This window is not signed in.',
        mend: 'Open the address that the workbench printed when it started.',
      }
    : { code: 'unexplained', message: `The workbench answered with an error (${status}).`, mend: 'Try again.' };

export const get = <T>(path: string): Promise<T> => call<T>(path);
export const post = <T>(path: string, body: unknown): Promise<T> =>
  call<T>(path, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) });

/** The same where the answer is a file, such as a PDF. */
export async function postForFile(path: string, body: unknown): Promise<Blob> {
  const init = { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) };
  const answer = await fetch(path, init).catch(() => {
    throw new OutOfReach();
  });
  if (answer.ok) return answer.blob();
  throw new Refused(answer.status, errorIn(parsed(await answer.text())) ?? unexplained(answer.status));
}

const part = encodeURIComponent;

export const getAbout = (): Promise<About> => call('/api/about');
export const getCases = (): Promise<readonly CaseSummary[]> => call('/api/cases');
export const getCase = (id: string): Promise<CaseState> => call(`/api/cases/${part(id)}`);
export const createCase = (body: NewCase): Promise<CaseState> => post('/api/cases', body);
export const sendEdits = (id: string, body: EditRequest): Promise<CaseState> =>
  post(`/api/cases/${part(id)}/edits`, body);
export const sendUndo = (id: string, baseRevision: number, by?: string): Promise<CaseState> =>
  post(`/api/cases/${part(id)}/undo`, { baseRevision, ...(by === undefined ? {} : { by }) });
export const sendRedo = (id: string, baseRevision: number, by?: string): Promise<CaseState> =>
  post(`/api/cases/${part(id)}/redo`, { baseRevision, ...(by === undefined ? {} : { by }) });
export const getHistory = (id: string): Promise<readonly HistoryLine[]> => call(`/api/cases/${part(id)}/history`);
export const getCatalogues = (): Promise<readonly CatalogueSummary[]> => call('/api/catalogues');
export const getCatalogue = (id: string): Promise<Catalogue> => call(`/api/catalogues/${part(id)}`);
export const getFilmAbout = (sha256: string): Promise<FilmAbout> => call(`/api/films/${part(sha256)}/about`);
export const filmPixelsAddress = (sha256: string): string => `/api/films/${part(sha256)}/pixels`;
export const savePlan = (caseId: string): Promise<SavedPlan> => post(`/api/cases/${part(caseId)}/plans`, {});
export const getPlans = (caseId: string): Promise<readonly SavedPlan[]> => call(`/api/cases/${part(caseId)}/plans`);
export const sheetAddress = (planId: string): string => `/api/plans/${part(planId)}/sheet.pdf`;

export function importFilms(files: readonly File[], strip: boolean): Promise<readonly ImportedFile[]> {
  const form = new FormData();
  for (const file of files) form.append('files', file, file.name);
  return call(`/api/imports?strip=${strip ? 1 : 0}`, { method: 'POST', body: form });
}
