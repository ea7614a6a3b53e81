import type { Pose } from './link.ts';

/** Where the film that a hand moves now stands, for the films that are linked with it. */
export interface Lead {
  /** Area of the page that leads. */
  readonly pane: string;
  readonly view: string;
  readonly takenOn: string | undefined;
  readonly pose: Pose;
}

/** Tells the linked films of every move, past the page's own rendering, once a move. */
export interface LeadChannel {
  say(lead: Lead): void;
  last(): Lead | null;
  /** Gives what ends the listening. */
  listen(hear: (lead: Lead) => void): () => void;
}

export function leadChannel(): LeadChannel {
  const ears = new Set<(lead: Lead) => void>();
  let last: Lead | null = null;
  return {
    say(lead) {
      last = lead;
      for (const hear of ears) hear(lead);
    },
    last: () => last,
    listen(hear) {
      ears.add(hear);
      return () => ears.delete(hear);
    },
  };
}
