#!/usr/bin/env node
// Hands the command line over to the pinned Node; see tools/run.mjs.
import { realpathSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(realpathSync(fileURLToPath(import.meta.url)));
process.argv.splice(2, 0, 'cli');
await import(join(here, '..', '..', 'tools', 'run.mjs'));
