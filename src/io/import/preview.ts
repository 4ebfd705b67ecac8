import type { GridSuspicion } from '../../domain/grid-suspicions';
import type { Edit } from '../../domain/site/edits/apply';
import type { Together } from '../../domain/site/edits/together';
import { TABLES, type TableName } from '../../domain/site/schema';
import { eachRow, type Table } from '../../domain/site/table';
import { toLong } from './across';
import { isWaiting, type Answers, type Ask } from './ask';
import { Context, type Target } from './context';
import type { Mapping } from './mapping';
import type { Change } from './once';
import { Places } from './places';
import type { Plan } from './plan';
import { planLevels, planPurge } from './plan-levels';
import { planLocations } from './plan-locations';
import { planResults } from './plan-results';
import { tellsOfSamples } from './plan-samples';
import { planSurvey } from './plan-survey';
import { planTable } from './plan-table';
import { Rounds } from './rounds';
import { widenedEvents } from './widened-events';
import {
  doubtsOf,
  longitudesTurned,
  MOST_ROW_OBJECTS,
  type Addition,
  type Rows,
} from './preview-doubts';
import { refusedRows, type RefusedRow } from './refusals';
import type { Progress, SourceTable } from './source-table';
import {
  ADDED,
  BLANK,
  CHANGED,
  isAgainstSite,
  REFUSED,
  SAME,
  takeRows,
  type Taken,
} from './take-rows';

/** What became of the rows of a file: rows = added + same + changed + refused + blank. */
export type Account = {
  readonly rows: number;
  /** Taken: added, the same as the site has, or changed. */
  readonly taken: number;
  readonly added: number;
  readonly same: number;
  readonly changed: number;
  readonly refused: number;
  /** Of the refused those that only wait for an answer. */
  readonly waiting: number;
  readonly blank: number;
};

/** What an import would do, before it is done. */
export type Preview = {
  readonly mapping: Mapping;
  /** Rows of the file. */
  readonly account: Account;
  /** Single results, where the analytes or the samples stand across; else null. */
  readonly results: Account | null;
  readonly refused: readonly RefusedRow[];
  /** Rows that would be added, by table. */
  readonly adds: readonly { readonly table: TableName; readonly rows: number }[];
  /** Cells that would change, or did not for want of an answer. */
  readonly changes: readonly Change[];
  /** What the file does not say. With an answer to each, no row is refused for want of one. */
  readonly asks: readonly Ask[];
  /** What was taken for granted, in sentences. */
  readonly said: readonly string[];
  /** Doubts about the coordinates that would be added, among themselves and those of the site. */
  readonly doubts: readonly GridSuspicion[];
  readonly longitudeSign: boolean;
  /** The whole import as one undoable step; null where there is nothing to add or change. */
  readonly edit: Together | null;
  /** "Import levels.csv" */
  readonly label: string;
};

/**
 * What a file would do to the site, with a mapping and the answers given so far.
 * Nothing is changed: `edit` does that. Yields how far it has got.
 */
export function* previewing(
  source: SourceTable,
  mapping: Mapping,
  answers: Answers,
  target: Target,
): Generator<Progress, Preview> {
  const long = toLong(source, mapping);
  const context = new Context(long.source, long.mapping, answers, target);
  const places = new Places(context);
  const plan = planOf(context, places);
  const taken = yield* takeRows(context, plan.plan);
  places.ask();
  if (taken.differing > 0) askAboutChanges(context, taken.differing);

  const adds = addsOf(taken, places, plan.rounds, target);
  const changes = [...taken.changes, ...widenedEvents(taken.used, target)];
  const isLong = mapping.layout === 'rows';
  const rowStates = isLong ? taken.state : foldedStates(taken, long.rowOf, source);
  const headRows = new Set(mapping.headRows.map(({ row }) => row));
  const waits = waitingIn(taken, context.answer('changes') === null);
  const refused = refusedRows(source, taken.refusals, long.rowOf, waits);
  const waiting = refused.filter((row) => row.waits).length;
  return {
    mapping,
    account: accountOf(rowStates, isLong ? null : headRows, waiting),
    results: isLong ? null : accountOf(taken.state, null, resultsWaiting(taken, waits)),
    refused,
    adds: adds.map(({ table, rows }) => ({ table, rows: rows.size })),
    changes,
    asks: context.asks,
    said: [...source.said, ...context.said],
    doubts: doubtsOf(adds, target),
    longitudeSign: longitudesTurned(context),
    edit: editOf(adds, changes),
    label: `Import ${source.name}`,
  };
}

/** The same at once: for small files and for tests. */
export function preview(
  source: SourceTable,
  mapping: Mapping,
  answers: Answers,
  target: Target,
): Preview {
  const steps = previewing(source, mapping, answers, target);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

function planOf(context: Context, places: Places): { plan: Plan; rounds: Rounds | null } {
  const { form } = context.mapping;
  switch (form) {
    case 'locations':
      return context.at('@shot') === null
        ? planLocations(context, places)
        : { plan: planSurvey(context, places), rounds: null };
    case 'water_levels': {
      const rounds = new Rounds(context, 'water_levels.event', 'water_levels.time', 'Levels');
      return { plan: planLevels(context, places, rounds), rounds };
    }
    case 'purge_readings': {
      const rounds = new Rounds(context, 'purge_readings.event', 'purge_readings.time', 'Purging');
      return { plan: planPurge(context, places, rounds), rounds };
    }
    case 'results': {
      const rounds = tellsOfSamples(context)
        ? new Rounds(context, 'samples.event', 'samples.time', 'Samples')
        : null;
      return { plan: planResults(context, places, rounds), rounds };
    }
    default:
      return { plan: planTable(context, places), rounds: null };
  }
}

function askAboutChanges(context: Context, rows: number): void {
  context.ask({
    id: 'changes',
    question: `Take the values of the file where they differ from the site’s?`,
    why: `${rows} ${rows === 1 ? 'row differs' : 'rows differ'} from what the site has under the same name. Each is listed, old and new.`,
    choices: [
      { value: 'take', says: 'Take the file’s values' },
      { value: 'leave', says: 'Leave the site as it is, and refuse these rows' },
    ],
    proposed: null,
    needed: true,
  });
}

const few = (rows: readonly Readonly<Record<string, string>>[]): Rows => ({
  kind: 'few',
  size: rows.length,
  rows,
});

function rowsOf(table: Table): Rows {
  if (table.size > MOST_ROW_OBJECTS) return { kind: 'many', size: table.size, added: table };
  const rows = Array.from(eachRow(table), (cells) =>
    Object.fromEntries(table.columns.map((column, i) => [column, cells[i] ?? ''])),
  );
  return few(rows);
}

/** Everything to add, those that others refer to first. */
function addsOf(
  taken: Taken,
  places: Places,
  rounds: Rounds | null,
  { site }: Target,
): readonly Addition[] {
  const { used } = taken;
  const events = [...(rounds?.made.values() ?? [])].flatMap(({ id, title }) => {
    const days = used.events.get(id);
    if (!days || site.events.has(id)) return [];
    const only = rounds?.day ?? '';
    return [{ id, title, first_day: days.first || only, last_day: days.last || only }];
  });
  const screens = [...places.newScreens].flatMap(([id, location]) =>
    used.screens.has(id) ? [{ id, location }] : [],
  );
  const needed = new Set([...used.locations, ...screens.map(({ location }) => location)]);
  const locations = [...places.newLocations.values()].filter(({ id }) => needed.has(id));
  const all: Addition[] = [
    { table: 'events', rows: few(events) },
    { table: 'locations', rows: few(locations) },
    { table: 'screens', rows: few(screens) },
    ...[...taken.added].map(([table, added]) => ({ table, rows: rowsOf(added) })),
  ];
  return all.filter(({ rows }) => rows.size > 0);
}

function editOf(adds: readonly Addition[], changes: readonly Change[]): Together | null {
  const edits: Edit[] = adds.map(({ table, rows }) =>
    rows.kind === 'few'
      ? { kind: 'add-rows', table, rows: rows.rows }
      : { kind: 'add-table', table, added: rows.added },
  );
  const byTable = new Map<TableName, Change[]>();
  for (const change of changes) {
    const list = byTable.get(change.table);
    if (list) list.push(change);
    else byTable.set(change.table, [change]);
  }
  for (const [table, list] of byTable)
    edits.push({
      kind: 'write-cells',
      table,
      cells: list.map(({ row, column, after }) => ({ row, column, text: after })),
    });
  return edits.length > 0 ? { kind: 'together', edits } : null;
}

/** Whether reasons, by their number, are open questions alone. @param changesOpen  one is whether to take what differs */
function waitingIn({ refusals }: Taken, changesOpen: boolean): (which: number) => boolean {
  const known = new Map<number, boolean>();
  return (which) => {
    const before = known.get(which);
    if (before !== undefined) return before;
    const waits = refusals
      .reasonsAt(which)
      .every((reason) => isWaiting(reason) || (changesOpen && isAgainstSite([reason])));
    known.set(which, waits);
    return waits;
  };
}

function resultsWaiting({ refusals }: Taken, waits: (which: number) => boolean): number {
  let count = 0;
  for (const [, which] of refusals.rows()) if (waits(which)) count++;
  return count;
}

function accountOf(
  states: Uint8Array,
  without: ReadonlySet<number> | null,
  waiting: number,
): Account {
  const counts = [0, 0, 0, 0, 0];
  states.forEach((state, row) => {
    if (!without?.has(row)) counts[state] = (counts[state] ?? 0) + 1;
  });
  const [blank = 0, refused = 0, added = 0, same = 0, changed = 0] = counts;
  const taken = added + same + changed;
  return { rows: taken + refused + blank, taken, added, same, changed, refused, waiting, blank };
}

/** What became of the rows of a file whose results stand across: refused where one of its results is. */
function foldedStates({ state }: Taken, rowOf: Uint32Array, { table }: SourceTable): Uint8Array {
  const folded = new Uint8Array(table.size).fill(BLANK);
  const rank = [0, 4, 3, 1, 2];
  state.forEach((each, i) => {
    const row = rowOf[i] ?? 0;
    if ((rank[each] ?? 0) > (rank[folded[row] ?? BLANK] ?? 0)) folded[row] = each;
  });
  return folded;
}

/**
 * "The file adds 124 in water levels. Of 127 rows: 3 refused.", for the button and the journal.
 * @param isDone  whether it has been taken: "Added 124 in water levels. 124 of 127 rows taken."
 */
export function summaryOf({ account, adds, changes, edit }: Preview, isDone = false): string {
  const { rows, same, changed, blank } = account;
  // Once it is done nothing waits: what was not answered was refused.
  const waiting = isDone ? 0 : account.waiting;
  const refused = account.refused - waiting;
  const parts = adds.map(
    ({ table, rows: count }) => `${count} in ${TABLES[table].title.toLowerCase()}`,
  );
  const others = [
    changed > 0 ? `${changed} changed` : '',
    same > 0 ? `${same} the same as the site has` : '',
    refused > 0 ? `${refused} refused` : '',
    waiting > 0 ? `${waiting} waiting for an answer` : '',
    blank > 0 ? `${blank} blank` : '',
  ].filter(Boolean);
  const widened = changes.some(({ table }) => table === 'events') ? ' An event is widened.' : '';
  const of = others.length > 0 ? ` Of ${rows} rows: ${others.join(', ')}.` : '';
  if (!edit) return `${isDone ? 'Nothing was added or changed.' : 'The file adds nothing and changes nothing.'}${of}`; // prettier-ignore
  const added = parts.length > 0 ? parts.join(', ') : 'nothing';
  const whole = isDone ? ` ${account.taken} of ${rows} rows taken.` : '';
  return `${isDone ? 'Added' : 'The file adds'} ${added}.${whole}${widened}${of}`;
}

export { ADDED, BLANK, CHANGED, REFUSED, SAME };
