import { StorageFailure } from '@gapline/store/src/storage-failure.ts';
import type { FastifyError, FastifyInstance } from 'fastify';
import { type ErrorCode, errorBody, Refusal, statusOf } from './errors.ts';

/** The server framework's own complaints, in our words. */
const FRAMEWORK: Readonly<Record<string, ErrorCode>> = {
  FST_ERR_CTP_BODY_TOO_LARGE: 'body-too-large',
  FST_ERR_CTP_INVALID_MEDIA_TYPE: 'body-not-json',
  FST_ERR_CTP_INVALID_JSON_BODY: 'body-not-json',
  FST_ERR_CTP_EMPTY_JSON_BODY: 'body-not-json',
  FST_ERR_CTP_INVALID_CONTENT_LENGTH: 'body-not-valid',
  FST_ERR_BAD_URL: 'no-such-page',
  FST_INVALID_MULTIPART_CONTENT_TYPE: 'upload-not-valid',
  FST_FILES_LIMIT: 'body-too-large',
  FST_PARTS_LIMIT: 'body-too-large',
  FST_FIELDS_LIMIT: 'body-too-large',
  FST_PROTO_VIOLATION: 'upload-not-valid',
};

/** What went wrong, as one of the table; null for a fault of ours. */
export function refusalOf(error: unknown, method: string): Refusal | null {
  if (error instanceof Refusal) return error;
  if (error instanceof StorageFailure) return new Refusal(error.code);
  if (!(error instanceof Error)) return null;
  const { code, validation, statusCode } = error as FastifyError;
  if (validation) {
    const field = validation[0]?.instancePath.replace(/^\//, '').replaceAll('/', '.');
    return new Refusal('body-not-valid', { message: `${error.message}.`, ...(field ? { field } : {}) });
  }
  const known = FRAMEWORK[code];
  if (known) return new Refusal(known);
  if (statusCode === undefined || statusCode < 400 || statusCode >= 500) return null;
  // What the framework refuses without a name of its own: JSON that does not parse, or a path that leads out of the pages.
  return new Refusal(method === 'GET' || method === 'HEAD' ? 'no-such-page' : 'body-not-json');
}

const PAGE_HEAD = '<!doctype html><html lang="en"><meta charset="utf-8"><title>Gapline</title>';
const asHtml = (text: string) => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');

/** Turns every error into an answer of the table: JSON, or a plain page for a person who opened an address. */
export function answerErrors(app: FastifyInstance, report: (error: unknown) => void): void {
  app.setErrorHandler((error, request, reply) => {
    const refusal = refusalOf(error, request.method);
    if (!refusal) report(error);
    const answer = refusal ?? new Refusal('internal');
    reply.code(statusOf(answer.code));
    const wantsPage = !request.url.startsWith('/api/') && (request.headers.accept ?? '').includes('text/html');
    if (!wantsPage) return reply.type('application/json').send(errorBody(answer));
    const { message, mend } = errorBody(answer).error;
    return reply
      .type('text/html; charset=utf-8')
      .send(`${PAGE_HEAD}<h1>Gapline</h1><p>${asHtml(message)}</p><p>${asHtml(mend ?? '')}</p></html>`);
  });
  app.setNotFoundHandler(() => {
    throw new Refusal('no-such-page');
  });
}
