import { type ReactNode, useEffect } from 'react';
import { useUndoKeys } from '../case/undo-keys.ts';
import { DeskHeader } from '../pages/DeskHeader.tsx';
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
  useUndoKeys();
  useEffect(() => {
    window.scrollTo(0, 0);
  }, []);
  return (
    <ReadingProvider>
      <div className="work-up">
        <DeskHeader on="work-up" />
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
