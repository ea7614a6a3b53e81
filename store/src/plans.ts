import type { Kysely } from 'kysely';
import type { PlanRow, PlanStore } from './port.ts';
import type { Tables } from './tables.ts';

type PlanColumns = Pick<Tables['plans'], 'id' | 'case_id' | 'revision' | 'made_at' | 'core_version' | 'sha256'>;

const toPlan = (row: PlanColumns): PlanRow => ({
  id: row.id,
  caseId: row.case_id,
  revision: row.revision,
  madeAt: row.made_at,
  coreVersion: row.core_version,
  sha256: row.sha256,
});

/** Plans are only ever added. */
export function planStore(db: Kysely<Tables>): PlanStore {
  return {
    async append(plan) {
      await db
        .insertInto('plans')
        .values({
          id: plan.id,
          case_id: plan.caseId,
          revision: plan.revision,
          made_at: plan.madeAt,
          core_version: plan.coreVersion,
          sha256: plan.sha256,
          body: plan.body,
          case_body: plan.caseBody,
          catalogue_body: plan.catalogueBody,
        })
        .execute();
    },
    async list(caseId) {
      const rows = await db
        .selectFrom('plans')
        .select(['id', 'case_id', 'revision', 'made_at', 'core_version', 'sha256'])
        .where('case_id', '=', caseId)
        .orderBy('made_at', 'desc')
        .orderBy('id')
        .execute();
      return rows.map(toPlan);
    },
    async read(id) {
      const row = await db.selectFrom('plans').selectAll().where('id', '=', id).executeTakeFirst();
      if (!row) return null;
      return { ...toPlan(row), body: row.body, caseBody: row.case_body, catalogueBody: row.catalogue_body };
    },
  };
}
