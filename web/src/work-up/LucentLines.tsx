import {
  type LucentComponent,
  type LucentReading,
  readLucentLines,
  ZONES,
} from '@gapline/core/failure/lucent-lines.ts';
import type { Known } from '@gapline/core/measure/known.ts';
import type { WorkUp } from '@gapline/core/work-up/work-up.ts';
import { useSession } from '../case/desk.tsx';
import { Fold, NumberLine } from './inputs.tsx';
import { LUCENT_DRAWINGS } from './lucent-zones.ts';
import { type Slot, useSlot } from './slot.ts';
import { Three } from './Tri.tsx';

type Chart = NonNullable<NonNullable<WorkUp['lucentLines']>[LucentComponent]>;
const COMPONENTS = Object.keys(ZONES) as readonly LucentComponent[];

/** Widest lucent line of every zone, on our own drawings of the components, with both published readings. */
export function LucentLines() {
  const charts = useSlot<NonNullable<WorkUp['lucentLines']>>('/workUp/lucentLines').value ?? {};
  const filled = COMPONENTS.filter((c) => charts[c]?.widths.some((w) => w !== null)).length;
  return (
    <Fold title="Lucent lines by zone" said={filled === 0 ? 'not looked for' : `${filled} of 4 charts filled`}>
      <p className="said-line">Widest line in mm: 0 where you looked and saw none, empty where you did not look.</p>
      <div className="lucent-charts">
        {COMPONENTS.map((component) => (
          <LucentChart key={component} component={component} />
        ))}
      </div>
    </Fold>
  );
}

function LucentChart({ component }: { readonly component: LucentComponent }) {
  const slot = useSlot<Chart>(`/workUp/lucentLines/${component}`);
  const side = useSession((s) => s.shown.side);
  const drawing = LUCENT_DRAWINGS[component];
  const empty = Array.from({ length: ZONES[component] }, () => null);
  const chart: Chart = slot.value ?? { widths: empty };
  // Drawn for a left knee seen from the front; the profile does not turn.
  const turned = side === 'right' && drawing.edges[0] === 'medial';
  const edges = turned ? drawing.edges.toReversed() : drawing.edges;
  const { progressing } = chart;
  const reading = readLucentLines(
    component,
    chart.widths,
    progressing === 'yes' ? true : progressing === 'no' ? false : null,
  );
  const progress: Slot<Known> = {
    value: progressing,
    set: (next, how) => slot.set(next === undefined ? { widths: chart.widths } : { ...chart, progressing: next }, how),
  };
  return (
    <fieldset className="lucent-chart">
      <legend>{drawing.label}</legend>
      <svg viewBox="0 0 160 132" role="img" aria-label={`${drawing.label} with ${ZONES[component]} zones`}>
        <g transform={turned ? 'translate(160 0) scale(-1 1)' : undefined}>
          <path className="lucent-outline" d={drawing.outline} />
          {drawing.zones.map((zone, i) => (
            <path key={zone.path} className={zoneClass(chart.widths[i] ?? null)} d={zone.path} />
          ))}
        </g>
        {drawing.zones.map((zone, i) => (
          <text key={zone.path} x={turned ? 160 - zone.at[0] : zone.at[0]} y={zone.at[1]} textAnchor="middle">
            {i + 1}
          </text>
        ))}
        <text className="lucent-edge" x="4" y="10">
          {edges[0]}
        </text>
        <text className="lucent-edge" x="156" y="10" textAnchor="end">
          {edges[1]}
        </text>
      </svg>
      <div className="lucent-widths">
        {chart.widths.map((width, i) => {
          const zone: Slot<number> = {
            value: width ?? undefined,
            set: (next, how) => slot.set({ ...chart, widths: chart.widths.with(i, next ?? null) }, how),
          };
          return <NumberLine key={drawing.zones[i]?.path} label={`Zone ${i + 1}`} slot={zone} />;
        })}
      </div>
      <Three label="Grew between two dates" slot={progress} words={{ yes: ['yes', 'yes'], no: ['no', 'no'] }} />
      {reading.ok ? (
        <LucentWords reading={reading.value} published={ZONES[component] === 7} />
      ) : (
        <p className="field-fault">
          {reading.reason.message} {reading.reason.mend}
        </p>
      )}
    </fieldset>
  );
}

const zoneClass = (width: number | null): string =>
  `lucent-zone ${width === null ? 'is-unseen' : width === 0 ? 'is-none' : width < 2 ? 'is-narrow' : 'is-wide'}`;

const WORDS_1989 = {
  'probably-not-significant': 'probably not significant',
  'follow-closely': 'follow closely',
  'possible-or-impending-failure': 'possible or impending failure',
} as const;
const WORDS_2015 = { 'under-2-mm': 'under 2 mm', '2-mm-or-more': '2 mm or more', none: 'none' } as const;

function LucentWords({ reading, published }: { readonly reading: LucentReading; readonly published: boolean }) {
  const { extent, width } = reading.reading2015;
  const first = reading.reading1989
    ? WORDS_1989[reading.reading1989]
    : published
      ? 'not settled yet'
      : 'not published for this one';
  return (
    <p className="said-line">
      1989: sum {reading.sumMm.toFixed(1)} mm, {first}. 2015: {extent === 'not-known' ? 'not known' : extent}
      {width !== 'none' && `, ${WORDS_2015[width]}`}.
      {reading.zonesNotLookedAt > 0 && ` ${reading.zonesNotLookedAt} zones not looked at.`}
    </p>
  );
}
