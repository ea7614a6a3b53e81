import type { CaseFile } from '@gapline/core/plan/case.ts';
import { caseSchemaDocument } from './case-schema.ts';

interface Shape {
  readonly properties?: Readonly<Record<string, Shape>>;
  readonly items?: Shape | boolean;
  readonly anyOf?: readonly Shape[];
}

/** Text of a case file: fields in the order of the schema, two spaces, one newline at the end; same case, same bytes. */
export const writeCase = (file: CaseFile): string =>
  `${JSON.stringify(ordered(file, caseSchemaDocument() as Shape), null, 2)}\n`;

function ordered(value: unknown, shape: Shape): unknown {
  if (Array.isArray(value)) {
    return value.map((entry) => ordered(entry, typeof shape.items === 'object' ? shape.items : {}));
  }
  if (typeof value !== 'object' || value === null) return value;
  const given = value as Record<string, unknown>;
  const known = shape.properties ?? branchFor(given, shape)?.properties ?? {};
  const names = [
    ...Object.keys(known),
    ...Object.keys(given)
      .filter((name) => !(name in known))
      .sort(),
  ];
  return Object.fromEntries(names.filter((n) => n in given).map((n) => [n, ordered(given[n], known[n] ?? {})]));
}

const branchFor = (given: Record<string, unknown>, shape: Shape): Shape | undefined =>
  shape.anyOf?.find((branch) => (branch.properties?.kind as { const?: unknown } | undefined)?.const === given.kind);
