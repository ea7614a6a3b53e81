import Type from 'typebox';
import { closed, isoDate, maybe, text, words } from './schema-words.ts';

/** What a case holds about the bone that may be found: canals, kit, forecast, and what was found in the end. */
const mm = (description: string) => Type.Number({ minimum: 0, description });
const chance = (description: string) => maybe(Type.Number({ minimum: 0, maximum: 1, description }));
const point = Type.Object({ x: Type.Number(), y: Type.Number() }, closed);
const boneClass = maybe(words(['1', '2A', '2B', '3'] as const));
const ligament = maybe(words(['intact', 'attenuated', 'absent', 'unknown'] as const));
const pair = (description: string) =>
  maybe(Type.Object({ medial: Type.Number(), lateral: Type.Number() }, { ...closed, description }));

const canal = Type.Object(
  {
    bone: words(['femur', 'tibia'] as const),
    film: text('`id` of the film.'),
    levels: Type.Array(
      Type.Object({ innerA: point, innerB: point, outerA: maybe(point), outerB: maybe(point) }, closed),
      { description: 'Walls at one level each, film pixels, from the joint outwards.' },
    ),
    sdMm: maybe(mm('Standard deviation of marking a wall, mm.')),
  },
  closed,
);

const kit = Type.Object(
  {
    setList: maybe(text('Id of the list of sets.')),
    sharePct: maybe(
      Type.Number({ exclusiveMinimum: 0, maximum: 100, description: 'Share that must have an answer, %.' }),
    ),
    acceptableCost: maybe(mm('Cost of a construct up to which a state counts as covered.')),
    surgeryOn: maybe(isoDate('Day of surgery.')),
    bring: maybe(Type.Array(text())),
    missing: maybe(Type.Array(text())),
  },
  closed,
);

const forecast = Type.Object(
  {
    seed: maybe(Type.Integer({ minimum: 0, maximum: 4294967295 })),
    draws: maybe(Type.Integer({ minimum: 100, maximum: 20000 })),
    fractureChance: chance('Chance of a fracture at removal.'),
    infectionChance: chance('Chance of unexpected infection.'),
    mclWorseChance: chance('Chance that the medial collateral ligament is worse than examined.'),
    lclWorseChance: chance('Chance that the lateral collateral ligament is worse than examined.'),
    femurWorseChance: chance('Chance that the femur is one class worse.'),
    tibiaWorseChance: chance('Chance that the tibia is one class worse.'),
    spreads: maybe(Type.Record(Type.String(), Type.Number({ minimum: 0 }))),
  },
  closed,
);

const kept = Type.Object(
  {
    on: isoDate('Day on which the forecast was kept.'),
    seed: Type.Integer({ minimum: 0, maximum: 4294967295 }),
    draws: Type.Integer({ minimum: 1 }),
    coreVersion: text(),
    shares: Type.Array(Type.Object({ event: text(), share: Type.Number({ minimum: 0, maximum: 1 }) }, closed)),
    lengths: Type.Array(Type.Object({ field: text(), percentiles: Type.Array(Type.Number()) }, closed)),
  },
  closed,
);

const used = Type.Object(
  {
    level: maybe(words(['ps', 'vvc', 'hinge'] as const)),
    femur: maybe(text()),
    distalAugments: maybe(
      Type.Object({ medial: Type.Union([text(), Type.Null()]), lateral: Type.Union([text(), Type.Null()]) }, closed),
    ),
    posteriorAugments: maybe(
      Type.Object({ medial: Type.Union([text(), Type.Null()]), lateral: Type.Union([text(), Type.Null()]) }, closed),
    ),
    tray: maybe(text()),
    tibialAugments: maybe(
      Type.Object({ medial: Type.Union([text(), Type.Null()]), lateral: Type.Union([text(), Type.Null()]) }, closed),
    ),
    insert: maybe(text()),
    femoralStem: maybe(Type.Union([text(), Type.Null()])),
    femoralOffset: maybe(Type.Union([text(), Type.Null()])),
    tibialStem: maybe(Type.Union([text(), Type.Null()])),
    tibialOffset: maybe(Type.Union([text(), Type.Null()])),
    femoralCone: maybe(Type.Union([text(), Type.Null()])),
    tibialCone: maybe(Type.Union([text(), Type.Null()])),
    femoralSleeve: maybe(Type.Union([text(), Type.Null()])),
    tibialSleeve: maybe(Type.Union([text(), Type.Null()])),
  },
  closed,
);

const found = Type.Object(
  {
    on: isoDate('Day of the operation.'),
    by: maybe(text()),
    femurClass: boneClass,
    tibiaClass: boneClass,
    femurDistalMm: pair('Distal femoral support found, mm.'),
    femurPosteriorMm: pair('Posterior femoral support found, mm.'),
    tibiaMm: pair('Tibial support found, mm.'),
    mcl: ligament,
    lcl: ligament,
    fracture: maybe(Type.Boolean()),
    infection: maybe(Type.Boolean()),
    used: maybe(used),
    kitSufficed: maybe(Type.Boolean()),
    missed: maybe(text()),
    note: maybe(text()),
  },
  closed,
);

export const surpriseFields = {
  canals: maybe(Type.Array(canal)),
  kit: maybe(kit),
  forecast: maybe(forecast),
  keptForecast: maybe(kept),
  found: maybe(found),
};
