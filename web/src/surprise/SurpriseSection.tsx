import { type ReactNode, useEffect } from 'react';
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import { STANDING_WORDS, StandingShape } from '../parts/StandingShape.tsx';
import type { SurpriseStanding } from './standing.ts';

/** Sections that stand open; kept while the page lives, so that going to the films and back loses nothing. */
const opened = createStore<ReadonlySet<string>>(() => new Set<string>());

/** Opens a section and brings it into sight. */
export function openSection(id: string): void {
  opened.setState(new Set([...opened.getState(), id]), true);
  requestAnimationFrame(() => {
    document.getElementById(`section-${id}`)?.scrollIntoView({ block: 'start' });
    document.getElementById(`open-${id}`)?.focus({ preventScroll: true });
  });
}

interface Props {
  readonly id: string;
  readonly title: string;
  readonly standing: SurpriseStanding;
  readonly children: ReactNode;
}

/** One part of the page: its name, where it stands in one line, and what is in it once it is opened. */
export function SurpriseSection({ id, title, standing, children }: Props) {
  const open = useStore(opened, (all) => all.has(id));
  const toggle = (): void => {
    const next = new Set(opened.getState());
    if (!next.delete(id)) next.add(id);
    opened.setState(next, true);
  };
  return (
    <section id={`section-${id}`} className={`surprise-section is-${standing.is}${open ? ' is-open' : ''}`}>
      <h2>
        <button type="button" id={`open-${id}`} aria-expanded={open} aria-controls={`body-${id}`} onClick={toggle}>
          <StandingShape is={standing.is} />
          <span className="section-title">{title}</span>
          <span className="section-line">
            <span className="standing-word">{STANDING_WORDS[standing.is]}</span> {standing.line}
          </span>
        </button>
      </h2>
      <div id={`body-${id}`} className="section-body" hidden={!open}>
        {open && children}
      </div>
    </section>
  );
}

/** Whatever was opened belongs to one case: another case begins closed. */
export function useSectionsOf(caseId: string): void {
  useEffect(() => {
    if (lastCase !== caseId) opened.setState(new Set(), true);
    lastCase = caseId;
  }, [caseId]);
}
let lastCase: string | null = null;
