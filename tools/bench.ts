// `npm run bench [part of a name]`: every comparison in bench/, as ratios to a named alternative of the same run.
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Bench } from '../bench/bench-types.ts';
import { root } from './steps.ts';

const wanted = process.argv[2] ?? '';
const folder = join(root, 'bench');
const files = readdirSync(folder)
  .filter((f) => f.endsWith('.ts') && f !== 'bench-types.ts')
  .sort();
let failed = 0;
for (const file of files) {
  const { benches } = (await import(pathToFileURL(join(folder, file)).href)) as { benches: readonly Bench[] };
  for (const bench of benches.filter((b) => `${file} ${b.name}`.includes(wanted))) {
    try {
      const r = await bench.run();
      const digits = (n: number) => n.toPrecision(3);
      console.log(
        `${bench.name}\n  ours ${digits(r.ours)} ${r.unit}, alternative ${digits(r.theirs)} ${r.unit}, ratio ${digits(r.ratio)}   target: ${bench.target}${r.note ? `\n  ${r.note}` : ''}`,
      );
    } catch (error) {
      failed += 1;
      console.log(`${bench.name}\n  could not run: ${error instanceof Error ? error.message : String(error)}`);
    }
  }
}
process.exit(failed === 0 ? 0 : 1);
