// Brings the programs that the tests need from the system, through Debian's own packages, where they are
// missing and this process may install them; says plainly what to install where it may not.
import { spawnSync } from 'node:child_process';
import { NEEDED, type Needed } from './needed.ts';

const succeeds = ([program, ...args]: readonly [string, ...string[]]): boolean =>
  spawnSync(program, args, { stdio: 'ignore' }).status === 0;

/** What `apt-get` has to be preceded by: nothing for root, sudo where it asks for no password, null where neither. */
function asRoot(): readonly string[] | null {
  if (!succeeds(['apt-get', '--version'])) return null;
  if (process.getuid?.() === 0) return [];
  return succeeds(['sudo', '-n', 'true']) ? ['sudo', '-n'] : null;
}

function aptGet(prefix: readonly string[], args: readonly string[]): boolean {
  const [program = '', ...rest] = [...prefix, 'env', 'DEBIAN_FRONTEND=noninteractive', 'apt-get', '-q', '-y', ...args];
  const done = spawnSync(program, rest, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
  if (done.status !== 0) console.error(done.stderr.trim().split('\n').slice(-5).join('\n'));
  return done.status === 0;
}

const isMissing = (needed: Needed) => !succeeds(needed.probe);

function provision(): number {
  const missing = NEEDED.filter(isMissing);
  if (missing.length === 0) return 0;
  const packages = missing.map((m) => m.package);
  const prefix = asRoot();
  if (prefix) {
    console.log(`Installing what the tests need from Debian: ${packages.join(', ')} ...`);
    const install = ['install', '--no-install-recommends', ...packages];
    // Lists of packages may be absent on a fresh machine; where they are there, fetching them again is not needed.
    if (!aptGet(prefix, install) && aptGet(prefix, ['update'])) aptGet(prefix, install);
  }
  const still = NEEDED.filter(isMissing);
  if (still.length === 0) return 0;
  console.error('The tests need programs that are missing and could not be installed from here:');
  for (const { package: name, why } of still) console.error(`  ${name} (${why})`);
  console.error(`On Debian or Ubuntu: sudo apt-get install ${still.map((s) => s.package).join(' ')}`);
  return 1;
}

process.exit(provision());
