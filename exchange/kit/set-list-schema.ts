import { SET_SERVICES, type SetList } from '@gapline/core/kit/set-list.ts';
import { MOST_SETS } from '@gapline/core/kit/set-mask.ts';
import Type, { type Static } from 'typebox';
import { closed, type Plain, type Same } from '../case/schema-words.ts';

/**
 * JSON Schema (2020-12) of a list of sets, published as kits/set-list.schema.json. One source for the reader, the published
 * schema and, by `SAME_AS_SET_LIST` below, the core's own type.
 */
const text = (description: string) => Type.String({ minLength: 1, description });
const notNegative = (description: string) => Type.Number({ minimum: 0, description });
const ref = (description: string) =>
  Type.String({ pattern: '^[A-Za-z0-9][A-Za-z0-9._-]*$', description: `${description} Letters, digits, dot, dash.` });

const part = Type.Object(
  {
    ref: text('Reference of the part in the catalogue.'),
    count: Type.Integer({ minimum: 1, maximum: 100, description: 'Pieces of it in the set.' }),
  },
  closed,
);

const set = Type.Object(
  {
    ref: ref('Reference, unique within the list.'),
    name: text('Name as it is shown.'),
    parts: Type.Array(part, { description: 'Catalogue parts in it.' }),
    services: Type.Optional(
      Type.Array(Type.Enum([...SET_SERVICES]), { description: 'What it gives besides parts of the catalogue.' }),
    ),
    owner: Type.Enum(['own-shelf', 'loan']),
    trays: Type.Integer({ minimum: 0, maximum: 100, description: 'Trays to sterilise.' }),
    fee: notNegative('Fee of having it brought, in the currency of the list; 0 for an own set.'),
    leadDays: Type.Integer({ minimum: 0, maximum: 365, description: 'Working days from order to shelf.' }),
    failShare: Type.Optional(
      Type.Number({ minimum: 0, maximum: 1, description: 'Chance that it does not arrive or is not whole.' }),
    ),
  },
  closed,
);

export const setListSchema = Type.Object(
  {
    $schema: Type.Optional(Type.String()),
    format: Type.Literal('gapline-sets'),
    version: Type.Literal('1.0'),
    id: ref('By which cases name the list.'),
    name: text('Whose sets they are.'),
    catalogue: text('Id of the catalogue whose parts the sets hold.'),
    invented: Type.Boolean({ description: 'True for a hospital that exists only as an example.' }),
    currency: Type.String({ pattern: '^[A-Z]{3}$', description: 'Three letters, as in ISO 4217.' }),
    trayCost: notNegative('What one tray to sterilise costs, in the currency.'),
    sets: Type.Array(set, { minItems: 1, maxItems: MOST_SETS, description: 'The sets, in the order to show them.' }),
  },
  { ...closed, title: 'Gapline list of sets', description: 'The sets that a hospital can have. See docs/kit.md.' },
);

/** The published document. */
export const setListSchemaDocument = (): object => ({
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: 'urn:gapline:sets:1.0',
  ...JSON.parse(JSON.stringify(setListSchema)),
});

/** Does not compile when schema and core type drift apart (`$schema` is the file's own, not the list's). */
export const SAME_AS_SET_LIST: Same<Plain<Omit<Static<typeof setListSchema>, '$schema'>>, Plain<SetList>> = true;
