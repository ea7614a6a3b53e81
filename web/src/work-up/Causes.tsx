import { CAUSES, type CauseId } from '@gapline/core/failure/causes.ts';
import {
  EVIDENCE,
  EVIDENCE_TABLE_VERSION,
  type EvidenceId,
  type Strength,
} from '@gapline/core/failure/evidence-table.ts';
import type { NamedCause } from '@gapline/core/failure/gate.ts';
import type { BearingItem, Looked, WeighedCause } from '@gapline/core/failure/weigh-evidence.ts';
import type { ReadEvidence } from '@gapline/core/work-up/read-work-up.ts';
import { useState } from 'react';
import { Fold, TextLine } from './inputs.tsx';
import { useReading, useRecord } from './reading.tsx';
import { type Slot, useSlot } from './slot.ts';
import { Three } from './Tri.tsx';

const FROM_WORDS: Readonly<Record<ReadEvidence['from'], string>> = {
  'by-hand': 'by hand',
  films: 'from the films',
  'lucent-lines': 'from the lucent lines',
  history: 'from the history',
  infection: 'from infection',
  nowhere: '',
};
const STRENGTHS: readonly (readonly [Strength, string])[] = [
  [3, '+3'],
  [2, '+2'],
  [1, '+1'],
  [-1, '−1'],
  [-2, '−2'],
];

/** Every cause with what supports it, what contradicts it and what was not looked for. No sum and no verdict. */
export function Causes() {
  const { causes } = useReading();
  const [opened, setOpened] = useState<CauseId | null>(null);
  return (
    <section className="block" aria-labelledby="causes-title">
      <h2 id="causes-title">Cause of failure</h2>
      <p className="block-line">
        What speaks for and against each cause. Several may hold together; the surgeon names them, the machine does not.
      </p>
      <table className="cause-table">
        <thead>
          <tr>
            <th scope="col">Cause</th>
            <th scope="col">For</th>
            <th scope="col">Against</th>
            <th scope="col">Not looked for</th>
          </tr>
        </thead>
        <tbody>
          {causes.map((cause) => (
            <CauseRows
              key={cause.id}
              cause={cause}
              open={cause.id === opened}
              onOpen={() => setOpened(cause.id === opened ? null : cause.id)}
            />
          ))}
        </tbody>
      </table>
      <EvidenceList />
    </section>
  );
}

function CauseRows({
  cause,
  open,
  onOpen,
}: {
  readonly cause: WeighedCause;
  readonly open: boolean;
  readonly onOpen: () => void;
}) {
  return (
    <>
      <tr className={open ? 'is-open' : undefined}>
        <th scope="row">
          <button type="button" className="cause-name" aria-expanded={open} onClick={onOpen}>
            {cause.label}
          </button>
        </th>
        <td>
          <Marks items={cause.supports} />
        </td>
        <td>
          <Marks items={cause.contradicts} />
        </td>
        <td className="is-count">{cause.notLookedFor.length}</td>
      </tr>
      {open && (
        <tr className="cause-opened">
          <td colSpan={4}>
            <CauseDetail cause={cause} />
          </td>
        </tr>
      )}
    </>
  );
}

/** Findings as marks, the stronger the longer: readable without colour. */
function Marks({ items }: { readonly items: readonly BearingItem[] }) {
  if (items.length === 0) return <span className="unseen">none</span>;
  return (
    <span className="marks">
      <span className="unseen">{items.length}: </span>
      {items.map((i) => (
        <span key={i.id} className={`bar is-${Math.abs(i.strength)}`} title={`${i.finding} (${i.strength})`} />
      ))}
    </span>
  );
}

function CauseDetail({ cause }: { readonly cause: WeighedCause }) {
  const about = CAUSES.find((c) => c.id === cause.id);
  return (
    <>
      <p>{about?.definition}</p>
      <p className="said-line">
        {about?.numbers} <small>{about?.source}</small>
      </p>
      <Bearing title="For" cause={cause.id} items={cause.supports} />
      <Bearing title="Against" cause={cause.id} items={cause.contradicts} />
      <Bearing title="Not looked for" cause={cause.id} items={cause.notLookedFor} />
      <p className="said-line">
        Strengths are a proposal of our own ({EVIDENCE_TABLE_VERSION}), not validated; change them to your practice.
      </p>
    </>
  );
}

function Bearing({
  title,
  cause,
  items,
}: {
  readonly title: string;
  readonly cause: CauseId;
  readonly items: readonly BearingItem[];
}) {
  const { evidence } = useReading();
  if (items.length === 0) return null;
  return (
    <>
      <h4>{title}</h4>
      <ul className="bearing">
        {items.map((item) => {
          const read = evidence.find((e) => e.id === item.id);
          return (
            <li key={item.id}>
              <StrengthPick cause={cause} item={item} />
              <span>
                {item.finding}
                {read && read.from !== 'nowhere' && (
                  <small>
                    {' '}
                    {FROM_WORDS[read.from]}
                    {read.because && `: ${read.because}`}
                    {read.film && ` (${read.film})`}
                  </small>
                )}
              </span>
            </li>
          );
        })}
      </ul>
    </>
  );
}

function StrengthPick({ cause, item }: { readonly cause: CauseId; readonly item: BearingItem }) {
  const own = useSlot<Strength>(`/workUp/strengths/${item.id}/${cause}`);
  const bears: Readonly<Partial<Record<CauseId, Strength>>> = EVIDENCE.find((e) => e.id === item.id)?.bears ?? {};
  const proposed = bears[cause];
  return (
    <select
      className="strength"
      aria-label={`Strength of: ${item.finding}`}
      value={String(item.strength)}
      onChange={(event) => {
        const next = Number(event.target.value) as Strength;
        own.set(next === proposed ? undefined : next);
      }}
    >
      {STRENGTHS.map(([value, words]) => (
        <option key={value} value={value}>
          {words}
          {value === proposed ? '' : ' own'}
        </option>
      ))}
    </select>
  );
}

const LOOKED: { readonly yes: readonly ['present', string]; readonly no: readonly ['absent', string] } = {
  yes: ['present', 'seen'],
  no: ['absent', 'not seen'],
};
const PLACES = [
  ['history', 'History'],
  ['examination', 'Examination'],
  ['films', 'Films'],
  ['ct', 'CT'],
  ['laboratory', 'Laboratory'],
  ['nuclear', 'Nuclear medicine'],
  ['special', 'Special tests'],
] as const;

/** The findings themselves, by where they are looked for; what films, history and laboratory say is filled in. */
function EvidenceList() {
  const { evidence } = useReading();
  const open = evidence.filter((e) => e.looked === 'unknown').length;
  return (
    <Fold title="Findings" said={`${evidence.length - open} looked for, ${open} not`}>
      {PLACES.map(([place, words]) => (
        <div key={place} className="tri-list">
          <h4>{words}</h4>
          {EVIDENCE.filter((e) => e.lookedForIn === place).map((e) => (
            <EvidenceLine key={e.id} id={e.id} />
          ))}
        </div>
      ))}
    </Fold>
  );
}

function EvidenceLine({ id }: { readonly id: EvidenceId }) {
  const read = useReading().evidence.find((e) => e.id === id);
  const slot = useSlot<Looked>(`/workUp/evidence/${id}`);
  if (!read) return null;
  const derived = read.from !== 'by-hand' && read.from !== 'nowhere';
  const hint = derived
    ? `${read.looked === 'present' ? 'seen' : 'not seen'} ${FROM_WORDS[read.from]}: ${read.because}`
    : read.overrides
      ? `Contradicts: ${read.overrides.because}`
      : undefined;
  return (
    <Three label={read.finding} slot={slot as Slot<'present' | 'absent' | 'unknown'>} words={LOOKED} hint={hint} />
  );
}

/** The cause or causes as the surgeon names them, each with a reason. */
export function NameCauses() {
  const slot = useSlot<readonly NamedCause[]>('/workUp/causes');
  const named = useRecord().causes ?? [];
  const free = CAUSES.filter((c) => !named.some((n) => n.cause === c.id));
  return (
    <div className="named-causes">
      {named.map((one) => {
        const reason: Slot<string> = {
          value: one.reason === '' ? undefined : one.reason,
          set: (next, how) =>
            slot.set(
              named.map((n) => (n.cause === one.cause ? { ...n, reason: next ?? '' } : n)),
              how,
            ),
        };
        return (
          <div className="row is-cause" key={one.cause}>
            <TextLine
              label={`${CAUSES.find((c) => c.id === one.cause)?.label}, because`}
              slot={reason}
              placeholder="reason"
            />
            <button
              type="button"
              className="remove"
              onClick={() => slot.set(named.filter((n) => n.cause !== one.cause))}
              title="Take away this cause"
            >
              <span aria-hidden="true">×</span>
              <span className="unseen">Take away this cause</span>
            </button>
          </div>
        );
      })}
      <label className="line-field">
        Name a cause
        <select
          value=""
          onChange={(event) => slot.set([...named, { cause: event.target.value as CauseId, reason: '' }])}
        >
          <option value="">choose</option>
          {free.map((c) => (
            <option key={c.id} value={c.id}>
              {c.label}
            </option>
          ))}
        </select>
      </label>
    </div>
  );
}
