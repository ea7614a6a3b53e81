/** A sum of variables with their factors, and a constant. */
export interface Sum {
  readonly of: readonly (readonly [number, string])[];
  readonly plus: number;
}

export const sum = (...terms: readonly (Sum | string | number)[]): Sum => {
  const sums = terms.map(
    (t): Sum => (typeof t === 'number' ? { of: [], plus: t } : typeof t === 'string' ? { of: [[1, t]], plus: 0 } : t),
  );
  return { of: sums.flatMap((s) => s.of), plus: sums.reduce((n, s) => n + s.plus, 0) };
};
export const times = (factor: number, term: Sum | string): Sum => {
  const { of, plus } = sum(term);
  return { of: of.map(([f, v]) => [factor * f, v] as const), plus: factor * plus };
};
export const less = (a: Sum | string | number, b: Sum | string | number): Sum => sum(a, times(-1, sum(b)));

/** A mixed-integer linear programme, put together row by row and told in the LP text format. */
export class Programme {
  private readonly rows: string[] = [];
  private readonly bounds: string[] = [];
  private readonly binaries: string[] = [];
  private objective: Sum = sum();
  private count = 0;

  private fresh(prefix: string): string {
    this.count++;
    return `${prefix}${this.count}`;
  }

  /** Yes or no. */
  choice(): string {
    const name = this.fresh('b');
    this.binaries.push(name);
    return name;
  }

  /** A length, free within its bounds. */
  length(low: number, high: number): string {
    const name = this.fresh('x');
    this.bounds.push(`${low} <= ${name} <= ${high}`);
    return name;
  }

  atMost(left: Sum | string | number, right: Sum | string | number): void {
    const { of, plus } = less(left, right);
    const text = Programme.text(of);
    if (text === '') {
      if (plus > 1e-9) this.never();
      return;
    }
    this.rows.push(`${this.fresh('r')}: ${text} <= ${-plus}`);
  }

  equal(left: Sum | string | number, right: Sum | string | number): void {
    this.atMost(left, right);
    this.atMost(right, left);
  }

  /** A row that nothing keeps. */
  private never(): void {
    this.rows.push(`${this.fresh('r')}: ${this.length(0, 1)} >= 2`);
  }

  /** What a sum exceeds zero by, >= 0, the greatest of several. */
  excess(...over: readonly Sum[]): string {
    const name = this.length(0, 1e4);
    for (const one of over) this.atMost(one, name);
    return name;
  }

  pay(weight: number, term: Sum | string): void {
    this.objective = sum(this.objective, times(weight, term));
  }

  /** The objective's constant, which the text cannot hold. */
  get base(): number {
    return this.objective.plus;
  }

  get choices(): readonly string[] {
    return this.binaries;
  }

  private static text(of: readonly (readonly [number, string])[]): string {
    const factors = new Map<string, number>();
    for (const [f, v] of of) factors.set(v, (factors.get(v) ?? 0) + f);
    return [...factors]
      .filter(([, f]) => f !== 0)
      .map(([v, f]) => `${f < 0 ? '-' : '+'} ${Math.abs(f)} ${v}`)
      .join(' ');
  }

  /** The whole programme; with choices fixed it is a linear one. */
  lp(fixed?: ReadonlyMap<string, number>): string {
    const held = fixed ? [...fixed].map(([name, value]) => `${name} = ${value}`) : [];
    return [
      'Minimize',
      `cost: ${Programme.text(this.objective.of) || '0 x0'}`,
      'Subject To',
      ...this.rows,
      'Bounds',
      ...this.bounds,
      ...held,
      ...(fixed ? [] : ['Binary', ...this.binaries]),
      'End',
    ].join('\n');
  }
}
