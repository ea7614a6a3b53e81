import type { FemurMap, MetaphysisMap, SurfaceLoss, TibiaMap } from '@gapline/core/bone/bone-map.ts';
import type { MapOfBone } from '@gapline/core/bone/map-of-bone.ts';
import { useId } from 'react';
import { useSession } from '../../case/desk.tsx';
import {
  type BoneName,
  type BoneView,
  leftOf,
  REGIONS,
  type Region,
  type RegionId,
  VIEW_HEIGHT,
  VIEWS,
} from './bone-drawing.ts';
import { depthShade, SHADE_WORDS } from './depth-shade.ts';

interface Props {
  readonly map: MapOfBone;
  readonly chosen: RegionId | null;
  readonly onChoose: (region: RegionId) => void;
}

/** The bone from all sides as a picture to press on: shaded by depth, hatched where nothing is known. */
export function BonePicture({ map: { bone, map }, chosen, onChoose }: Props) {
  const right = useSession((s) => s.shown.side === 'right');
  // Medial stays towards the other knee, as one stands before the patient.
  const views = right ? VIEWS[bone].toReversed() : VIEWS[bone];
  return (
    <>
      <div className={`bone-views is-${bone}`}>
        {views.map((view) => (
          <OneView key={view.id} view={view} map={map} {...{ bone, right, chosen, onChoose }} />
        ))}
      </div>
      <p className="shade-key" aria-hidden="true">
        <span>Loss</span>
        {SHADE_WORDS.map((words, i) => (
          <span key={words} className={`shade-box is-d${i}`}>
            {words}
          </span>
        ))}
        <span className="shade-box is-unknown">not known</span>
      </p>
    </>
  );
}

interface ViewProps extends Omit<Props, 'map'> {
  readonly bone: BoneName;
  readonly view: BoneView;
  readonly map: FemurMap | TibiaMap;
  readonly right: boolean;
}

function OneView({ view, map, right, bone, chosen, onChoose }: ViewProps) {
  const id = useId();
  const turned = view.turns && right;
  const edges = turned ? view.edges.toReversed() : view.edges;
  return (
    <figure className="bone-view" style={{ flexGrow: view.width, flexBasis: 0 }}>
      <figcaption>{view.title}</figcaption>
      <div className="bone-canvas" style={{ aspectRatio: `${view.width} / ${VIEW_HEIGHT}` }}>
        <svg viewBox={`0 0 ${view.width} ${VIEW_HEIGHT}`} aria-hidden="true">
          <defs>
            <clipPath id={`${id}-shape`}>
              <path d={view.outline} />
            </clipPath>
            <pattern
              id={`${id}-hatch`}
              width="6"
              height="6"
              patternUnits="userSpaceOnUse"
              patternTransform="rotate(45)"
            >
              <path className="hatch-line" d="M0 0V6" />
            </pattern>
          </defs>
          <g transform={turned ? `translate(${view.width} 0) scale(-1 1)` : undefined}>
            <path className="bone-ground" d={view.outline} />
            <g clipPath={`url(#${id}-shape)`}>
              {view.boxes.map(([region, [x, y, width, height]]) => {
                const shade = shadeOf(stateOf(map, regionOf(bone, region)));
                return (
                  <rect
                    key={region}
                    className={`bone-region ${shade === null ? 'is-unknown' : `is-d${shade}`}`}
                    style={shade === null ? { fill: `url(#${id}-hatch)` } : undefined}
                    {...{ x, y, width, height }}
                  />
                );
              })}
            </g>
            <path className="bone-outline" d={view.outline} />
            {view.boxes
              .filter(([region]) => region === chosen)
              .map(([region, [x, y, width, height]]) => (
                <g key={region}>
                  <clipPath id={`${id}-chosen`}>
                    <rect {...{ x, y, width, height }} />
                  </clipPath>
                  <path className="bone-chosen" d={view.outline} clipPath={`url(#${id}-chosen)`} />
                  <rect className="bone-chosen" {...{ x, y, width, height }} clipPath={`url(#${id}-shape)`} />
                </g>
              ))}
          </g>
        </svg>
        {view.boxes.map(([region, box]) => {
          const of = regionOf(bone, region);
          const state = stateOf(map, of);
          return (
            <button
              key={region}
              type="button"
              className={`bone-press shade-${shadeOf(state) ?? 'none'}`}
              aria-pressed={region === chosen}
              aria-label={`${of.label}: ${state.told}`}
              data-region={region}
              style={{
                left: `${(100 * leftOf(view, turned, box)) / view.width}%`,
                top: `${(100 * box[1]) / VIEW_HEIGHT}%`,
                width: `${(100 * box[2]) / view.width}%`,
                height: `${(100 * box[3]) / VIEW_HEIGHT}%`,
              }}
              onClick={() => onChoose(region)}
            >
              <span aria-hidden="true">{state.short}</span>
            </button>
          );
        })}
      </div>
      <p className="bone-edges" aria-hidden="true">
        <span>{edges[0]}</span>
        <span>{edges[1]}</span>
      </p>
    </figure>
  );
}

const regionOf = (bone: BoneName, id: RegionId): Region =>
  REGIONS[bone].find((r) => r.id === id) ?? { id, label: id, at: id, is: 'surface' };

/** What is known of a region, for the eye and for the ear. */
interface RegionState {
  readonly depthMm: number | undefined;
  readonly short: string;
  readonly told: string;
}

const shadeOf = ({ depthMm }: RegionState) => depthShade(depthMm);

function stateOf(map: FemurMap | TibiaMap, region: Region): RegionState {
  if (region.is === 'metaphysis') return ofMetaphysis(map.metaphysis);
  if (region.is === 'shaft') {
    const spots = map.diaphysis?.weakSpots;
    if (!map.diaphysis) return { depthMm: undefined, short: '?', told: 'not known' };
    const words = spots && spots.length > 0 ? `${spots.length} weak` : 'sound';
    return { depthMm: spots && spots.length > 0 ? 8 : 0, short: words, told: words };
  }
  const loss = region.at
    .split('/')
    .reduce<unknown>((at, step) => (at as Record<string, unknown> | undefined)?.[step], map);
  return ofSurface(loss as SurfaceLoss | undefined);
}

function ofSurface(loss: SurfaceLoss | undefined): RegionState {
  const { depthMm, unsupportedPct } = loss ?? {};
  const share = unsupportedPct === undefined ? '' : `, ${Math.round(unsupportedPct)} % without support`;
  if (depthMm === undefined) return { depthMm, short: '?', told: `depth not known${share}` };
  const depth = `${Math.round(10 * depthMm) / 10} mm`;
  return { depthMm, short: depth, told: `${depth} deep${share}` };
}

const FLARE: Readonly<Record<NonNullable<MetaphysisMap['flare']>, readonly [depthMm: number, words: string]>> = {
  intact: [0, 'flare intact'],
  'short-medial': [7, 'short medially'],
  'short-lateral': [7, 'short laterally'],
  'short-both': [15, 'short on both sides'],
  absent: [25, 'flare gone'],
};

function ofMetaphysis(map: MetaphysisMap | undefined): RegionState {
  if (!map?.flare) return { depthMm: undefined, short: '?', told: 'flare not known' };
  const [depthMm, words] = FLARE[map.flare];
  return { depthMm, short: words, told: words };
}
