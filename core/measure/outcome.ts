/**
 * Expected outcomes are values. A calculation either gives `ok` with its value and any warnings,
 * or `cannot` with a reason that names the field at fault and how to mend it. Exceptions are bugs.
 */
export interface Reason {
  /** Stable short name, for tests and for linking to a rule, e.g. `line-has-no-length`. */
  readonly code: string;
  /** One plain sentence for the surgeon. */
  readonly message: string;
  /** File at fault, by name, where one is. */
  readonly file?: string;
  /** What is at fault: a landmark id, or a path in the case file such as `films[2].view`. */
  readonly field?: string;
  /** What to do about it, in one plain sentence. */
  readonly mend?: string;
}

export type Warning = Reason;

export interface Ok<T> {
  readonly ok: true;
  readonly value: T;
  readonly warnings: readonly Warning[];
}

export interface Cannot {
  readonly ok: false;
  readonly reason: Reason;
}

export type Outcome<T> = Ok<T> | Cannot;

export const ok = <T>(value: T, warnings: readonly Warning[] = []): Ok<T> => ({ ok: true, value, warnings });

export const cannot = (reason: Reason): Cannot => ({ ok: false, reason });
