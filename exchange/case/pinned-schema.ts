import { CONSTRAINT_LEVELS } from '@gapline/core/catalogue/catalogue.ts';
import Type from 'typebox';
import { closed, maybe, text, words } from './schema-words.ts';

const mm = (description: string) => Type.Number({ description: `${description}, mm.` });
const thickness = (description: string) => Type.Number({ minimum: 0, description: `${description}, mm; 0 = none.` });
const sides = (description: string) =>
  Type.Object(
    { medial: Type.Number({ minimum: 0 }), lateral: Type.Number({ minimum: 0 }) },
    {
      ...closed,
      description: `${description}, thickness on each side, mm; 0 = none.`,
    },
  );

/** What a person fixed of the construct (docs/rules/gaps.md, GAP-40). */
export const pinnedSchema = Type.Object(
  {
    level: maybe(words(CONSTRAINT_LEVELS, 'Level of constraint.')),
    femurSize: maybe(Type.Number({ description: 'Size of the femur.' })),
    femurProximalMm: maybe(mm('J: distal surface proximal to the target joint line')),
    femurAnteriorMm: maybe(mm('q: posterior surface anterior to the target posterior line')),
    distalAugmentsMm: maybe(sides('Distal augments')),
    posteriorAugmentsMm: maybe(sides('Posterior augments')),
    femoralOffsetMm: maybe(thickness('Offset of the femoral coupler')),
    femoralStem: maybe(text('Reference of the femoral stem, or none.')),
    traySize: maybe(Type.Number({ description: 'Size of the tray.' })),
    trayMm: maybe(mm("U: tray's bone face proximal to the target joint line, negative = distal")),
    tibialAugmentsMm: maybe(sides('Tibial augments')),
    tibialStem: maybe(text('Reference of the tibial stem, or none.')),
    insertMm: maybe(thickness('Labelled thickness of the insert')),
    slopeDeg: maybe(Type.Number({ description: 'Slope, posterior down +, degrees.' })),
  },
  {
    ...closed,
    description: 'Fixed by hand: each a demand that every construct has to meet; absent = left to the solver.',
  },
);
