import { LANDMARKS, type LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import { SKIP_REASONS } from '@gapline/core/landmarks/repeated-mark.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import Type, { type Static } from 'typebox';
import { boneMapFields } from './bone-map-schema.ts';
import { pinnedSchema } from './pinned-schema.ts';
import { closed, isoDate, maybe, type Plain, type Same, text, words } from './schema-words.ts';
import { interfaceSpan } from './span-schema.ts';
import { surpriseFields } from './surprise-schema.ts';
import { workUpSchema } from './work-up-schema.ts';

/**
 * JSON Schema (2020-12) of `case.json`, published as cases/case.schema.json. One source for the reader,
 * the published schema and, by `SameAsCaseFile` below, the core's own type.
 */
const positive = (description: string) => Type.Number({ exclusiveMinimum: 0, description });
const notNegative = (description: string) => Type.Number({ minimum: 0, description });

const pair = (description: string) =>
  Type.Unsafe<[number, number]>({
    type: 'array',
    prefixItems: [{ type: 'number' }, { type: 'number' }],
    items: false,
    minItems: 2,
    maxItems: 2,
    description,
  });

const side = Type.Enum(['right', 'left'], { description: "Side of the patient's body." });
const view = Type.Enum(['long-leg', 'ap', 'lateral', 'skyline', 'stress-varus', 'stress-valgus', 'ct', 'other']);
const ligament = Type.Enum(['intact', 'attenuated', 'absent', 'unknown'], {
  description: '`unknown` is never read as intact.',
});
const boneClass = Type.Enum(['1', '2A', '2B', '3'], { description: 'Class of bone loss (docs/rules/bone.md).' });
const boneQuality = Type.Enum(['good', 'sclerotic', 'osteoporotic']);
const perCompartment = (description: string) =>
  Type.Object({ medial: Type.Number(), lateral: Type.Number() }, { ...closed, description });

const patient = Type.Object(
  {
    id: maybe(text()),
    name: maybe(text()),
    sex: maybe(Type.Enum(['female', 'male'])),
    birthDate: maybe(isoDate('Year-month-day.')),
  },
  closed,
);

const scaleFacts = Type.Object(
  {
    volumetric: Type.Boolean({ description: 'CT or MR slice with patient-plane spacing.' }),
    rows: Type.Integer({ minimum: 1 }),
    columns: Type.Integer({ minimum: 1 }),
    pixelSpacing: maybe(pair('Row and column spacing, mm.')),
    calibrationType: maybe(Type.Enum(['GEOMETRY', 'FIDUCIAL'])),
    calibrationDescription: maybe(Type.String()),
    imagerPixelSpacing: maybe(pair('Row and column spacing at the detector, mm.')),
    nominalScannedPixelSpacing: maybe(pair('Row and column spacing of a scanned film, mm.')),
    magnificationFactor: maybe(positive('Estimated radiographic magnification factor.')),
    sourceToDetectorMm: maybe(positive('Source to detector, mm.')),
    sourceToPatientMm: maybe(positive('Source to patient, mm.')),
    pixelAspect: maybe(positive('Height of a pixel over its width.')),
    fieldOfViewMm: maybe(Type.Array(Type.Number(), { description: 'Field of view, mm.' })),
    derived: Type.Boolean({ description: 'The picture was computed from another.' }),
    presentationPixelSpacing: maybe(pair('Row and column spacing of a presentation state, mm.')),
    stitched: maybe(Type.Boolean({ description: 'Several exposures joined into one picture.' })),
  },
  { ...closed, description: "What the film's file says about scale, as read." },
);

const chosenScale = Type.Union(
  [
    Type.Object(
      {
        kind: Type.Literal('known-implant'),
        part: Type.Enum(['tray', 'femoral-component']),
        side,
        widthMm: positive('True width of the implant, mm.'),
      },
      closed,
    ),
    Type.Object({ kind: Type.Literal('ball'), diameterMm: positive('True diameter of the ball, mm.') }, closed),
    Type.Object(
      {
        kind: Type.Literal('magnification'),
        factor: Type.Number({ minimum: 1, description: 'Size on the detector over size in the patient.' }),
        from: text('Where the factor comes from.'),
      },
      closed,
    ),
    Type.Object(
      {
        kind: Type.Literal('distances'),
        sourceToDetectorMm: positive('Source to detector, mm.'),
        sourceToKneeMm: positive('Source to the middle of the knee, mm.'),
        from: text('Where the distances come from.'),
      },
      closed,
    ),
    Type.Object(
      {
        kind: Type.Literal('stated-spacing'),
        mmPerPx: positive('Millimetres in the patient per pixel.'),
        from: text(),
      },
      closed,
    ),
  ],
  { description: 'Calibration chosen by a person; absent = what the file allows.' },
);

const vector = (description: string) =>
  Type.Unsafe<[number, number, number]>({
    type: 'array',
    prefixItems: [{ type: 'number' }, { type: 'number' }, { type: 'number' }],
    items: false,
    minItems: 3,
    maxItems: 3,
    description,
  });

const slices = Type.Object(
  {
    along: vector('Unit vector of the patient that a row runs along: x left +, y back +, z head +.'),
    down: vector('Unit vector that a column runs down.'),
    each: Type.Array(
      Type.Object(
        {
          sha256: Type.String({ pattern: '^[0-9a-f]{64}$', description: "SHA-256 of the file's bytes, hex." }),
          file: text('File name in the case folder.'),
          originMm: vector('Centre of the first pixel in the patient, mm.'),
        },
        closed,
      ),
      { minItems: 2, description: 'In order of place.' },
    ),
  },
  { ...closed, description: 'Slices of a CT stack; `file` and `sha256` of the film are the slice in the middle.' },
);

const film = Type.Object(
  {
    id: text('Name by which marks refer to the film.'),
    file: text('File name in the case folder.'),
    sha256: maybe(Type.String({ pattern: '^[0-9a-f]{64}$', description: "SHA-256 of the file's bytes, hex." })),
    view,
    side: Type.Enum(['right', 'left', 'both'], { description: '`both` for a long-leg film of both legs.' }),
    takenOn: maybe(isoDate('Day of the exposure.')),
    role: Type.Enum(['present', 'before-first-replacement', 'after-first-replacement']),
    standing: maybe(Type.Boolean()),
    columnsTowards: maybe(Type.Enum(['patient-left', 'patient-right', 'anterior', 'posterior'])),
    scaleFacts,
    scale: maybe(chosenScale),
    sideConfirmed: maybe(Type.Object({ by: text(), on: text() }, closed)),
    personMark: maybe(text('Mark of the person named in the file of the film; equal marks, same person.')),
    personConfirmed: maybe(Type.Object({ by: text(), on: text() }, closed)),
    slices: maybe(slices),
  },
  closed,
);

const landmarkId = Type.Unsafe<LandmarkId>({
  type: 'string',
  enum: LANDMARKS.map((l) => l.id),
  description: 'A named point (core/landmarks/landmark-table.ts).',
});

const markFields = {
  landmark: landmarkId,
  side,
  film: text('`id` of the film.'),
  slice: maybe(Type.Integer({ minimum: 0, description: 'Slice of a CT stack, from 0 in its order.' })),
  points: Type.Array(Type.Object({ x: Type.Number(), y: Type.Number() }, closed), {
    minItems: 1,
    description: 'Film pixels, x = column, y = row (down); three or more for an outline, otherwise one.',
  }),
  sdMm: maybe(notNegative('Standard deviation of marking each coordinate, mm in the patient.')),
  how: Type.Enum(['by-hand', 'proposed-and-accepted', 'model-truth']),
  by: maybe(text()),
};
const mark = Type.Object(markFields, closed);

const repeat = Type.Object(
  {
    ...markFields,
    round: Type.Integer({ minimum: 2, maximum: 1000, description: 'Which time it was placed; the mark is the first.' }),
    why: words(['repeat', 'conflict'] as const, '`conflict`: two people moved one mark at once; both places are kept.'),
  },
  closed,
);
const skip = Type.Object(
  { landmark: landmarkId, side, film: text('`id` of the film.'), reason: words(SKIP_REASONS), by: maybe(text()) },
  closed,
);

const implants = Type.Object(
  {
    femurDistalMm: maybe(positive('Distal thickness of the femoral component, mm.')),
    femurPosteriorMm: maybe(positive('Posterior thickness of the femoral component, mm.')),
    femurWidthMm: maybe(positive('Width of the femoral component, mm.')),
    trayWidthMm: maybe(positive('Width of the tray, mm.')),
    trayThicknessMm: maybe(positive('Thickness of the tray, bone face to insert face, mm.')),
    insertMm: maybe(positive('Height of the insert from the tray to its bearing surface, mm.')),
    from: maybe(text('Operation note, label ...')),
  },
  closed,
);

const examination = Type.Object(
  {
    openingExtensionMm: maybe(perCompartment('Opening under stress at 0 degrees with the present implant, mm.')),
    openingFlexionMm: maybe(perCompartment('Opening under stress at 90 degrees with the present implant, mm.')),
    openingSdMm: maybe(notNegative('Standard deviation of those openings, mm.')),
    recurvatumDeg: maybe(Type.Number({ description: 'Passive hyperextension, degrees.' })),
    flexionDeg: maybe(Type.Number({ description: 'Greatest flexion, degrees.' })),
    mcl: maybe(ligament),
    lcl: maybe(ligament),
    extensorMechanism: maybe(ligament),
    filmFlexionDeg: maybe(Type.Number({ description: 'Flexion of the knee on the long-leg film, degrees.' })),
    filmRotationDeg: maybe(Type.Number({ description: 'Rotation of the limb on it, degrees, external +.' })),
  },
  closed,
);

const bone = Type.Object(
  {
    femurClass: maybe(boneClass),
    tibiaClass: maybe(boneClass),
    femurQuality: maybe(boneQuality),
    tibiaQuality: maybe(boneQuality),
    removalLossMm: maybe(
      Type.Object(
        {
          femurDistal: maybe(notNegative('Further loss at the distal femur, mm.')),
          femurPosterior: maybe(notNegative('Further loss at the posterior femur, mm.')),
          tibia: maybe(notNegative('Further loss at the tibia, mm.')),
        },
        { ...closed, description: "Loss expected at removal, the practice's own estimate; absent = unknown." },
      ),
    ),
    femurCanalMm: maybe(positive('Inner canal diameter of the femur, mm.')),
    tibiaCanalMm: maybe(positive('Inner canal diameter of the tibia, mm.')),
    ...boneMapFields,
  },
  closed,
);

const correlation = Type.Number({ minimum: 0, exclusiveMaximum: 1 });
const settings = Type.Object(
  {
    correlations: maybe(
      Type.Object({ withinFemur: correlation, withinTibia: correlation, across: correlation }, closed),
    ),
    population: maybe(Type.Enum(['pooled', 'european', 'chinese'])),
    weights: maybe(
      Type.Object(
        {
          version: text(),
          weights: Type.Array(
            Type.Object(
              {
                id: text(),
                label: text(),
                weight: notNegative('Cost per unit beyond the free zone.'),
                unit: Type.Enum(['mm', 'deg', 'count', 'level']),
                free: pair('Free zone, low and high, in the unit.'),
                reason: text(),
                source: text(),
              },
              closed,
            ),
          ),
        },
        closed,
      ),
    ),
    targetAlignment: maybe(Type.Enum(['neutral', 'constitutional'])),
    targetSlopeDeg: maybe(Type.Number({ minimum: -10, maximum: 20 })),
    pinned: maybe(pinnedSchema),
  },
  closed,
);

export const CASE_VERSION = '1.0';

export const caseSchema = Type.Object(
  {
    $schema: maybe(Type.String()),
    format: Type.Literal('gapline-case'),
    version: Type.Literal(CASE_VERSION),
    id: Type.String({ pattern: '^[A-Za-z0-9][A-Za-z0-9._-]*$', description: 'Short name without spaces.' }),
    title: text(),
    side: Type.Enum(['right', 'left'], { description: 'Side to be operated on.' }),
    patient,
    films: Type.Array(film),
    marks: Type.Array(mark),
    repeats: maybe(Type.Array(repeat, { description: 'The same landmarks placed again (docs/rules/landmarks.md).' })),
    skipped: maybe(Type.Array(skip, { description: 'Landmarks passed over, with the reason.' })),
    implants: maybe(implants),
    examination: maybe(examination),
    bone: maybe(bone),
    settings: maybe(settings),
    ...surpriseFields,
    interfaceSpans: maybe(Type.Array(interfaceSpan)),
    workUp: maybe(workUpSchema),
    catalogue: maybe(text('Id of the catalogue; absent = none chosen, then no construct is proposed.')),
    invented: maybe(Type.Boolean({ description: 'True for invented demonstration cases.' })),
    note: maybe(Type.String()),
  },
  {
    ...closed,
    title: 'Gapline case',
    description: 'One knee to be planned. Absent fields are unknown, never zero. See docs/case-file.md.',
  },
);

/** The published document. */
export const caseSchemaDocument = (): object => ({
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: 'urn:gapline:case:1.0',
  ...JSON.parse(JSON.stringify(caseSchema)),
});

/** Does not compile when schema and core type drift apart (`$schema` is the file's own, not the case's). */
export const SAME_AS_CASE_FILE: Same<Plain<Omit<Static<typeof caseSchema>, '$schema'>>, Plain<CaseFile>> = true;
