import { CARDIAC_RISK_ITEMS } from '@gapline/core/host/cardiac-risk.ts';
import { CHARLSON_ITEMS } from '@gapline/core/host/charlson.ts';
import { HOST_FACTORS, type HostFactorId } from '@gapline/core/host/optimise.ts';
import {
  DRUG_ITEMS,
  FIXATIONS,
  HARD_FEATURES,
  type HardFeature,
  OPERATION_KINDS,
  PAIN_COURSES,
  PART_KINDS,
  SYMPTOMS,
} from '@gapline/core/work-up/history.ts';
import Type from 'typebox';
import { closed, isoDate, known, knownOf, maybe, text, words } from './schema-words.ts';

/** Free text as it was typed, empty too. */
const typed = (description?: string) => maybe(Type.String(description ? { description } : {}));

const operation = Type.Object(
  {
    id: text(),
    on: typed('YYYY-MM-DD, YYYY-MM or YYYY, as far as it is known.'),
    kind: words(OPERATION_KINDS),
    note: typed(),
  },
  closed,
);

const part = Type.Object(
  {
    id: text(),
    part: words(PART_KINDS),
    fixation: maybe(words(FIXATIONS)),
    reference: typed('Catalogue number on the label.'),
    lot: typed(),
    serial: typed(),
    device: typed('Device identifier on the label.'),
    expires: typed('Day on the label.'),
    sizeNote: typed(),
    features: maybe(
      Type.Array(words<HardFeature>(HARD_FEATURES.map((f) => f.id)), {
        description: 'Features that make removal hard.',
      }),
    ),
    from: typed('Label, operation note, film, patient.'),
  },
  closed,
);

const point = Type.Unsafe<[number, number]>({
  type: 'array',
  prefixItems: [
    { type: 'number', minimum: 0, maximum: 1 },
    { type: 'number', minimum: 0, maximum: 1 },
  ],
  items: false,
  minItems: 2,
  maxItems: 2,
});

const scar = Type.Object(
  {
    id: text(),
    points: Type.Array(point, {
      description: 'On the outline of the knee from the front: x = 0 medial to 1 lateral, y = 0 above to 1 below.',
    }),
    year: maybe(Type.Number()),
    adherent: maybe(known()),
  },
  closed,
);

const examination = Type.Object(
  {
    flexionDeg: maybe(Type.Number({ description: 'Greatest flexion, degrees.' })),
    extensionDeficitDeg: maybe(Type.Number({ description: 'Passive deficit; 0 = straight, + = lacks extension.' })),
    activeLagDeg: maybe(Type.Number({ description: 'Active less than passive extension, degrees.' })),
    opening30Mm: maybe(
      Type.Object(
        { medial: Type.Number(), lateral: Type.Number() },
        { ...closed, description: 'Opening under stress at 30 degrees, mm.' },
      ),
    ),
    drawer90Mm: maybe(Type.Number({ description: 'Drawer at 90 degrees, mm.' })),
    footPulses: maybe(known('Pulses of the foot felt.')),
    skinSound: maybe(known()),
    hipRotationPainful: maybe(known()),
    rootSigns: maybe(known()),
    tenderness: typed(),
  },
  closed,
);

const hostValues = Type.Unsafe<Partial<Record<HostFactorId, number>>>(
  Type.Object(
    Object.fromEntries(
      HOST_FACTORS.map((f) => [f.id, maybe(Type.Number({ minimum: 0, description: `${f.label}, ${f.unit}.` }))]),
    ),
    closed,
  ),
);

/** History and examination, by the names of core/work-up/history.ts. */
export const historySchema = Type.Object(
  {
    operations: maybe(Type.Array(operation)),
    parts: maybe(Type.Array(part)),
    scars: maybe(Type.Array(scar)),
    painCourse: maybe(words(PAIN_COURSES)),
    painFreeMonths: maybe(Type.Number({ minimum: 0 })),
    symptoms: maybe(knownOf(SYMPTOMS)),
    examination: maybe(examination),
    charlson: maybe(knownOf(CHARLSON_ITEMS)),
    cardiac: maybe(knownOf(CARDIAC_RISK_ITEMS)),
    asa: maybe(Type.Unsafe<1 | 2 | 3 | 4 | 5>({ type: 'integer', minimum: 1, maximum: 5 })),
    heightCm: maybe(Type.Number({ exclusiveMinimum: 0 })),
    weightKg: maybe(Type.Number({ exclusiveMinimum: 0 })),
    drugs: maybe(knownOf(DRUG_ITEMS)),
    drugNotes: typed(),
    hostValues: maybe(hostValues),
    surgeryOn: maybe(isoDate('Day of the operation.')),
  },
  closed,
);
