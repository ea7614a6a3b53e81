import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = join(dirname(fileURLToPath(import.meta.url)), '..');

/** One command of the checks: what it is called in the report and what it runs. */
export interface Step {
  readonly name: string;
  readonly command: readonly string[];
}

/** Path of the script behind a package's command, so that no shim of another Node gets in the way. */
export function packageBin(name: string, bin = name): string {
  const folder = join(root, 'node_modules', name);
  const { bin: bins } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as {
    bin: string | Record<string, string>;
  };
  const script = typeof bins === 'string' ? bins : bins[bin];
  if (!script) throw new Error(`${name} has no command ${bin}`);
  return join(folder, script);
}

const WORKSPACES = ['core', 'film', 'exchange', 'store', 'sheet', 'phantoms', 'server', 'web', 'cli'];

export const STATIC_STEPS: readonly Step[] = [
  ...WORKSPACES.map((w) => ({
    name: `types of ${w}`,
    command: [process.execPath, packageBin('typescript', 'tsc'), '-p', w],
  })),
  { name: 'types of tools and of the tests', command: [process.execPath, packageBin('typescript', 'tsc'), '-p', '.'] },
  { name: 'format and lint', command: [process.execPath, packageBin('@biomejs/biome', 'biome'), 'check', '.'] },
  {
    name: 'lint with types',
    command: [process.execPath, packageBin('oxlint'), '--type-aware', '--deny-warnings', '.'],
  },
];

/** Runs one step with its output shown only when it fails. Gives true on success. */
export function runStep(step: Step): boolean {
  const [program = '', ...args] = step.command;
  const started = performance.now();
  const done = spawnSync(program, args, { cwd: root, encoding: 'utf8', maxBuffer: 1 << 28 });
  const seconds = ((performance.now() - started) / 1000).toFixed(1);
  const passed = done.status === 0;
  console.log(`${passed ? 'ok    ' : 'FAILED'} ${step.name} (${seconds} s)`);
  if (!passed) console.log(`${done.stdout ?? ''}${done.stderr ?? ''}${done.error?.message ?? ''}`);
  return passed;
}

/** Reads the counts of a Vitest JSON report; null where it was not written. */
export function countsOf(reportFile: string): { passed: number; failed: number; skipped: number } | null {
  if (!existsSync(reportFile)) return null;
  const report = JSON.parse(readFileSync(reportFile, 'utf8')) as {
    numPassedTests: number;
    numFailedTests: number;
    numPendingTests: number;
    numFailedTestSuites: number;
  };
  return {
    passed: report.numPassedTests,
    // A file that does not even load counts as one failure: it has no failed test of its own.
    failed: Math.max(report.numFailedTests, report.numFailedTestSuites > 0 ? 1 : 0),
    skipped: report.numPendingTests,
  };
}
