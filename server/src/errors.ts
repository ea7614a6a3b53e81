import type { Reason } from '@gapline/core/measure/outcome.ts';
import type { ErrorBody } from './contract.ts';

interface ErrorEntry {
  readonly status: number;
  readonly message: string;
  readonly mend: string;
}

/**
 * Every error that the server answers with. A reason from below may bring its own, more exact words,
 * file and field; status and code are always those of this table.
 */
export const ERRORS = {
  'host-not-allowed': {
    status: 403,
    message: 'This address is not one that Gapline answers on.',
    mend: 'Open the address that the terminal shows.',
  },
  'origin-not-allowed': {
    status: 403,
    message: 'The request comes from a page that is not part of Gapline.',
    mend: 'Work in the page that Gapline itself opened.',
  },
  'not-signed-in': {
    status: 401,
    message: 'This browser is not signed in.',
    mend: 'Open the address that the terminal shows; where it was used already, start Gapline again for a new one.',
  },
  'key-not-valid': {
    status: 401,
    message: 'The key in this address was used already, or is not the one of this start.',
    mend: 'Start Gapline again and open the new address that the terminal shows.',
  },
  'no-such-page': { status: 404, message: 'There is nothing at this address.', mend: 'Go back to the list of cases.' },
  'body-not-json': { status: 400, message: 'The request is not JSON.', mend: 'Send application/json.' },
  'body-not-valid': {
    status: 400,
    message: 'The request does not have the form that is asked for.',
    mend: 'Send the fields of the contract.',
  },
  'body-too-large': { status: 413, message: 'The request is too large.', mend: 'Send fewer or smaller items at once.' },
  'upload-not-valid': {
    status: 400,
    message: 'The upload is broken or is not a multipart form.',
    mend: 'Drop the files again.',
  },
  'film-too-large': {
    status: 413,
    message: 'The file is larger than 600 MB.',
    mend: 'Import single films, not an archive.',
  },
  'film-refused': {
    status: 422,
    message: 'The file cannot be read as a film.',
    mend: 'Export the film again as DICOM, PNG or JPEG.',
  },
  'film-not-stored': {
    status: 404,
    message: 'The film is not in the data folder.',
    mend: 'Import the film again.',
  },
  'film-damaged': {
    status: 500,
    message: 'The film was changed on the disk since it was imported.',
    mend: 'Import the film again from its source; the disk may be failing.',
  },
  'film-needs-import': {
    status: 422,
    message: 'A film of the case has not been imported.',
    mend: 'Import the film first, then add it to the case.',
  },
  'label-refused': {
    status: 422,
    message: 'The label cannot be read.',
    mend: 'Scan it again, or type reference, lot and expiry by hand.',
  },
  'laboratory-refused': {
    status: 422,
    message: 'The results cannot be read.',
    mend: 'Paste rows with date, test, value and unit, or a FHIR Bundle.',
  },
  'no-such-case': { status: 404, message: 'There is no such case.', mend: 'Go back to the list of cases.' },
  'case-exists': {
    status: 409,
    message: 'A case of this id is already there.',
    mend: 'Open the case that is there.',
  },
  'case-refused': {
    status: 422,
    message: 'The case cannot be stored like this.',
    mend: 'Correct the field that is named.',
  },
  'edit-refused': {
    status: 422,
    message: 'The change cannot be made.',
    mend: 'Correct the field that is named.',
  },
  'revision-conflict': {
    status: 409,
    message: 'The case was changed elsewhere.',
    mend: 'Reload the case and make the change again.',
  },
  'nothing-to-undo': { status: 409, message: 'There is nothing to undo.', mend: 'Reload the case.' },
  'nothing-to-redo': { status: 409, message: 'There is nothing to redo.', mend: 'Reload the case.' },
  'no-such-catalogue': {
    status: 404,
    message: 'There is no such catalogue.',
    mend: 'Choose a catalogue of the list, or import it.',
  },
  'catalogue-refused': {
    status: 422,
    message: 'The file cannot be read as a catalogue.',
    mend: 'Correct the field that is named; docs/catalogue.md describes the format.',
  },
  'catalogue-is-shipped': {
    status: 409,
    message: 'This catalogue comes with the program and cannot be replaced.',
    mend: 'Give your catalogue another id and import it again.',
  },
  'no-such-set-list': {
    status: 404,
    message: 'There is no such list of sets.',
    mend: 'Choose a list of sets, or import one.',
  },
  'set-list-refused': {
    status: 422,
    message: 'The file cannot be read as a list of sets.',
    mend: 'Correct the field that is named; docs/kit.md describes the format.',
  },
  'set-list-is-shipped': {
    status: 409,
    message: 'This list of sets comes with the program and cannot be replaced.',
    mend: 'Give your list another id and import it again.',
  },
  'stock-refused': {
    status: 422,
    message: 'The file cannot be read as a stock list.',
    mend: 'Correct the line that is named; docs/kit.md describes the columns.',
  },
  'kit-refused': {
    status: 422,
    message: 'The kit of this case cannot be reckoned.',
    mend: 'Settle what the page names as missing, then ask again.',
  },
  'no-such-plan': { status: 404, message: 'There is no such plan.', mend: 'Choose a plan of the list.' },
  'sheet-refused': {
    status: 422,
    message: 'The sheet of this plan cannot be drawn.',
    mend: 'Make the plan again from the case.',
  },
  'disk-full': {
    status: 507,
    message: 'The disk that holds the data folder is full. What was saved before is safe; this change was not saved.',
    mend: 'Make room on the disk, then repeat the change.',
  },
  'storage-unreachable': {
    status: 503,
    message: 'The database server does not answer. This change was not saved.',
    mend: 'Check that the database server runs, then repeat the change.',
  },
  internal: {
    status: 500,
    message: 'A fault inside Gapline. What was saved before is safe.',
    mend: 'Try again; if it happens again, report it with the lines that the terminal shows.',
  },
} as const satisfies Readonly<Record<string, ErrorEntry>>;

export type ErrorCode = keyof typeof ERRORS;

const isErrorCode = (code: string): code is ErrorCode => Object.hasOwn(ERRORS, code);

type Detail = Partial<Omit<ErrorBody['error'], 'code'>>;

/** A request that is refused. Thrown by routes and guards, turned into an answer in one place. */
export class Refusal extends Error {
  readonly code: ErrorCode;
  readonly detail: Detail;
  constructor(code: ErrorCode, detail: Detail = {}) {
    super(detail.message ?? ERRORS[code].message);
    this.name = 'Refusal';
    this.code = code;
    this.detail = detail;
  }
}

/** The refusal for a reason from below: under the reason's own code where the table has it, else under `otherwise`. */
export function refusalFor(reason: Reason, otherwise: ErrorCode): Refusal {
  const { code, ...detail } = reason;
  return new Refusal(isErrorCode(code) ? code : otherwise, detail);
}

export const statusOf = (code: ErrorCode): number => ERRORS[code].status;

export function errorBody({ code, detail }: Pick<Refusal, 'code' | 'detail'>): ErrorBody {
  const { message, mend } = ERRORS[code];
  return { error: { code, message, mend, ...detail } };
}
