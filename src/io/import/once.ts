import type { TableName } from '../../domain/site/schema';
import { tableOf, type Block, type Table } from '../../domain/site/table';
import { ExistingRows, keyHashes, saysTheSame } from './against-site';
import { isRefusal, type Refusal } from './ask';
import { codeSets } from './cells';
import type { Target } from './context';
import type { Part } from './plan';
import { rowRule } from './row-rules';

/** A cell of the site that a file would write anew; `before` is blank where it fills one in. */
export type Change = {
  readonly table: TableName;
  /** Row of the site's table, from 0. */
  readonly row: number;
  readonly column: string;
  readonly before: string;
  readonly after: string;
  /** Row of the file, from 0. */
  readonly from: number;
};

/** Cells of a part, in the order of its columns. */
type PartCells = readonly string[];

/** A row of a table that several rows of the file speak of. */
type Shared = {
  cells: PartCells;
  readonly siteRow: number;
  readonly from: number;
  changes: readonly Change[];
};

export type Bound =
  | {
      readonly ok: true;
      readonly state: 'added' | 'changed' | 'same';
      /** Makes it so; until then nothing has been taken. */
      readonly take: () => void;
    }
  | { readonly ok: false; readonly refusals: readonly Refusal[] };

const NO_CHANGES: readonly Change[] = [];

/** The rows of one part, by key, as the rows of the file that were taken say them. */
export class SharedRows {
  private readonly byKey = new Map<string, Shared>();
  private readonly rule: ReturnType<typeof rowRule>;
  private readonly names: readonly string[];
  private readonly keyPlaces: readonly number[];

  constructor(
    readonly part: Part,
    private readonly existing: ExistingRows,
    private readonly takeChanges: boolean,
    target: Target,
    private readonly rowNumber: (row: number) => number,
  ) {
    this.rule = rowRule(part.table, target);
    this.names = part.columns.map(({ column }) => column);
    this.keyPlaces = part.key.map((column) => this.names.indexOf(column));
  }

  /**
   * What taking a row of the file would do; or where it speaks against a row
   * taken before, or against the site.
   */
  bind(cells: PartCells, row: number): Bound {
    const key = this.keyPlaces.map((at) => cells[at] ?? '');
    if (key.every((text) => text === '')) return NOTHING_NEW;
    const name = key.length === 1 ? (key[0] ?? '') : JSON.stringify(key);
    const known = this.byKey.get(name);
    const siteRow = known ? known.siteRow : this.find(key);
    const refusals = known ? this.against(known, cells) : [];
    if (refusals.length > 0) return { ok: false, refusals };
    const whole = known ? known.cells.map((text, at) => cells[at] || text) : cells;
    const broken =
      this.rule?.((column) => {
        const text = whole[this.names.indexOf(column)] ?? '';
        return text === '' && siteRow >= 0 ? this.existing.text(siteRow, column) : text;
      }) ?? null;
    if (broken) return { ok: false, refusals: [broken] };
    const changes = siteRow < 0 ? NO_CHANGES : this.changesTo(siteRow, known?.from ?? row, whole);
    const against = changes.filter(({ before }) => before !== '');
    if (against.length > 0 && !this.takeChanges)
      return { ok: false, refusals: against.map((change) => refusalOf(change)) };
    const take = () => {
      if (known) Object.assign(known, { cells: whole, changes });
      else this.byKey.set(name, { cells: whole, siteRow, from: row, changes });
    };
    const isAdded = siteRow < 0 && (!known || whole.some((text, at) => text !== known.cells[at]));
    return { ok: true, state: isAdded ? 'added' : changes.length > 0 ? 'changed' : 'same', take };
  }

  private against(shared: Shared, cells: PartCells): Refusal[] {
    const refusals: Refusal[] = [];
    cells.forEach((text, at) => {
      const before = shared.cells[at] ?? '';
      const column = this.names[at] ?? '';
      if (before === '' || text === '' || saysTheSame(this.part.table, column, before, text))
        return;
      refusals.push({
        column,
        expected: `“${before}”, as in row ${this.rowNumber(shared.from)}`,
        found: text,
      });
    });
    return refusals;
  }

  private find(key: readonly string[]): number {
    if (this.existing.size === 0) return -1;
    const columns = key.map((text) => ({ dictionary: [text], codes: new Uint16Array(1) }));
    return this.existing.find(keyHashes(columns, 1)[0] ?? 0, columns, 0);
  }

  private changesTo(siteRow: number, from: number, cells: PartCells): Change[] {
    const { table, columns } = this.part;
    return columns.flatMap(({ column, uncompared }, at): Change[] => {
      const after = cells[at] ?? '';
      if (uncompared || after === '') return [];
      const before = this.existing.text(siteRow, column);
      return saysTheSame(table, column, before.trim(), after)
        ? []
        : [{ table, row: siteRow, column, before: before.trim(), after, from }];
    });
  }

  /** Rows that are new to the site, in the order the file speaks of them. */
  get added(): Table {
    const rows: PartCells[] = [];
    for (const { siteRow, cells } of this.byKey.values()) if (siteRow < 0) rows.push(cells);
    return tableOf(this.names, rows);
  }

  get changes(): readonly Change[] {
    return [...this.byKey.values()].flatMap(({ changes }) => changes);
  }

  /** Calls back with the cells of some columns of every row taken, new or not; blank for columns it lacks. */
  each(columns: readonly string[], tell: (cells: readonly string[]) => void): void {
    const places = columns.map((column) => this.names.indexOf(column));
    for (const { cells } of this.byKey.values()) tell(places.map((at) => cells[at] ?? ''));
  }
}

export const refusalOf = ({ column, before, after }: Change): Refusal => ({
  column,
  expected: `“${before}”, as the site has`,
  found: after,
});

/** What the rows of a block say of one part, worked out once a set of texts. */
export class BlockOnce {
  private readonly sets: ReturnType<typeof codeSets>;
  private readonly seen = new Map<number | string, Said>();
  private before: Said | null = null;
  private beforeRow = -2;
  private readonly places: readonly number[];

  constructor(
    private readonly block: Block,
    private readonly shared: SharedRows,
  ) {
    this.places = [...new Set(shared.part.columns.flatMap(({ from }) => from))];
    this.sets = codeSets(this.places.flatMap((at) => block.columns[at] ?? []));
  }

  /** The row's refusals in this part; none where it could be read. */
  at(i: number): Said {
    if (this.before && this.beforeRow === i) return this.before;
    if (this.before && this.beforeRow === i - 1 && this.sets.sameAsBefore(i)) {
      this.beforeRow = i;
      return this.before;
    }
    const set = this.sets.at(i);
    let said = this.seen.get(set);
    if (!said) {
      said = this.say(i);
      this.seen.set(set, said);
    }
    this.before = said;
    this.beforeRow = i;
    return said;
  }

  private text(at: number, i: number): string {
    const column = this.block.columns[at];
    return (column?.dictionary[column.codes[i] ?? -1] ?? '').trim();
  }

  private say(i: number): Said {
    const refusals: Refusal[] = [];
    const cells = this.shared.part.columns.map(({ from, make }) => {
      const cell = make(from.map((at) => this.text(at, i)));
      if (!isRefusal(cell)) return cell;
      refusals.push(cell);
      return '';
    });
    return { cells, refusals, taken: false };
  }

  /** What taking the row would do: once taken, nothing more for all rows of the block that say the same. */
  bind(said: Said, row: number): Bound {
    if (said.taken) return NOTHING_NEW;
    const bound = this.shared.bind(said.cells, row);
    if (!bound.ok) return bound;
    return {
      ...bound,
      take: () => {
        bound.take();
        said.taken = true;
      },
    };
  }
}

const NOTHING_NEW: Bound = { ok: true, state: 'same', take: () => undefined };

export type Said = {
  readonly cells: PartCells;
  readonly refusals: readonly Refusal[];
  taken: boolean;
};
