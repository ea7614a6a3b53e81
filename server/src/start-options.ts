import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';

export interface StartOptions {
  readonly help: boolean;
  readonly folder: string;
  /** 0 lets the system choose; null tries the usual port and then the ones after it. */
  readonly port: number | null;
  readonly open: boolean;
  /** PostgreSQL instead of the embedded database. */
  readonly databaseUrl: string | null;
}

export const HELP = `Starts the Gapline workbench on this computer.

  npm start -- [options]

  --data FOLDER   where cases, films and plans are kept (default: .gapline in the project; or GAPLINE_DATA)
  --port NUMBER   port on 127.0.0.1 (default: 4747, or the next free one; or GAPLINE_PORT)
  --no-open       do not open a browser
  --help          this text

  GAPLINE_DATABASE_URL=postgres://...   keeps cases and plans on a PostgreSQL server; films stay in the folder
`;

type Environment = Readonly<Record<string, string | undefined>>;

/** Reads the options of `npm start` from the command line first, then from the environment. */
export function startOptions(args: readonly string[], env: Environment, project: string): Outcome<StartOptions> {
  const parsed = parse(args);
  if (!parsed.ok) return parsed;
  const { data, port, help, open } = parsed.value;
  const portText = port ?? env.GAPLINE_PORT;
  const number = portText === undefined ? null : Number(portText);
  if (number !== null && !(Number.isInteger(number) && number >= 0 && number <= 65_535)) {
    return cannot({
      code: 'bad-port',
      message: `"${portText}" is not a port.`,
      field: '--port',
      mend: 'Give a number from 0 to 65535.',
    });
  }
  return ok({
    help: help ?? false,
    folder: resolve(data ?? env.GAPLINE_DATA ?? join(project, '.gapline')),
    port: number,
    open: open ?? true,
    databaseUrl: env.GAPLINE_DATABASE_URL || null,
  });
}

function parse(args: readonly string[]) {
  try {
    const { values } = parseArgs({
      args: [...args],
      allowNegative: true,
      options: {
        data: { type: 'string' },
        port: { type: 'string' },
        open: { type: 'boolean' },
        help: { type: 'boolean', short: 'h' },
      },
    });
    return ok(values);
  } catch (error) {
    return cannot({
      code: 'unknown-option',
      message: error instanceof Error ? error.message : String(error),
      mend: 'npm start -- --help lists the options.',
    });
  }
}
