import { useSession } from '../case/desk.tsx';
import { workUpAddress } from '../pages/route.ts';
import { GateShape } from './Gate.tsx';
import { gateLine } from './gate-line.ts';
import { useFreshReading } from './reading.tsx';

/** On the film page: where the work-up stands, before any millimetre. */
export function WorkUpLine() {
  const { gate } = useFreshReading();
  const id = useSession((s) => s.shown.id);
  return (
    <a className={`work-up-line is-${gate.ready ? 'ready' : 'closed'}`} href={workUpAddress(id)}>
      <GateShape ready={gate.ready} />
      <span>
        <strong>Work-up</strong> {gateLine(gate)}
      </span>
    </a>
  );
}
