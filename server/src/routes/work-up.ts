import type { FastifyInstance } from 'fastify';
import type { LabelBody, LaboratoryBody } from '../contract.ts';
import { Refusal, refusalFor } from '../errors.ts';
import type { Workbench } from '../workbench.ts';

/** Longest label and longest paste that are read. */
const LONGEST_LABEL = 2000;
const LONGEST_PASTE = 5_000_000;

const labelWanted = {
  body: {
    type: 'object',
    required: ['text'],
    additionalProperties: false,
    properties: { text: { type: 'string', maxLength: LONGEST_LABEL } },
  },
} as const;

const laboratoryWanted = {
  body: {
    type: 'object',
    required: ['kind', 'text'],
    additionalProperties: false,
    properties: { kind: { enum: ['fhir', 'csv'] }, text: { type: 'string', maxLength: LONGEST_PASTE } },
  },
} as const;

const letterWanted = {
  body: {
    type: 'object',
    required: ['identity'],
    additionalProperties: false,
    properties: { identity: { type: 'boolean' }, to: { type: 'string', maxLength: 200 } },
  },
} as const;

/** The work-up: labels and results read for the page, and the letter of a saved case. Nothing is stored here. */
export function workUpRoutes(app: FastifyInstance, bench: Workbench): void {
  app.post<{ Body: { text: string } }>(
    '/api/read/label',
    { schema: labelWanted },
    async (request): Promise<LabelBody> => {
      const { readLabel } = await import('@gapline/exchange/labels/read-label.ts');
      const label = readLabel(request.body.text, bench.now().getUTCFullYear());
      if (!label.ok) throw refusalFor(label.reason, 'label-refused');
      return label.value;
    },
  );

  app.post<{ Body: { kind: 'fhir' | 'csv'; text: string } }>(
    '/api/read/laboratory',
    { schema: laboratoryWanted },
    async (request): Promise<LaboratoryBody> => {
      const { kind, text } = request.body;
      const { readFhirBundle } = await import('@gapline/exchange/laboratory/fhir-bundle.ts');
      const { readCsvPaste } = await import('@gapline/exchange/laboratory/csv-paste.ts');
      const read = kind === 'fhir' ? readFhirBundle(text, 'The Bundle') : readCsvPaste(text);
      if (!read.ok) throw refusalFor(read.reason, 'laboratory-refused');
      return read.value;
    },
  );

  app.post<{ Params: { id: string }; Body: { identity: boolean; to?: string } }>(
    '/api/cases/:id/letters',
    { schema: letterWanted },
    async (request, reply) => {
      const stored = await bench.store.cases.read(request.params.id);
      if (!stored) throw new Refusal('no-such-case', { field: request.params.id });
      const { writeLetter } = await import('../write-letter.ts');
      const letter = await writeLetter(stored.case, { ...request.body, madeAt: bench.now().toISOString() });
      reply.header('content-disposition', 'inline; filename="work-up.pdf"');
      return reply.type('application/pdf').send(Buffer.from(letter));
    },
  );
}
