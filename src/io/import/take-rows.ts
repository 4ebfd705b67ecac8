import type { TableName } from '../../domain/site/schema';
import { BLOCK_ROWS, type Block, type Table } from '../../domain/site/table';
import { ExistingRows, keyHash, saysTheSame, sameKey } from './against-site';
import { isRefusal, type Refusal } from './ask';
import { cellsOf, keptColumn, type Cells } from './cells';
import type { Context } from './context';
import { KeyIndex } from './key-index';
import { BlockOnce, refusalOf, SharedRows, type Change } from './once';
import type { Part, Plan } from './plan';
import { rowNumber, type Progress } from './source-table';

/** What became of a row of a file. */
export const BLANK = 0;
export const REFUSED = 1;
export const ADDED = 2;
export const SAME = 3;
export const CHANGED = 4;

export type Taken = {
  /** One a row of the file: BLANK, REFUSED, ADDED, SAME or CHANGED. */
  readonly state: Uint8Array;
  /** Why, by row from 0. */
  readonly refusals: ReadonlyMap<number, readonly Refusal[]>;
  /** Rows to add, by table. */
  readonly added: ReadonlyMap<TableName, Table>;
  readonly addedOnce: ReadonlyMap<TableName, readonly Readonly<Record<string, string>>[]>;
  readonly changes: readonly Change[];
  /** How many rows of the file differ from the site. */
  readonly differing: number;
  readonly used: Used;
};

/** What the rows that are taken name. */
export type Used = {
  readonly screens: ReadonlySet<string>;
  readonly locations: ReadonlySet<string>;
  /** First and last day of each round; blank where no day is known. */
  readonly events: ReadonlyMap<string, { readonly first: string; readonly last: string }>;
};

/** Changes are listed up to this many; more are refused, and can be taken in parts. */
const MOST_CHANGES = 50_000;

class Usage implements Used {
  readonly screens = new Set<string>();
  readonly locations = new Set<string>();
  readonly events = new Map<string, { first: string; last: string }>();

  note(column: string, text: string) {
    if (text === '') return;
    if (column === 'screen') this.screens.add(text);
    if (column === 'location') this.locations.add(text);
  }

  event(event: string, time: string) {
    if (event === '') return;
    const day = time.slice(0, 10);
    const known = this.events.get(event);
    if (!known) this.events.set(event, { first: day, last: day });
    else if (day !== '') {
      if (known.first === '' || day < known.first) known.first = day;
      if (day > known.last) known.last = day;
    }
  }
}

/** Where every text of a column of the file is blank, by code. */
const blanksOf = (block: Block) =>
  block.columns.map(({ dictionary }) =>
    Uint8Array.from(dictionary, (t) => (t.trim() === '' ? 1 : 0)),
  );

const textOf = ({ dictionary, codes }: Cells, i: number): string => {
  const cell = dictionary[codes[i] ?? 0] ?? '';
  return typeof cell === 'string' ? cell : '';
};

/**
 * Take the rows of a file into tables by a plan, block by block: each row is
 * added, the same as the site has, changed, refused with its reasons, or blank.
 */
export function* takeRows(context: Context, plan: Plan): Generator<Progress, Taken> {
  const { source, target } = context;
  const takeChanges = context.answer('changes') === 'take';
  const number = (row: number) => rowNumber(source, row);
  const existingOf = ({ table, key }: Part) =>
    new ExistingRows(target.package.tables[table] ?? null, key);
  const keyless = plan.rows.key.length === 0;
  const key = keyless ? plan.rows.columns.map(({ column }) => column) : plan.rows.key;
  const existing = existingOf({ ...plan.rows, key });
  const shared = plan.once.map(
    (part) => new SharedRows(part, existingOf(part), takeChanges, number),
  );

  const size = source.table.size;
  const state = new Uint8Array(size);
  const refusals = new Map<number, readonly Refusal[]>();
  const changes: Change[] = [];
  const used = new Usage();
  const index = new KeyIndex(size);
  const made: Cells[][] = [];
  const keyed: (Cells | undefined)[][] = [];
  const blocks: Block[] = [];
  const columns = plan.rows.columns;
  const names = columns.map(({ column }) => column);
  const keyPlaces = key.map((column) => names.indexOf(column));
  const overflowAt = source.headings.length;
  let differing = 0;
  let start = 0;

  for (const block of source.table.blocks) {
    const cells = columns.map((column) => cellsOf(block, column));
    const keys = keyPlaces.map((at) => cells[at]);
    made.push(cells);
    keyed.push(keys);
    const doubtful = cells.filter(({ dictionary }) => dictionary.some(isRefusal));
    const blank = blanksOf(block);
    const once = shared.map((rows) => new BlockOnce(block, rows));
    const keep = new Uint8Array(block.size);
    let kept = 0;

    for (let i = 0; i < block.size; i++) {
      const row = start + i;
      if (blank.every((is, at) => is[block.columns[at]?.codes[i] ?? 0] === 1)) continue;
      const wrong: Refusal[] = [];
      const why = source.broken.get(row);
      if (why !== undefined)
        wrong.push({ column: 'The row', expected: why, found: firstText(block, i) });
      const beyond = block.columns[overflowAt];
      if (beyond && blank[overflowAt]?.[beyond.codes[i] ?? 0] === 0)
        wrong.push({
          column: 'After the last column',
          expected: 'no more cells than the header has',
          found: beyond.dictionary[beyond.codes[i] ?? 0] ?? '',
        });
      for (const { dictionary, codes } of doubtful) {
        const cell = dictionary[codes[i] ?? 0] ?? '';
        if (isRefusal(cell)) addReason(wrong, cell);
      }
      const said = once.map((each) => each.at(i));
      for (const each of said) for (const refusal of each.refusals) addReason(wrong, refusal);
      if (wrong.length > 0) {
        state[row] = REFUSED;
        refusals.set(row, wrong);
        continue;
      }

      const hash = keyHash(keys, i);
      const twin = index.find(hash, (other) => {
        const which = Math.floor(other / BLOCK_ROWS);
        return sameKey(keyed[which] ?? [], other % BLOCK_ROWS, keys, i);
      });
      if (twin >= 0) {
        const before = made[Math.floor(twin / BLOCK_ROWS)] ?? [];
        const apart = columns.filter(
          ({ column }, at) =>
            !saysTheSame(
              plan.rows.table,
              column,
              textIn(before[at], twin % BLOCK_ROWS),
              textIn(cells[at], i),
            ),
        );
        if (apart.length > 0) {
          state[row] = REFUSED;
          const others = apart.map(({ column }) => column);
          refusals.set(row, [twinRefusal({ ...plan.rows, key }, number(twin), others, cells, names, i)]); // prettier-ignore
          continue;
        }
      }
      const siteRow = twin >= 0 ? -1 : existing.find(hash, keys, i);
      const differs: Change[] = [];
      if (siteRow >= 0)
        columns.forEach(({ column, uncompared }, at) => {
          const after = textIn(cells[at], i);
          if (after === '' || uncompared) return;
          const before = existing.text(siteRow, column);
          if (!saysTheSame(plan.rows.table, column, before.trim(), after))
            differs.push({
              table: plan.rows.table,
              row: siteRow,
              column,
              before,
              after,
              from: row,
            });
        });
      if (differs.length > 0) differing++;
      const refuseChange = differs.length > 0 && (!takeChanges || changes.length >= MOST_CHANGES);
      const against: Refusal[] = refuseChange ? differs.map(refusalOf) : [];
      const bound = refuseChange ? [] : said.map((each, which) => once[which]?.bind(each, row));
      for (const each of bound) if (each && !each.ok) against.push(...each.refusals);
      if (against.length > 0) {
        if (!refuseChange && isAgainstSite(against)) differing++;
        state[row] = REFUSED;
        refusals.set(row, against);
        continue;
      }
      let sharedState: 'added' | 'changed' | 'same' = 'same';
      for (const each of bound) {
        if (!each?.ok) continue;
        each.take();
        if (each.state === 'added' || sharedState === 'same') sharedState = each.state;
      }
      changes.push(...differs);
      if (twin < 0) index.add(hash, row);
      if (siteRow < 0 && twin < 0) {
        keep[i] = 1;
        kept++;
        state[row] = ADDED;
      } else state[row] = differs.length > 0 ? CHANGED : STATES[sharedState];
    }

    noteUsed(used, names, cells, keep, state, start);
    if (kept > 0)
      blocks.push({ size: kept, columns: cells.map((column) => keptColumn(column, keep, kept)) });
    start += block.size;
    yield { done: start, of: size, rows: start };
  }

  for (const rows of shared)
    for (const cells of rows.taken()) {
      for (const [column, text] of cells) used.note(column, text);
      used.event(cells.get('event') ?? '', cells.get('time') ?? '');
    }
  const table = withoutBlankColumns(names, blocks, columns);
  return {
    state,
    refusals,
    added: new Map(table.size > 0 ? [[plan.rows.table, table]] : []),
    addedOnce: new Map(shared.map((rows) => [rows.part.table, rows.added])),
    changes: [...shared.flatMap((rows) => rows.changes), ...changes],
    differing,
    used,
  };
}

const STATES = { added: ADDED, changed: CHANGED, same: SAME } as const;

const textIn = (cells: Cells | undefined, i: number) => (cells ? textOf(cells, i) : '');

const isAgainstSite = (refusals: readonly Refusal[]) =>
  refusals.some(({ expected }) => expected.endsWith('as the site has'));

/** The same reason once: a sample's date stands in the sample and in its round. */
function addReason(reasons: Refusal[], reason: Refusal): void {
  const isKnown = reasons.some(
    ({ column, found }) => column === reason.column && found === reason.found,
  );
  if (!isKnown) reasons.push(reason);
}

function firstText(block: Block, i: number): string {
  for (const { dictionary, codes } of block.columns) {
    const text = dictionary[codes[i] ?? 0] ?? '';
    if (text.trim() !== '') return text;
  }
  return '';
}

function twinRefusal(
  { key }: Part,
  twin: number,
  apart: readonly string[],
  cells: readonly Cells[],
  names: readonly string[],
  i: number,
): Refusal {
  const found = key.map((column) => textIn(cells[names.indexOf(column)], i)).filter(Boolean);
  return {
    column: key.join(' + '),
    expected: `a row not already there (row ${twin} has it with another ${apart.slice(0, 3).join(', ')})`,
    found: found.join(' + '),
  };
}

/** Screens, locations and rounds the rows that stand name. */
function noteUsed(
  used: Usage,
  names: readonly string[],
  cells: readonly Cells[],
  keep: Uint8Array,
  state: Uint8Array,
  start: number,
): void {
  const [screens, locations, events, times] = ['screen', 'location', 'event', 'time'].map(
    (name) => cells[names.indexOf(name)],
  );
  if (!screens && !locations && !events) return;
  let last = -1;
  for (let i = 0; i < keep.length; i++) {
    if ((state[start + i] ?? 0) < ADDED) continue;
    const isSame =
      last >= 0 &&
      [screens, locations, events, times].every((c) => !c || c.codes[i] === c.codes[last]);
    last = i;
    if (isSame) continue;
    used.note('screen', textIn(screens, i));
    used.note('location', textIn(locations, i));
    used.event(textIn(events, i), textIn(times, i));
  }
}

/** The new rows as a table, without the columns that only note a conversion where there was none. */
function withoutBlankColumns(
  names: readonly string[],
  blocks: readonly Block[],
  columns: Part['columns'],
): Table {
  const wanted = names.flatMap((_, at) => {
    const isBlank = blocks.every((block) => block.columns[at]?.dictionary.every((t) => t === ''));
    return columns[at]?.uncompared && isBlank ? [] : [at];
  });
  return {
    columns: wanted.map((at) => names[at] ?? ''),
    blocks: blocks.map((block) => ({
      size: block.size,
      columns: wanted.flatMap((at) => block.columns[at] ?? []),
    })),
    size: blocks.reduce((sum, block) => sum + block.size, 0),
  };
}
