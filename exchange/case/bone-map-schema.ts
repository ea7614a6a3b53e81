import { DRAWN_SURFACES, FIXATIONS_IN_PLACE, FLARES, WEAK_SPOTS } from '@gapline/core/bone/bone-map.ts';
import Type from 'typebox';
import { closed, maybe, text, words } from './schema-words.ts';

/** Bone stock of a case: maps by side and surface, defects drawn on films, fixation in place. */
const mm = (description: string) => Type.Number({ minimum: 0, description });
const percent = (description: string) => Type.Number({ minimum: 0, maximum: 100, description });
const attachment = maybe(words(['held', 'lost'] as const));

const loss = Type.Object(
  {
    depthMm: maybe(mm('Deepest loss below the planned resection plane, mm.')),
    depthSdMm: maybe(mm('Standard deviation of the depth, mm.')),
    unsupportedPct: maybe(percent('Share of the surface without support, %.')),
    rim: maybe(words(['intact', 'lost'] as const)),
    contained: maybe(Type.Boolean()),
  },
  { ...closed, description: 'Loss of one surface; absent fields are not known.' },
);
const sides = maybe(Type.Object({ medial: maybe(loss), lateral: maybe(loss) }, closed));

const metaphysis = maybe(
  Type.Object(
    {
      flare: maybe(words(FLARES)),
      cavityWidthMm: maybe(mm('Width of the cavity on the AP film, mm.')),
      cavityApMm: maybe(mm('Depth of the cavity from front to back, mm.')),
      cavityHeightMm: maybe(mm('Height of the cavity along the bone, mm.')),
      cavityFromPlaneMm: maybe(mm('Mouth of the cavity beyond the resection plane, mm.')),
      wallMm: maybe(mm('Thinnest wall left, mm.')),
      hostContactPct: maybe(percent('Share of the wall that is host bone, %.')),
    },
    closed,
  ),
);
const diaphysis = maybe(
  Type.Object(
    {
      weakSpots: maybe(
        Type.Array(
          Type.Object(
            { kind: words(WEAK_SPOTS), farEndMm: mm('From the target joint line to the far end, mm.') },
            closed,
          ),
        ),
      ),
      outerDiameterMm: maybe(mm('Outer diameter of the shaft, mm.')),
      otherMetalMm: maybe(mm('Nearest end of other metal from the target joint line, mm.')),
    },
    closed,
  ),
);

const point = Type.Object({ x: Type.Number(), y: Type.Number() }, closed);
const drawn = Type.Object(
  {
    id: text(),
    film: text('`id` of the film.'),
    surface: words(DRAWN_SURFACES),
    compartment: words(['medial', 'lateral', 'both'] as const),
    outline: Type.Array(point, { minItems: 3, description: 'Closed outline, film pixels.' }),
  },
  closed,
);
const removal = Type.Object(
  {
    fixation: words(FIXATIONS_IN_PLACE),
    surface: words(['femur-distal', 'femur-posterior', 'tibia'] as const),
    leastMm: mm('Least loss, mm.'),
    likelyMm: mm('Most likely loss, mm.'),
    mostMm: mm('Most loss, mm.'),
    classWorse: maybe(Type.Number({ minimum: 0, maximum: 1, description: 'Chance of one class worse.' })),
  },
  { ...closed, description: "The practice's own estimate." },
);

export const boneMapFields = {
  femurMap: maybe(
    Type.Object(
      {
        distal: sides,
        posterior: sides,
        anterior: maybe(loss),
        metaphysis,
        diaphysis,
        medialCollateral: attachment,
        lateralCollateral: attachment,
        reachesEpicondyles: maybe(Type.Boolean()),
      },
      closed,
    ),
  ),
  tibiaMap: maybe(
    Type.Object(
      {
        plateau: sides,
        metaphysis,
        diaphysis,
        medialCollateral: attachment,
        lateralCollateral: attachment,
        patellarTendon: attachment,
        reachesTubercle: maybe(Type.Boolean()),
      },
      closed,
    ),
  ),
  drawn: maybe(Type.Array(drawn)),
  femurFixation: maybe(words(FIXATIONS_IN_PLACE)),
  tibiaFixation: maybe(words(FIXATIONS_IN_PLACE)),
  removalEstimates: maybe(Type.Array(removal)),
};
