import {
  SPAN_COMPONENTS,
  SPAN_KINDS,
  SPAN_VIEWS,
  type SpanComponent,
  type SpanKind,
  spanWidth,
} from '@gapline/core/limb/interface-span.ts';
import { calibrateFilms } from '@gapline/core/plan/calibrate-films.ts';
import { checkCase, soundPart } from '@gapline/core/plan/check-case.ts';
import { evidenceFor } from '@gapline/core/plan/make-plan.ts';
import { useMemo, useState } from 'react';
import { useDesk, useDeskState, useSession } from '../case/desk.tsx';
import { showWithTool } from '../film/show-with-tool.ts';
import { tabWord } from '../film/tab-word.ts';
import { Choice } from '../parts/fields.tsx';
import { number, spread } from '../parts/words.ts';
import { chartEdit, removeSpan } from './span-edits.ts';
import { COMPONENT_WORDS, KIND_WORDS, spanWords, zonesOf } from './span-words.ts';

const pairs = <K extends string>(keys: readonly K[], words: Readonly<Record<K, string>>) =>
  keys.map((k) => [k, words[k]] as const);

/** Lucent lines and cement mantles: marked across the interface on a film, by zone, with their widths. */
export function InterfaceSpans() {
  const { state, session } = useDesk();
  const file = useSession((s) => s.shown);
  const tool = useDeskState((s) => s.tool);
  const [kind, setKind] = useState<SpanKind>('lucent-line');
  const [component, setComponent] = useState<SpanComponent>('tibia-ap');
  const [zone, setZone] = useState<number | null>(null);
  const films = file.films.filter(
    (f) => SPAN_VIEWS[component].includes(f.view) && (f.side === 'both' || f.side === file.side),
  );
  // Only the zone under a tray can be told from the place.
  const told = component === 'tibia-ap';
  const chosen = told ? zone : (zone ?? 1);
  return (
    <details className="interface-spans">
      <summary>Lucent lines and cement on the films{countWords(file.interfaceSpans?.length ?? 0)}</summary>
      <div className="fields">
        <Choice
          label="What"
          options={pairs(SPAN_KINDS, KIND_WORDS)}
          value={kind}
          onChoose={(k) => setKind(k as SpanKind)}
        />
        <Choice
          label="Where"
          options={pairs(SPAN_COMPONENTS, COMPONENT_WORDS)}
          value={component}
          onChoose={(c) => {
            setComponent(c as SpanComponent);
            setZone(null);
          }}
        />
        <Choice
          label="Zone"
          options={zonesOf(component).map((z) => [String(z), `Zone ${z}`] as const)}
          {...(told ? { none: 'from where it lies' } : {})}
          value={chosen === null ? '' : String(chosen)}
          onChoose={(z) => setZone(z === '' ? null : Number(z))}
        />
      </div>
      {films.length === 0 && <p className="said-line">No film of this knee shows it.</p>}
      <div className="buttons">
        {films.map((film) => {
          const inHand = tool?.is === 'span' && tool.film === film.id;
          return (
            <button
              key={film.id}
              type="button"
              aria-pressed={inHand}
              onClick={() =>
                inHand
                  ? state.setState({ tool: null, selected: null })
                  : showWithTool(state, { is: 'span', film: film.id, kind, component, zone: chosen, first: null })
              }
            >
              {inHand ? 'Done' : `Mark it on: ${tabWord(film, file.films)}`}
            </button>
          );
        })}
      </div>
      <SpanList />
      <ChartButtons onTake={(edit, words) => session.commit([edit], words)} />
    </details>
  );
}

const countWords = (n: number): string => (n === 0 ? '' : `: ${n} marked`);

const useEvidence = () => {
  const file = useSession((s) => s.shown);
  return useMemo(() => {
    const sound = soundPart(file, checkCase(file));
    return evidenceFor(sound, calibrateFilms(sound));
  }, [file]);
};

function SpanList() {
  const { session } = useDesk();
  const file = useSession((s) => s.shown);
  const evidence = useEvidence();
  const spans = file.interfaceSpans ?? [];
  if (spans.length === 0) return null;
  return (
    <ul className="span-list" aria-label="Widths marked">
      {spans.map((span) => {
        const width = spanWidth(span, evidence);
        const film = file.films.find((f) => f.id === span.film);
        return (
          <li key={span.id}>
            <span>
              {spanWords(span)}
              <small>{film ? tabWord(film, file.films) : 'no such film'}</small>
            </span>
            <strong>
              {width.ok ? `${number(width.value.widthMm)} mm ${spread(width.value.sdMm, 'mm')}` : width.reason.message}
            </strong>
            <button
              type="button"
              className="remove"
              aria-label={`Take away: ${spanWords(span)}`}
              onClick={() => session.commit([removeSpan(file, span.id)], `${spanWords(span)} taken away`)}
            >
              ×
            </button>
          </li>
        );
      })}
    </ul>
  );
}

/** Measured lucent lines are offered to the chart of the work-up; taken over only by hand. */
function ChartButtons({
  onTake,
}: {
  readonly onTake: (edit: NonNullable<ReturnType<typeof chartEdit>>, words: string) => void;
}) {
  const file = useSession((s) => s.shown);
  const evidence = useEvidence();
  const present = useMemo(
    () => ({ ...evidence, films: evidence.films.filter((f) => f.role === 'present') }),
    [evidence],
  );
  const offers = SPAN_COMPONENTS.flatMap((component) => {
    const edit = chartEdit(file, present, component);
    return edit ? [{ component, edit }] : [];
  });
  return (
    <div className="buttons">
      {offers.map(({ component, edit }) => (
        <button
          key={component}
          type="button"
          onClick={() => onTake(edit, `Lucent lines measured on film, ${COMPONENT_WORDS[component]}`)}
        >
          Put the widest lines into the chart: {COMPONENT_WORDS[component]}
        </button>
      ))}
    </div>
  );
}
