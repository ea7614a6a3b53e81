/** Side of the patient's body. */
export type Side = 'right' | 'left';

export const otherSide = (side: Side): Side => (side === 'right' ? 'left' : 'right');

/** Side of the knee, in the trade's words; `m` and `l` of the spec. */
export type Compartment = 'medial' | 'lateral';

export interface PerCompartment<T> {
  readonly medial: T;
  readonly lateral: T;
}
