import { type LucentComponent, ZONES } from '@gapline/core/failure/lucent-lines.ts';
import type { KneeEvidence } from '@gapline/core/landmarks/knee-evidence.ts';
import { type InterfaceSpan, widestByZone } from '@gapline/core/limb/interface-span.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';

const setSpans = (spans: readonly InterfaceSpan[]): Edit => ({
  kind: 'set',
  field: '/interfaceSpans',
  value: spans.length > 0 ? spans : null,
});

export const addSpan = (file: CaseFile, span: InterfaceSpan): Edit => setSpans([...(file.interfaceSpans ?? []), span]);

export const removeSpan = (file: CaseFile, id: string): Edit =>
  setSpans((file.interfaceSpans ?? []).filter((s) => s.id !== id));

/** One edge of one width, moved. */
export const moveSpan = (
  file: CaseFile,
  id: string,
  { edge, to }: { readonly edge: 'from' | 'to'; readonly to: InterfaceSpan['from'] },
): Edit => setSpans((file.interfaceSpans ?? []).map((s) => (s.id === id ? { ...s, [edge]: to } : s)));

/**
 * The widest lines measured on present films put into the chart of one component, to a tenth of a millimetre; zones that were not measured keep what
 * was entered. Null where nothing is measured.
 */
export function chartEdit(file: CaseFile, evidence: KneeEvidence, component: LucentComponent): Edit | null {
  const measured = widestByZone(file.interfaceSpans ?? [], evidence, { kind: 'lucent-line', component });
  if (measured.size === 0) return null;
  const chart = file.workUp?.lucentLines?.[component];
  const widths = Array.from({ length: ZONES[component] }, (_, i) => {
    const width = measured.get(i + 1)?.widthMm;
    return width === undefined ? (chart?.widths[i] ?? null) : Math.round(width * 10) / 10;
  });
  return { kind: 'set', field: `/workUp/lucentLines/${component}`, value: { ...chart, widths } };
}
