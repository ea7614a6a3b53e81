import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { uncertainSquareKnee } from '../../cases/uncertain-knee.ts';
import type { Catalogue } from '../catalogue/catalogue.ts';
import type { SetList } from '../kit/set-list.ts';
import { canonicalJson } from './canonical-json.ts';
import { planningForSurprise } from './plan-for-surprise.ts';
import type { SurpriseAnswer, SurpriseInput, SurpriseProgress } from './surprise.ts';
import { SurpriseMemory } from './surprise-memory.ts';

const read = <T>(path: string): T => JSON.parse(readFileSync(new URL(path, import.meta.url), 'utf8')) as T;
const catalogue = read<Catalogue>('../../catalogues/demo.json');
const setList = read<SetList>('../../kits/demo.json');
const BEFORE = '2026-05-01';
const file = uncertainSquareKnee();
const input: SurpriseInput = { file, catalogue, setList, stock: null, today: BEFORE };

function run(asked: SurpriseInput, memory?: SurpriseMemory) {
  const told: SurpriseProgress[] = [];
  const steps = planningForSurprise(asked, memory);
  for (;;) {
    const step = steps.next();
    if (step.done) return { answer: step.value, told };
    told.push(step.value);
  }
}

const memory = new SurpriseMemory();
let first: ReturnType<typeof run>;
beforeAll(() => {
  first = run(input, memory);
});

const kitOf = ({ kit }: SurpriseAnswer) => {
  if (!kit.ok) throw new Error(kit.reason.message);
  return kit.value;
};

describe('the plan for the bone that may be found', () => {
  test('gives plan, forecast and sets, and tells how far it is, each part in its order', () => {
    const { answer, told } = first;
    expect(answer.plan.construct.kind).toBe('solved');
    expect(answer.forecast).toMatchObject({ ok: true, value: { forecast: { draws: 100, seed: 11 } } });
    expect(kitOf(answer).proposed.share).toBeGreaterThanOrEqual(0.95);
    expect([...new Set(told.map((t) => t.part))]).toEqual(['forecast', 'sets', 'choice']);
    expect(told.every((t) => t.done >= 0 && t.done <= 1 && t.words !== '')).toBe(true);
    expect(answer.missing).toEqual([]);
  });

  test('asked again it answers from memory, byte for byte; a set that is ticked draws no knee anew', () => {
    const again = run(input, memory);
    expect(again.told).toEqual([]);
    expect(canonicalJson(again.answer)).toBe(canonicalJson(first.answer));
    const { bring } = kitOf(first.answer).proposed;
    const ticked = run({ ...input, file: { ...file, kit: { ...file.kit, bring: bring.slice(1) } } }, memory);
    expect(ticked.told).toEqual([]);
    const kit = kitOf(ticked.answer);
    expect(kit.isDecided).toBe(true);
    expect(kit.decided.bring).toEqual(bring.slice(1));
    expect(kit.decided.share).toBeLessThan(kit.proposed.share);
    expect(kit.proposed).toEqual(kitOf(first.answer).proposed);
  });

  test('a set that will not arrive is in neither room, though it was decided on', () => {
    const { bring } = kitOf(first.answer).proposed;
    const gone = bring[0] ?? '';
    const { answer, told } = run({ ...input, file: { ...file, kit: { ...file.kit, bring, missing: [gone] } } }, memory);
    expect([...new Set(told.map((t) => t.part))]).toEqual(['choice']);
    expect(kitOf(answer).decided.bring).not.toContain(gone);
    expect(kitOf(answer).proposed.bring).not.toContain(gone);
  });

  test('without catalogue, without sets, with sets of another catalogue: said with the mend, and the plan stands', () => {
    const bare = run({ ...input, catalogue: null }).answer;
    expect(bare.forecast).toMatchObject({ ok: false, reason: { code: 'no-catalogue', field: 'catalogue' } });
    expect(bare.plan.measurements.length).toBeGreaterThan(10);
    const noSets = run({ ...input, setList: null }, memory).answer;
    expect(noSets.kit).toMatchObject({ ok: false, reason: { code: 'no-set-list', field: 'kit.setList' } });
    expect(noSets.forecast.ok).toBe(true);
    expect(noSets.missing.map((m) => m.field)).toEqual(['kit.setList']);
    const foreign = run({ ...input, setList: { ...setList, catalogue: 'other' } }, memory).answer;
    expect(foreign.kit).toMatchObject({ ok: false, reason: { code: 'set-list-of-another-catalogue' } });
  });

  test('a spread that nobody stated is asked for, and nothing is drawn without it', () => {
    const { spreads: _, ...rest } = file.forecast ?? {};
    const { answer } = run({ ...input, file: { ...file, forecast: rest } });
    expect(answer.forecast).toMatchObject({ ok: false, reason: { code: 'spread-missing' } });
    expect(answer.kit.ok).toBe(false);
    expect(answer.missing.map((m) => m.field)).toContain('forecast.spreads.femurCanalMm');
    expect(answer.missing.every((m) => m.wouldChange !== '')).toBe(true);
  });

  test('order-by days that have passed are late; once surgery itself has passed nothing is', () => {
    const late = (today: string) => {
      const { answer } = run({ ...input, today }, memory);
      return { sets: kitOf(answer).proposed.sets.filter((s) => s.late).length, answer };
    };
    expect(late('2026-06-12').sets).toBeGreaterThan(0);
    const after = late('2026-06-16');
    expect(after.sets).toBe(0);
    expect(after.answer.kit.ok && after.answer.kit.warnings.map((w) => w.code)).toEqual(['surgery-has-passed']);
  });
});
