/**
 * The outer form of what pages may send; anything else is refused before a route runs. What stands inside
 * a film, a mark or a field is judged by the core and by the schema of case files.
 */
const text = { type: 'string', minLength: 1, maxLength: 500 } as const;
const side = { enum: ['right', 'left'] } as const;
/** Who makes a change, as the person says it; absent = not said. */
const person = { type: 'string', minLength: 1, maxLength: 100 } as const;
const revision = { type: 'integer', minimum: 1 } as const;
/** More edits than any gesture makes; a bound against nonsense. */
const MOST_EDITS = 2000;

const film = {
  type: 'object',
  required: ['id', 'file', 'view', 'side', 'role', 'scaleFacts'],
  properties: {
    id: text,
    file: text,
    sha256: text,
    view: text,
    side: text,
    role: text,
    scaleFacts: {
      type: 'object',
      required: ['rows', 'columns'],
      properties: { rows: { type: 'integer' }, columns: { type: 'integer' } },
    },
  },
} as const;

const mark = {
  type: 'object',
  required: ['landmark', 'side', 'film', 'points', 'how'],
  properties: {
    landmark: text,
    side,
    film: text,
    points: {
      type: 'array',
      items: {
        type: 'object',
        required: ['x', 'y'],
        additionalProperties: false,
        properties: { x: { type: 'number' }, y: { type: 'number' } },
      },
    },
    how: text,
  },
} as const;

const round = { type: 'integer', minimum: 2 } as const;
const repeat = {
  ...mark,
  required: [...mark.required, 'round', 'why'],
  properties: { ...mark.properties, round, why: text },
} as const;
const skip = {
  type: 'object',
  required: ['landmark', 'side', 'film', 'reason'],
  properties: { landmark: text, side, film: text, reason: text, by: text },
} as const;

const at = { type: 'integer', minimum: 0 } as const;
const kind = (name: string) => ({ const: name });
const closed = (required: readonly string[], properties: object) =>
  ({ type: 'object', additionalProperties: false, required: ['kind', ...required], properties }) as const;

const edit = {
  $id: 'edit',
  type: 'object',
  required: ['kind'],
  oneOf: [
    closed(['mark'], { kind: kind('put-mark'), mark, at }),
    closed(['landmark', 'side', 'film'], { kind: kind('remove-mark'), landmark: text, side, film: text }),
    closed(['repeat'], { kind: kind('put-repeat'), repeat, at }),
    closed(['landmark', 'side', 'film', 'round'], {
      kind: kind('remove-repeat'),
      landmark: text,
      side,
      film: text,
      round,
    }),
    closed(['skip'], { kind: kind('put-skip'), skip, at }),
    closed(['landmark', 'side', 'film'], { kind: kind('remove-skip'), landmark: text, side, film: text }),
    closed(['film'], { kind: kind('put-film'), film, at }),
    closed(['film'], { kind: kind('remove-film'), film: text }),
    closed(['field', 'value'], { kind: kind('set'), field: text, value: {} }),
    closed(['label', 'edits'], {
      kind: kind('group'),
      label: { type: 'string', maxLength: 500 },
      edits: { type: 'array', maxItems: MOST_EDITS, items: { $ref: 'edit#' } },
    }),
  ],
} as const;

/** Schemas that others refer to by `$id`. */
export const sharedSchemas = [edit];

export const editRequestBody = {
  type: 'object',
  additionalProperties: false,
  required: ['baseRevision', 'edits', 'label'],
  properties: {
    baseRevision: revision,
    by: person,
    edits: { type: 'array', minItems: 1, maxItems: MOST_EDITS, items: { $ref: 'edit#' } },
    label: { type: 'string', maxLength: 500 },
  },
} as const;

export const stepBody = {
  type: 'object',
  additionalProperties: false,
  required: ['baseRevision'],
  properties: { baseRevision: revision, by: person },
} as const;

export const newCaseBody = {
  type: 'object',
  additionalProperties: false,
  required: ['title', 'side', 'films'],
  properties: {
    title: { type: 'string', minLength: 1, maxLength: 200 },
    side,
    patient: { type: 'object' },
    films: { type: 'array', maxItems: 2000, items: film },
    catalogue: text,
  },
} as const;
