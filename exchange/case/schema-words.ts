import type { Known } from '@gapline/core/measure/known.ts';
import Type, { type TSchema } from 'typebox';

/** Pieces that the schemas of a case are made of. */
export const closed = { additionalProperties: false } as const;
export const text = (description?: string) => Type.String({ minLength: 1, ...(description ? { description } : {}) });
export const isoDate = (description: string) => Type.String({ pattern: '^\\d{4}-\\d{2}-\\d{2}$', description });
export const maybe = <S extends TSchema>(schema: S) => Type.Optional(schema);

/** One word of a list that the core holds. */
export const words = <const W extends string>(list: readonly W[], description?: string) =>
  Type.Unsafe<W>({ type: 'string', enum: [...list], ...(description ? { description } : {}) });

export const known = (description?: string) => words(['yes', 'no', 'unknown'] as const, description);

/** One known-or-not field for each item of a table; absent = not asked, never no. */
export const knownOf = <const T extends readonly { readonly id: string; readonly label: string }[]>(items: T) =>
  Type.Unsafe<Partial<Record<T[number]['id'], Known>>>(
    Type.Object(Object.fromEntries(items.map((item) => [item.id, maybe(known(item.label))])), closed),
  );

/** A type without `readonly`, so that a schema's type and the core's can be compared. */
export type Plain<T> = T extends readonly [infer A, infer B]
  ? [Plain<A>, Plain<B>]
  : T extends readonly (infer E)[]
    ? Plain<E>[]
    : T extends object
      ? { -readonly [K in keyof T]: Plain<T[K]> }
      : T;

export type Same<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false;
