import type { GateAnswer } from '@gapline/core/failure/gate.ts';

/** Where the gate stands, in one line. */
export function gateLine(gate: GateAnswer): string {
  if (gate.ready)
    return gate.overridden ? 'Open by a written reason, with no cause found' : 'Ready: infection settled, cause named';
  const [first] = gate.open;
  if (!first) return 'Not ready: pain unexplained, referral proposed';
  const rest = gate.open.length - 1;
  return `Not ready: ${plain(first.what)}${rest > 0 ? `, and ${rest} more` : ''}`;
}

const plain = (what: string): string => what.charAt(0).toLowerCase() + what.slice(1).replace(/\.$/, '');
