import { parseArgs } from 'node:util';
import { fail, ok, type Result } from '../domain/result';

const COMMANDS = ['heads', 'flow', 'results', 'findings', 'tables'] as const;
export type Command = (typeof COMMANDS)[number];

export type Asked = {
  readonly command: Command;
  /** Folder or zip of the site. */
  readonly site: string;
  readonly event: string | null;
  readonly zone: string | null;
  readonly set: string | null;
  readonly json: boolean;
  readonly work: boolean;
  readonly unweighted: boolean;
};

export const USAGE = `Usage: npm run -s cli -- COMMAND SITE [options]

SITE is the folder of a site, or a zip of it.

  heads      every screen gauged: its head, whether it counts, and why not
  flow       direction and gradient for each event and zone, with their error, and whether they are resolved
  results    each result against each level, and the counts
  findings   what is doubtful about the site and its events
  tables     rows read, refused and blank in each table, and every problem

  --event ID       only this event
  --zone NAME      only this zone
  --set NAME       only this set of screening levels (results)
  --unweighted     every well alike in the plane (flow)
  --work           with the arithmetic of each number (heads, flow)
  --json           JSON instead of a table
`;

/** What was asked for, or a sentence saying what was expected. */
export function readArguments(given: readonly string[]): Result<Asked, string> {
  let parsed;
  try {
    parsed = parseArgs({
      args: [...given],
      allowPositionals: true,
      options: {
        event: { type: 'string' },
        zone: { type: 'string' },
        set: { type: 'string' },
        json: { type: 'boolean', default: false },
        work: { type: 'boolean', default: false },
        unweighted: { type: 'boolean', default: false },
      },
    });
  } catch (error) {
    return fail(error instanceof Error ? error.message : String(error));
  }
  const [command, site, ...more] = parsed.positionals;
  const known = COMMANDS.find((name) => name === command);
  if (!known) return fail(`expected one of ${COMMANDS.join(', ')}, found “${command ?? ''}”`);
  if (site === undefined) return fail('expected the folder or zip of a site');
  if (more.length > 0) return fail(`expected one site, found also “${more.join(' ')}”`);
  const { event, zone, set, json, work, unweighted } = parsed.values;
  return ok({
    command: known,
    site,
    event: event ?? null,
    zone: zone ?? null,
    set: set ?? null,
    json,
    work,
    unweighted,
  });
}
