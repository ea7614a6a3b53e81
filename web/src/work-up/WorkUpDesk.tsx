import { type ReactNode, useEffect } from 'react';
import { useSession } from '../case/desk.tsx';
import { useUndoKeys } from '../case/undo-keys.ts';
import { CaseSwitch } from '../pages/CaseSwitch.tsx';
import { LIST } from '../pages/route.ts';
import { Notices, SavingLine } from '../pages/SavingLine.tsx';
import { sideWord } from '../parts/words.ts';
import { BetweenStages } from './BetweenStages.tsx';
import { Causes } from './Causes.tsx';
import { Cautions } from './Cautions.tsx';
import { CementBlock } from './Cement.tsx';
import { Definitions } from './Definitions.tsx';
import { ExaminationFacts } from './ExaminationFacts.tsx';
import { Gate, GateShape } from './Gate.tsx';
import { gateLine } from './gate-line.ts';
import { BodyFacts, ComorbidityFacts } from './HealthFacts.tsx';
import { OperationFacts, SymptomFacts } from './HistoryFacts.tsx';
import { HostBlock } from './HostBlock.tsx';
import { ImplantFacts } from './ImplantFacts.tsx';
import { AspirateFacts, ContextFacts, SignFacts } from './InfectionFacts.tsx';
import { LaboratoryFacts } from './LaboratoryFacts.tsx';
import { LucentLines } from './LucentLines.tsx';
import { Probability } from './Probability.tsx';
import { ReadingProvider, useReading } from './reading.tsx';
import { ScarFacts } from './ScarFacts.tsx';
import { Stages } from './Stages.tsx';
import { WouldChange } from './WouldChange.tsx';

/** Why the knee failed, on one page: facts on the left, what they say on the right, the gate at the foot. */
export function WorkUpDesk({ caution }: { readonly caution: ReactNode }) {
  // Field by field, so that a keystroke in the record does not draw the whole page anew.
  const id = useSession((s) => s.shown.id);
  const title = useSession((s) => s.shown.title);
  const invented = useSession((s) => s.shown.invented);
  const side = useSession((s) => s.shown.side);
  useUndoKeys();
  useEffect(() => {
    window.scrollTo(0, 0);
  }, []);
  return (
    <ReadingProvider>
      <div className="work-up">
        <header className="desk-top">
          <a className="name" href={LIST} title="All cases">
            Gapline
          </a>
          <h1>
            {title}
            {invented && <span className="tag">invented</span>}
          </h1>
          <span className="desk-side">{sideWord(side)} knee</span>
          <CaseSwitch id={id} on="work-up" />
          <SavingLine />
        </header>
        <Notices />
        <main className="work-up-body">
          <div className="facts">
            <h2 className="unseen">What is known</h2>
            <p className="keys-line">
              On a line: <kbd>Y</kbd> <kbd>N</kbd> <kbd>U</kbd> answer and go on. <kbd>↑</kbd> <kbd>↓</kbd> move.
              Nothing is mandatory.
            </p>
            <OperationFacts />
            <ImplantFacts />
            <ScarFacts />
            <SymptomFacts />
            <ExaminationFacts />
            <LaboratoryFacts />
            <AspirateFacts />
            <SignFacts />
            <ContextFacts />
            <BetweenStages />
            <ComorbidityFacts />
            <BodyFacts />
          </div>
          <div className="readings">
            <Definitions />
            <WouldChange />
            <Cautions />
            <Probability />
            <Causes />
            <LucentLines />
            <Stages />
            <CementBlock />
            <HostBlock />
          </div>
        </main>
        <Gate />
        {caution}
        <GateBar />
      </div>
    </ReadingProvider>
  );
}

/** The gate's answer, always in sight. */
function GateBar() {
  const { gate } = useReading();
  return (
    <button
      type="button"
      className={`gate-bar is-${gate.ready ? 'ready' : 'closed'}`}
      onClick={() => {
        document.getElementById('gate')?.scrollIntoView({ block: 'start' });
        document.getElementById('gate-title')?.focus({ preventScroll: true });
      }}
    >
      <GateShape ready={gate.ready} />
      <span aria-live="polite">{gateLine(gate)}</span>
    </button>
  );
}
