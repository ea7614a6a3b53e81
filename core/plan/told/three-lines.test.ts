import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../../catalogues/make-demo.ts';
import type { Forecast } from '../../forecast/forecast-types.ts';
import type { Construct } from '../../gaps/construct.ts';
import { plainConstruct } from '../../gaps/easy-knee.ts';
import type { KitAnswer, KitWorth } from '../../kit/kit-answer.ts';
import { cannot, ok } from '../../measure/outcome.ts';
import { bareCase } from '../bare-case.ts';
import { makePlan } from '../make-plan.ts';
import type { SurpriseAnswer, SurpriseKit } from '../surprise.ts';
import { threeLines } from './three-lines.ts';

const catalogue = demoCatalogue();
const plan = makePlan(bareCase, catalogue);
const construct: Construct = {
  ...plainConstruct,
  level: 'vvc',
  tray: 'EX-T5',
  tibialAugments: { medial: 'EX-B5-10', lateral: null },
  insert: catalogue.inserts.find((i) => i.size === 4 && i.labelMm === 12)!.ref,
};
const forecast: Forecast = {
  seed: 1,
  draws: 2000,
  most: { construct, share: 0.6 },
  firstHolds: 0.687,
  firstBest: 0.4,
  widest: null,
  noConstruct: 0.008,
  fracture: 0.02,
  infection: 0,
  choices: [],
  events: [],
  lengths: [],
  bailOuts: { kind: 'do', construct, differs: '', share: 1, pure: 1 },
  notStated: [],
};
const worth = (ref: string, change: Partial<KitWorth>): KitWorth => ({
  ref,
  name: ref,
  brought: true,
  owner: 'loan',
  trays: 1,
  cost: 100,
  adds: 0.1,
  leadDays: 5,
  orderBy: null,
  late: false,
  failShare: null,
  ...change,
});
const proposed: KitAnswer = {
  bring: ['A', 'B'],
  cost: 2900,
  share: 0.9905,
  sets: [worth('A', { orderBy: '2025-06-05' }), worth('B', { orderBy: '2025-06-02', late: true })],
  uncovered: [],
  asked: 0.99,
  reached: true,
  proven: false,
  leastCost: 2700,
  curve: [],
  notes: [],
};
const kit: SurpriseKit = {
  proposed,
  decided: proposed,
  isDecided: false,
  without: [],
  planLacks: [],
  currency: 'EUR',
  acceptableCost: 25,
};
const reason = { code: 'no-set-list', message: 'No list of sets is chosen.', mend: 'Choose one.' };
const answer = (change: Partial<SurpriseAnswer> = {}): SurpriseAnswer => ({
  plan,
  forecast: ok({ forecast, first: construct }),
  kit: ok(kit),
  missing: [],
  ...change,
});
const told = (of: SurpriseAnswer | null) =>
  threeLines({ plan, catalogue, answer: of && { of, catalogue } }).map((l) => ({
    ...l,
    words: [l.figure, l.head, ...l.more].join(' | ').replaceAll('\u00a0', ' '),
  }));

describe('the three lines that lead', () => {
  test('what will most likely be done, how sure, what must be in the room', () => {
    const [likely, sure, room] = told(answer());
    expect(likely?.words).toContain('Varus-valgus constrained, femur 4, tray 5, insert 12 mm');
    expect(likely?.words).toContain('Tibial block 5, 10 mm');
    expect(sure?.words).toMatch(/^69 % \| of drawn knees keep the plan/);
    expect(sure?.words).toContain('2,000 knees drawn');
    expect(sure?.words).not.toContain('infected');
    expect(room?.words).toMatch(/^2 \| sets, EUR 2,900: an answer in 99.1 % of drawn knees/);
    expect([likely, sure, room].map((l) => l?.open)).toEqual([false, false, false]);
  });

  test('the first day to order by is told, and what comes too late', () => {
    expect(told(answer())[2]?.words).toContain('2 on loan, the first to order by 2025-06-02, 1 too late');
  });

  test('how often the most likely is the best is told with it; a construct that would do more often than the plan is named', () => {
    expect(told(answer())[0]?.words).toContain('the best in 60 % of drawn knees, more than any other');
    const more = { construct: { ...construct, tray: 'EX-T4' }, share: 0.8 };
    const sure = (widest: Forecast['widest']) =>
      told(answer({ forecast: ok({ forecast: { ...forecast, widest }, first: construct }) }))[1]?.words;
    expect(sure(more)).toContain('another would do in 80 %: tray size 4 instead of 5');
    expect(sure({ ...more, share: 0.5 })).not.toContain('another would do');
    expect(sure(null)).not.toContain('another would do');
  });

  test('what is planned and not in the room is told with it', () => {
    const stem = { ref: 'S', name: 'Stem, press-fit, 14 x 100 mm', sets: ['S-PRESS'] };
    const room = told(answer({ kit: ok({ ...kit, planLacks: [stem] }) }))[2];
    expect(room?.words).toContain('not in it, though planned: Stem, press-fit, 14 x 100 mm');
    expect(told(answer())[2]?.words).not.toContain('though planned');
  });

  test('what the kit warns of stands with the room', () => {
    const passed = { code: 'surgery-has-passed', message: 'The day of surgery has passed: no set counts as too late.' };
    expect(told(answer({ kit: ok(kit, [passed]) }))[2]?.words).toContain(
      'the day of surgery has passed: no set counts',
    );
  });

  test('a room that is not proven says from which cost one might do as well', () => {
    expect(told(answer())[2]?.words).toContain('a room from EUR 2,700 might do as well');
  });

  test('what cannot be told says why and what mends it, never a number', () => {
    const [, sure, room] = told(
      answer({
        forecast: cannot({ code: 'x', message: 'A spread is not known.' }),
        kit: cannot(reason),
        missing: [{ what: 'Spread of the canal', field: 'forecast.spreads.femurCanalMm', wouldChange: 'Stems.' }],
      }),
    );
    expect(sure).toMatchObject({ open: true, head: 'A spread is not known.', more: ['Spread of the canal'] });
    expect(room).toMatchObject({ open: true, head: 'No list of sets is chosen.', more: ['Choose one.'] });
    expect(sure?.figure).toBeUndefined();
  });

  test('before the first answer nothing is made up', () => {
    expect(told(null).map((l) => l.head)).toEqual(['No construct yet', 'Not reckoned yet', 'Not reckoned yet']);
  });
});
