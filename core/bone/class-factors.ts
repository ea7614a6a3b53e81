import type { Compartment } from '../landmarks/side.ts';
import type { Flare } from './bone-map.ts';
import {
  attachmentsOf,
  landmarkOf,
  type MapOfBone,
  type MappedSurface,
  mapField,
  metaphysisOf,
  SIDES,
  surfacesOf,
  worstOf,
} from './map-of-bone.ts';
import { type DefectOfBone, MAJOR_AREA_PCT, REBUILD_AREA_PCT, REBUILD_DEPTH_MM } from './propose-class.ts';

/** A missing field of the map and what it might turn out to be, from mild to bad; its best is what stands without it. */
export interface Factor {
  readonly kind: 'depth' | 'area' | 'flare' | 'attachment' | 'landmark';
  readonly what: string;
  readonly fields: readonly string[];
  readonly levels: readonly { readonly when: string; readonly put: (d: DefectOfBone) => DefectOfBone }[];
}

/** The bone as far as it is known: every missing field at its best. */
export function knownDefect(m: MapOfBone): DefectOfBone {
  const { flare } = metaphysisOf(m);
  const side = (s: Compartment) => ({
    depthMm: worstOf(surfacesOf(m, s), 'depthMm').known,
    unsupportedPct: worstOf(surfacesOf(m, s), 'unsupportedPct').known,
    flareShort: isShort(flare, s),
  });
  return {
    bone: m.bone,
    medial: side('medial'),
    lateral: side('lateral'),
    flareIntact: flare !== 'absent',
    attachmentLost: attachmentsOf(m).some((a) => a.state === 'lost'),
    reachesLandmark: landmarkOf(m).reached === true,
  };
}

export const isShort = (flare: Flare | undefined, side: Compartment): boolean =>
  flare === `short-${side}` || flare === 'short-both';

/** Whether the map says anything of loss on either side or of the flare: without that nothing is proposed. */
export const tellsOfLoss = (m: MapOfBone): boolean =>
  metaphysisOf(m).flare !== undefined ||
  SIDES.some((side) =>
    surfacesOf(m, side).some(({ loss }) => loss.depthMm !== undefined || loss.unsupportedPct !== undefined),
  );

/** Everything that the map does not say and the class asks for. */
export function factorsOf(m: MapOfBone): readonly Factor[] {
  const lost = attachmentsOf(m).filter((a) => a.state === undefined);
  const landmark = landmarkOf(m);
  return [
    ...SIDES.flatMap((side) => [...depthFactor(m, side), ...areaFactor(m, side)]),
    ...(metaphysisOf(m).flare === undefined ? [flareFactor(m)] : []),
    ...lost.map(
      (a): Factor => ({
        kind: 'attachment',
        what: `Attachment of the ${a.label}`,
        fields: [a.field],
        levels: [{ when: `the ${a.label} is lost`, put: (d) => ({ ...d, attachmentLost: true }) }],
      }),
    ),
    ...(landmark.reached === undefined
      ? [
          {
            kind: 'landmark' as const,
            what: `Whether the loss reaches ${landmark.label}`,
            fields: [landmark.field],
            levels: [
              {
                when: `the loss reaches ${landmark.label}`,
                put: (d: DefectOfBone) => ({ ...d, reachesLandmark: true }),
              },
            ],
          },
        ]
      : []),
  ];
}

const fieldsOf = (surfaces: readonly MappedSurface[], name: string) => surfaces.map((s) => `${s.field}.${name}`);

/** Just beyond a bound: how far beyond does not change the class. */
const BEYOND = 1;

function depthFactor(m: MapOfBone, side: Compartment): readonly Factor[] {
  const { unknown } = worstOf(surfacesOf(m, side), 'depthMm');
  if (unknown.length === 0) return [];
  const deep = (d: DefectOfBone) => Math.max(d[side].depthMm, REBUILD_DEPTH_MM + BEYOND);
  return [
    {
      kind: 'depth',
      what: `Depth of the loss, ${unknown.map((s) => s.label).join(' and ')}`,
      fields: fieldsOf(unknown, 'depthMm'),
      levels: [
        {
          when: `the ${side} side is more than ${REBUILD_DEPTH_MM} mm deep`,
          put: (d) => ({ ...d, [side]: { ...d[side], depthMm: deep(d) } }),
        },
      ],
    },
  ];
}

function areaFactor(m: MapOfBone, side: Compartment): readonly Factor[] {
  const { unknown } = worstOf(surfacesOf(m, side), 'unsupportedPct');
  if (unknown.length === 0) return [];
  const over = (pct: number, share: string) => ({
    when: `${share} of the ${side} side is unsupported`,
    put: (d: DefectOfBone): DefectOfBone => ({
      ...d,
      [side]: { ...d[side], unsupportedPct: Math.max(d[side].unsupportedPct, pct + BEYOND) },
    }),
  });
  return [
    {
      kind: 'area',
      what: `Share without support, ${unknown.map((s) => s.label).join(' and ')}`,
      fields: fieldsOf(unknown, 'unsupportedPct'),
      levels: [over(REBUILD_AREA_PCT, `more than ${REBUILD_AREA_PCT} %`), over(MAJOR_AREA_PCT, 'more than half')],
    },
  ];
}

const flareFactor = (m: MapOfBone): Factor => {
  const short = (side: Compartment) => ({
    when: `the flare is shortened on the ${side} side`,
    put: (d: DefectOfBone): DefectOfBone => ({ ...d, [side]: { ...d[side], flareShort: true } }),
  });
  return {
    kind: 'flare',
    what: 'Flare of the metaphysis',
    fields: [`${mapField(m.bone)}.metaphysis.flare`],
    levels: [
      short('medial'),
      short('lateral'),
      { when: 'the flare is gone', put: (d) => ({ ...d, flareIntact: false }) },
    ],
  };
};
