import type { TableName } from '../../domain/site/schema';
import { type Block, type Table } from '../../domain/site/table';
import {
  ExistingRows,
  keyHashes,
  saysTheSame,
  sameKey,
  blockAt,
  type KeyColumns,
} from './against-site';
import type { Refusal } from './ask';
import { blankRows, BlockReasons } from './block-reasons';
import { AddedRows } from './added-rows';
import { cellsOf, textIn, type Cells } from './cells';
import type { Context } from './context';
import { KeyIndex } from '../../domain/site/key-index';
import { BlockOnce, refusalOf, SharedRows, type Change } from './once';
import type { Part, Plan } from './plan';
import { Refusals } from './refusals';
import { rowRule } from './row-rules';
import { rowNumber, type Progress } from './source-table';
import { UsedNames, type Used } from './used-names';

/** What became of a row of a file. */
export const BLANK = 0;
export const REFUSED = 1;
export const ADDED = 2;
export const SAME = 3;
export const CHANGED = 4;

export type Taken = {
  /** One a row of the file: BLANK, REFUSED, ADDED, SAME or CHANGED. */
  readonly state: Uint8Array;
  readonly refusals: Refusals;
  /** Rows to add, by table, those that others refer to first. */
  readonly added: ReadonlyMap<TableName, Table>;
  readonly changes: readonly Change[];
  /** How many rows of the file say something else than the site; to fill in a blank is not. */
  readonly differing: number;
  readonly used: Used;
};

/** Changes are listed up to this many; more are refused, and can be taken in parts. */
const MOST_CHANGES = 50_000;

/**
 * Take the rows of a file into tables by a plan, block by block: each row is
 * added, the same as the site has, changed, refused with its reasons, or blank.
 */
export function* takeRows(context: Context, plan: Plan): Generator<Progress, Taken> {
  const taker = new Taker(context, plan);
  const { blocks, size } = context.source.table;
  let start = 0;
  for (const block of blocks) {
    taker.take(block, start);
    start += block.size;
    yield { done: start, of: size, rows: start };
  }
  return taker.taken();
}

const NO_CHANGES: readonly Change[] = [];

/** Where a file has no row for each of its own. */
const NO_ROWS: Part = { table: 'locations', key: [], columns: [] };

class Taker {
  private readonly state: Uint8Array;
  private readonly refusals: Refusals;
  private readonly changes: Change[] = [];
  private readonly used = new UsedNames();
  private readonly index: KeyIndex;
  private readonly existing: ExistingRows;
  private readonly shared: readonly SharedRows[];
  private readonly added: AddedRows;
  private readonly made: (readonly Cells[])[] = [];
  private readonly keyed: KeyColumns[] = [];
  private readonly starts: number[] = [];
  private readonly rows: Part;
  private readonly names: readonly string[];
  private readonly key: readonly string[];
  private readonly keyPlaces: readonly number[];
  private readonly takeChanges: boolean;
  private readonly rule: ReturnType<typeof rowRule>;
  private differing = 0;

  constructor(
    private readonly context: Context,
    private readonly plan: Plan,
  ) {
    const { source, target } = context;
    const { table, columns, key: rowKey } = (this.rows = plan.rows ?? NO_ROWS);
    this.takeChanges = context.answer('changes') === 'take';
    this.names = columns.map(({ column }) => column);
    // A row without a name is told by all it says.
    this.key = rowKey.length === 0 ? this.names : rowKey;
    this.keyPlaces = this.key.map((column) => this.names.indexOf(column));
    const existingOf = (name: TableName, key: readonly string[]) =>
      new ExistingRows(target.package.tables[name] ?? null, key);
    this.existing = existingOf(table, this.key);
    this.shared = plan.once.map(
      (part) =>
        new SharedRows(part, existingOf(part.table, part.key), this.takeChanges, target, (row) =>
          rowNumber(source, row),
        ),
    );
    this.added = new AddedRows(columns);
    this.rule = rowRule(table, target);
    this.state = new Uint8Array(source.table.size);
    this.refusals = new Refusals(source.table.size);
    this.index = new KeyIndex(source.table.size);
  }

  take(block: Block, start: number): void {
    const { source } = this.context;
    const cells = this.rows.columns.map((column) => cellsOf(block, column));
    const keys = this.keyPlaces.map((at) => cells[at]);
    this.made.push(cells);
    this.keyed.push(keys);
    this.starts.push(start);
    const hashes = keyHashes(keys, block.size);
    const { isBlank, isBlankAt } = blankRows(block);
    const once = this.shared.map((rows) => new BlockOnce(block, rows));
    const reasonsOf = new BlockReasons(source, block, cells, once, isBlankAt, start);
    const { isSound } = reasonsOf;
    const keep = new Uint8Array(block.size);
    let kept = 0;
    const isTwin = this.twinOf(keys);

    for (let i = 0; i < block.size; i++) {
      const row = start + i;
      if (isBlank(i)) continue;
      let isRefused = !isSound;
      let isNew = false;
      for (const each of once) {
        const said = each.at(i);
        if (said.refusals.length > 0) isRefused = true;
        if (!said.taken) isNew = true;
      }
      if (isRefused) {
        const reasons = reasonsOf.of(i);
        if (reasons.length > 0) {
          this.refuse(row, reasons);
          continue;
        }
      }
      if (!this.plan.rows) {
        const made = isNew ? this.bindAll(once, i, row) : 'same';
        if (typeof made === 'string') this.state[row] = STATES[made];
        else this.refuse(row, made);
        continue;
      }
      const hash = hashes[i] ?? 0;
      isTwin.at = i;
      const twin = this.index.find(hash, isTwin.is);
      if (twin >= 0) {
        const apart = this.apartFrom(twin, cells, i);
        if (apart.length > 0) {
          this.refuse(row, [this.twinRefusal(twin, apart, cells, i)]);
          continue;
        }
      }
      const siteRow = twin >= 0 ? -1 : this.existing.find(hash, keys, i);
      const differs = siteRow < 0 ? NO_CHANGES : this.differences(siteRow, cells, i, row);
      const broken = this.rule?.((column) => this.textFor(column, cells, i, siteRow)) ?? null;
      if (broken) {
        this.refuse(row, [broken]);
        continue;
      }
      if (differs.length > 0) {
        const against = differs.filter(({ before }) => before !== '');
        if (against.length > 0) this.differing++;
        if ((against.length > 0 && !this.takeChanges) || this.changes.length >= MOST_CHANGES) {
          this.refuse(row, (against.length > 0 ? against : differs).map(refusalOf));
          continue;
        }
      }
      const shared = isNew ? this.bindAll(once, i, row) : 'same';
      if (typeof shared !== 'string') {
        this.refuse(row, shared);
        continue;
      }
      for (const change of differs) this.changes.push(change);
      if (twin < 0) this.index.add(hash, row);
      if (siteRow < 0 && twin < 0) {
        keep[i] = 1;
        kept++;
        this.state[row] = ADDED;
      } else this.state[row] = differs.length > 0 ? CHANGED : STATES[shared];
    }

    this.used.noteBlock(
      this.names,
      cells,
      block.size,
      (i) => (this.state[start + i] ?? 0) >= ADDED,
    );
    this.added.add(cells, keep, kept);
  }

  private refuse(row: number, reasons: readonly Refusal[]): void {
    this.state[row] = REFUSED;
    this.refusals.add(row, reasons);
  }

  /** Whether a row taken before has the key of the row in hand. One function a block: it is asked a million times. */
  private twinOf(keys: KeyColumns) {
    const { keyed, starts } = this;
    const asked = {
      at: 0,
      is: (other: number) => {
        const block = blockAt(starts, other);
        return sameKey(keyed[block] ?? [], other - (starts[block] ?? 0), keys, asked.at);
      },
    };
    return asked;
  }

  /** Take what the row says of its sample, its location; or why it can't be. */
  private bindAll(
    once: readonly BlockOnce[],
    i: number,
    row: number,
  ): 'added' | 'changed' | 'same' | readonly Refusal[] {
    const bound = once.map((each) => each.bind(each.at(i), row));
    const against = bound.flatMap((each) => (each.ok ? [] : each.refusals));
    if (against.length > 0) {
      if (isAgainstSite(against)) this.differing++;
      return against;
    }
    let state: 'added' | 'changed' | 'same' = 'same';
    for (const each of bound) {
      if (!each.ok) continue;
      each.take();
      if (each.state === 'added' || state === 'same') state = each.state;
    }
    return state;
  }

  /** Columns in which a row differs from one of the same key before it. */
  private apartFrom(twin: number, cells: readonly Cells[], i: number): readonly string[] {
    const block = blockAt(this.starts, twin);
    const before = this.made[block] ?? [];
    const beforeAt = twin - (this.starts[block] ?? 0);
    const { table } = this.rows;
    return this.names.filter(
      (column, at) =>
        !saysTheSame(table, column, textIn(before[at], beforeAt), textIn(cells[at], i)),
    );
  }

  /** Cells of the site the row would write anew. A blank leaves what is there. */
  private differences(siteRow: number, cells: readonly Cells[], i: number, row: number): Change[] {
    const { table, columns } = this.rows;
    const differs: Change[] = [];
    columns.forEach(({ column, uncompared }, at) => {
      const after = textIn(cells[at], i);
      if (after === '' || uncompared) return;
      const before = this.existing.text(siteRow, column).trim();
      if (!saysTheSame(table, column, before, after))
        differs.push({ table, row: siteRow, column, before, after, from: row });
    });
    return differs;
  }

  /** A cell as it would be: the file's, or the site's where the file's is blank. */
  private textFor(column: string, cells: readonly Cells[], i: number, siteRow: number): string {
    const text = textIn(cells[this.names.indexOf(column)], i);
    return text === '' && siteRow >= 0 ? this.existing.text(siteRow, column) : text;
  }

  private twinRefusal(
    twin: number,
    apart: readonly string[],
    cells: readonly Cells[],
    i: number,
  ): Refusal {
    const found = this.keyPlaces.map((at) => textIn(cells[at], i)).filter(Boolean);
    const before = rowNumber(this.context.source, twin);
    return {
      column: this.key.join(' + '),
      expected: `a row not already there (row ${before} has it with another ${apart.slice(0, 3).join(', ')})`,
      found: found.join(' + '),
    };
  }

  taken(): Taken {
    for (const rows of this.shared) this.used.noteShared(rows);
    return {
      state: this.state,
      refusals: this.refusals,
      added: new Map([
        ...this.shared.map((rows) => [rows.part.table, rows.added] as const),
        ...(this.plan.rows ? [[this.rows.table, this.added.table] as const] : []),
      ]),
      changes: [...this.shared.flatMap((rows) => rows.changes), ...this.changes],
      differing: this.differing,
      used: this.used,
    };
  }
}

const STATES = { added: ADDED, changed: CHANGED, same: SAME } as const;

/** Whether a row speaks against what the site has under the same name. */
export const isAgainstSite = (refusals: readonly Refusal[]) =>
  refusals.some(({ expected }) => expected.endsWith('as the site has'));
