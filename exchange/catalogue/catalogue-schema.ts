import { type Catalogue, CONSTRAINT_LEVELS } from '@gapline/core/catalogue/catalogue.ts';
import Type, { type Static, type TProperties, type TSchema } from 'typebox';

/**
 * JSON Schema (2020-12) of a catalogue of components, published as catalogues/catalogue.schema.json. One source for
 * the reader, the published schema and, by `SAME_AS_CATALOGUE` below, the core's own type.
 */
const closed = { additionalProperties: false } as const;
const text = (description: string) => Type.String({ minLength: 1, description });
const positive = (description: string) => Type.Number({ exclusiveMinimum: 0, description });
const notNegative = (description: string) => Type.Number({ minimum: 0, description });
const size = (description = 'Size as the system names it.') => Type.Number({ exclusiveMinimum: 0, description });
const list = <S extends TSchema>(items: S, description: string) => Type.Array(items, { description });
const some = <S extends TSchema>(items: S, description: string) => Type.Array(items, { minItems: 1, description });
const level = Type.Enum([...CONSTRAINT_LEVELS], {
  description: 'ps posterior-stabilised, vvc varus-valgus constrained, hinge rotating hinge.',
});
const bone = Type.Enum(['femur', 'tibia', 'both']);

const point = Type.Unsafe<[number, number]>({
  type: 'array',
  prefixItems: [{ type: 'number' }, { type: 'number' }],
  items: false,
  minItems: 2,
  maxItems: 2,
});
const lines = (description: string) => Type.Array(Type.Array(point, { minItems: 2 }), { description });
const outlines = Type.Object(
  {
    coronal: lines('x = lateral, y = proximal, mm.'),
    sagittal: lines('x = anterior, y = proximal, mm.'),
  },
  {
    ...closed,
    description:
      'To draw to scale. Origin of a femur: on the distal surface, at mid-width from the front, at the posterior-most surface from the side. Tray: middle of its upper face. Insert: middle of its lower face. Empty lists: drawn as plain boxes.',
  },
);

const part = <P extends TProperties>(properties: P) =>
  Type.Object(
    {
      ref: text('Reference, unique within the catalogue.'),
      name: text('Name as it is shown.'),
      ...properties,
    },
    closed,
  );

const femur = part({
  size: size(),
  side: Type.Enum(['right', 'left', 'both']),
  distalMm: positive('Distal thickness.'),
  posteriorMm: positive('Posterior thickness.'),
  apMm: positive('Flange face to posterior surface.'),
  widthMm: positive('Mediolateral.'),
  boxWidthMm: notNegative('0 = no box.'),
  boxDepthMm: notNegative('0 = no box.'),
  stemValgusDeg: Type.Number({ minimum: -15, maximum: 15, description: 'Stem to distal face, valgus +.' }),
  stemBehindFlangeMm: Type.Optional(notNegative("Flange's face back to the stem's axis; absent = not stated.")),
  levels: some(level, 'Levels of constraint that it can take.'),
  outlines,
});
const femoralAugment = part({
  face: Type.Enum(['distal', 'posterior']),
  thicknessMm: positive('Thickness.'),
  femurSizes: some(size(), 'Femurs that it fits.'),
});
const tray = part({
  size: size(),
  thicknessMm: positive('Bone face to insert face.'),
  widthMm: positive('Mediolateral.'),
  apMm: positive('Front to back.'),
  keelMm: notNegative('Length of the keel below the plate.'),
  outlines,
});
const tibialAugment = part({
  thicknessMm: positive('Thickness of a block under one half of the tray.'),
  traySizes: some(size(), 'Trays that it fits.'),
});
const insert = part({
  size: size(),
  level,
  labelMm: positive('Thickness as labelled.'),
  heightMm: positive('True height of the low point of the bearing surface above the lower face.'),
  leastPolyethyleneMm: positive('Least polyethylene under the bearing surface.'),
  outlines: Type.Optional(outlines),
});
const stem = part({
  bone,
  fixation: Type.Enum(['cemented', 'press-fit']),
  diameterMm: positive('Diameter.'),
  lengthMm: positive('Length.'),
  shape: Type.Optional(Type.Enum(['straight', 'bowed'], { description: 'Absent = straight.' })),
  bowRadiusMm: Type.Optional(positive('Radius of the axis of a bowed stem.')),
});
const offsetCoupler = part({
  bone,
  offsetMm: positive('Offset.'),
  addedLengthMm: notNegative('Length that it adds to the stem.'),
  sizes: Type.Optional(some(size(), 'Sizes of the femur or the tray that it takes; absent = all.')),
});
const cone = part({
  bone: Type.Enum(['femur', 'tibia']),
  widthMm: positive('Greatest width.'),
  apMm: Type.Optional(positive('Greatest depth, front to back.')),
  heightMm: positive('Height.'),
  boreMm: Type.Optional(positive('Inner opening, which box and stem must pass.')),
  sizes: some(size(), 'Sizes of the femur or the tray that it takes.'),
});
const sleeve = part({
  bone: Type.Enum(['femur', 'tibia']),
  widthMm: positive('Greatest width.'),
  apMm: positive('Greatest depth, front to back.'),
  heightMm: positive('Height.'),
  sizes: some(size(), 'Sizes of the femur or the tray that it takes.'),
  takesOffset: Type.Optional(Type.Boolean({ description: 'Whether an offset coupler may follow it; absent = no.' })),
});
const segment = part({
  bone: Type.Enum(['femur', 'tibia']),
  side: Type.Enum(['right', 'left', 'both']),
  size: size('Size by which it joins the compatibility tables, as a femur or as a tray.'),
  levels: some(level, 'Levels of constraint that it can take.'),
  replacesMm: positive('Least length from the distal surface, or from the face that carries the insert, to the cut.'),
  stepsMm: list(positive('Length.'), 'Lengths that pieces between add to it; it may always stand without one.'),
  widthMm: positive('Mediolateral.'),
  apMm: positive('Front to back.'),
  apFreeMm: notNegative('Femur: how far its posterior surface may stand off the target, before or behind.'),
  stemValgusDeg: Type.Optional(Type.Number({ minimum: -15, maximum: 15, description: 'Femur: stem, valgus +.' })),
  outlines: Type.Optional(outlines),
});

export const catalogueSchema = Type.Object(
  {
    $schema: Type.Optional(Type.String()),
    format: Type.Literal('gapline-catalogue'),
    version: Type.Literal('1.0'),
    id: Type.String({ pattern: '^[A-Za-z0-9][A-Za-z0-9._-]*$', description: 'By which cases name it.' }),
    name: text('Name of the system.'),
    invented: Type.Boolean({ description: 'True for a system that exists only as an example.' }),
    retrievedOn: Type.String({ pattern: '^\\d{4}-\\d{2}-\\d{2}$', description: 'When the dimensions were taken.' }),
    sourceDocument: text('Where the dimensions were taken from.'),
    femurs: some(femur, 'Femoral components.'),
    femoralAugments: list(femoralAugment, 'Distal and posterior augments.'),
    trays: some(tray, 'Tibial trays.'),
    tibialAugments: list(tibialAugment, 'Tibial blocks.'),
    inserts: some(insert, 'Inserts.'),
    stems: list(stem, 'Stems for either bone.'),
    offsetCouplers: list(offsetCoupler, 'Couplers that set a component off its stem.'),
    cones: Type.Optional(list(cone, 'Metaphyseal cones.')),
    sleeves: Type.Optional(list(sleeve, 'Metaphyseal sleeves.')),
    segments: Type.Optional(list(segment, 'Distal femoral and proximal tibial components.')),
    compatibility: Type.Object(
      {
        femurInsert: some(Type.Object({ femurSize: size(), insertSize: size(), level }, closed), 'Which insert joins.'),
        insertTray: some(Type.Object({ insertSize: size(), traySize: size() }, closed), 'Which tray takes which.'),
        femurTray: some(Type.Object({ femurSize: size(), traySize: size() }, closed), 'Which sizes go together.'),
      },
      { ...closed, description: 'What may be joined with what; anything not listed is refused.' },
    ),
    limits: Type.Object(
      {
        cementMm: notNegative('Deepest space that cement alone may fill.'),
        cutMm: notNegative('Most bone that may be cut to seat a component.'),
        overhangMm: notNegative('Most overhang, each side.'),
        flangeGapMm: notNegative(
          'Most that the flange may stand off the anterior cortex beyond the offset of a coupler.',
        ),
        slopeDeg: some(Type.Number({ minimum: -5, maximum: 15 }), 'Tibial slopes on offer, posterior down +.'),
      },
      closed,
    ),
  },
  { ...closed, title: 'Gapline catalogue', description: 'One system of revision components. See docs/catalogue.md.' },
);

/** The published document. */
export const catalogueSchemaDocument = (): object => ({
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: 'urn:gapline:catalogue:1.0',
  ...JSON.parse(JSON.stringify(catalogueSchema)),
});

type Plain<T> = T extends readonly [infer A, infer B]
  ? [Plain<A>, Plain<B>]
  : T extends readonly (infer E)[]
    ? Plain<E>[]
    : T extends object
      ? { -readonly [K in keyof T]: Plain<T[K]> }
      : T;
type Same<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false;

/** Does not compile when schema and core type drift apart (`$schema` is the file's own, not the catalogue's). */
export const SAME_AS_CATALOGUE: Same<Plain<Omit<Static<typeof catalogueSchema>, '$schema'>>, Plain<Catalogue>> = true;
