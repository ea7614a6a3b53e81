import type { Catalogue } from '../catalogue/catalogue.ts';
import type { Forecast } from '../forecast/forecast-types.ts';
import type { Construct } from '../gaps/construct.ts';
import type { KitAnswer, KitRoom, KitWithout } from '../kit/kit-answer.ts';
import type { SetList, StockItem } from '../kit/set-list.ts';
import type { Outcome } from '../measure/outcome.ts';
import type { CaseFile } from './case.ts';
import type { Missing, Plan } from './plan.ts';
import type { PlanLack } from './plan-lacks.ts';

/** Everything that the plan for the bone that may be found is made from. */
export interface SurpriseInput {
  readonly file: CaseFile;
  readonly catalogue: Catalogue | null;
  /** Sets that the hospital can have; null = none chosen, then no kit is proposed. */
  readonly setList: SetList | null;
  /** What lies on the shelf; null = not told, then what the list says is taken to be there. */
  readonly stock: readonly StockItem[] | null;
  /** Day on which it is asked, YYYY-MM-DD: decides what is late and what is expired. */
  readonly today: string;
}

export interface SurpriseProgress {
  readonly part: 'forecast' | 'sets' | 'choice';
  /** Share of the part that is done, 0 to 1. */
  readonly done: number;
  /** In words, such as "800 of 2000 knees". */
  readonly words: string;
  /** Sets that would do already, while better ones are sought. */
  readonly room?: { readonly bring: readonly string[]; readonly cost: number; readonly share: number };
}

/** The sets: what is proposed, and the room that was decided on. */
export interface SurpriseKit {
  readonly proposed: KitAnswer;
  /** The room decided on in the case; the same as proposed where nothing was decided. */
  readonly decided: KitRoom;
  /** Whether the case decides on its sets. */
  readonly isDecided: boolean;
  /** What if a set of the decided room does not arrive. */
  readonly without: readonly KitWithout[];
  /** Parts of the planned construct that the decided room does not hold. */
  readonly planLacks: readonly PlanLack[];
  readonly currency: string;
  readonly acceptableCost: number;
}

export interface SurpriseAnswer {
  readonly plan: Plan;
  readonly forecast: Outcome<{
    readonly forecast: Forecast;
    /** Construct of least cost for the expected bone. */
    readonly first: Construct | null;
  }>;
  readonly kit: Outcome<SurpriseKit>;
  /** What keeps forecast or kit from being made, and what it would change. */
  readonly missing: readonly Missing[];
}
