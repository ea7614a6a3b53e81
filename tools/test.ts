// `npm test`: what the tests need from the system, then types, lint, and every test; ends with one plain line.
import { spawnSync } from 'node:child_process';
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { countsOf, packageBin, root, runStep, STATIC_STEPS } from './steps.ts';

const provision = spawnSync(process.execPath, [join(root, 'tools/provision/provision.ts')], { stdio: 'inherit' });
if (provision.status !== 0) {
  console.log('0 passed, 1 failed');
  process.exit(1);
}

let passed = 0;
let failed = 0;
for (const step of STATIC_STEPS) {
  if (runStep(step)) passed += 1;
  else failed += 1;
}

const report = join(root, 'test-output', 'report.json');
mkdirSync(join(root, 'test-output'), { recursive: true });
rmSync(report, { force: true });
const run = spawnSync(
  process.execPath,
  [
    packageBin('vitest'),
    'run',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
    ...process.argv.slice(2),
  ],
  { cwd: root, stdio: 'inherit' },
);
const counts = countsOf(report);
passed += counts?.passed ?? 0;
failed += counts?.failed ?? 1;
if (run.status !== 0 && failed === 0) failed = 1;
const skipped = counts?.skipped ?? 0;
console.log(`${passed} passed, ${failed} failed${skipped ? `, ${skipped} skipped` : ''}`);
process.exit(failed === 0 ? 0 : 1);
