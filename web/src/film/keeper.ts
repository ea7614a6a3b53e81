/** Keeps large things by name: all that are held, and of the others the few that were asked for last. */
export interface Keeper<T> {
  /** The thing of that name, made where it is not there. */
  take(name: string, make: () => T): T;
  drop(name: string): void;
  /** Holds the thing of that name, there or yet to come; gives what lets go of it, once. */
  hold(name: string): () => void;
  names(): readonly string[];
}

/** `spare` = how many are kept that nobody holds. */
export function keeper<T>(spare: number): Keeper<T> {
  const kept = new Map<string, T>();
  const holders = new Map<string, number>();
  const tidy = (): void => {
    const loose = [...kept.keys()].filter((name) => !holders.has(name));
    for (const name of loose.slice(0, Math.max(loose.length - spare, 0))) kept.delete(name);
  };
  const letGo = (name: string): void => {
    const left = (holders.get(name) ?? 1) - 1;
    if (left > 0) holders.set(name, left);
    else holders.delete(name);
    tidy();
  };
  return {
    take(name, make) {
      const thing = kept.get(name) ?? make();
      // Last in the order: asked for most lately.
      kept.delete(name);
      kept.set(name, thing);
      tidy();
      return thing;
    },
    drop: (name) => void kept.delete(name),
    hold(name) {
      holders.set(name, (holders.get(name) ?? 0) + 1);
      let held = true;
      return () => {
        if (held) letGo(name);
        held = false;
      };
    },
    names: () => [...kept.keys()],
  };
}
