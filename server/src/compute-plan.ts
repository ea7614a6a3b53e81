import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import { canonicalJson } from '@gapline/core/plan/canonical-json.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { makePlan } from '@gapline/core/plan/make-plan.ts';
import { sha256Of } from '@gapline/store/src/film-files.ts';

/** A plan as it is kept: canonical texts, so that the same case gives the same bytes and the same hash. */
export interface ComputedPlan {
  readonly body: string;
  readonly caseBody: string;
  readonly sha256: string;
  readonly coreVersion: string;
}

/** Computes the plan of a saved case with its catalogue, or without one where none is chosen. */
export function computePlan(file: CaseFile, catalogueBody: string | null): ComputedPlan {
  const catalogue = catalogueBody === null ? null : (JSON.parse(catalogueBody) as Catalogue);
  const plan = makePlan(file, catalogue);
  const body = canonicalJson(plan);
  return {
    body,
    caseBody: canonicalJson(file),
    sha256: sha256Of(Buffer.from(body)),
    coreVersion: plan.versions.core,
  };
}
