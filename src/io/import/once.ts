import type { TableName } from '../../domain/site/schema';
import type { Block } from '../../domain/site/table';
import { ExistingRows, keyHash, saysTheSame } from './against-site';
import { isRefusal, type Refusal } from './ask';
import { codeSets } from './cells';
import type { Part } from './plan';

/** A cell of the site that a file would write anew. */
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

/** A row of a table that several rows of the file speak of. */
type Shared = {
  readonly cells: Map<string, string>;
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

/** The rows of one part, by key, as the rows of the file that were taken say them. */
export class SharedRows {
  private readonly byKey = new Map<string, Shared>();
  private readonly existing: ExistingRows;

  constructor(
    readonly part: Part,
    existing: ExistingRows,
    private readonly takeChanges: boolean,
    private readonly rowNumber: (row: number) => number,
  ) {
    this.existing = existing;
  }

  /**
   * What taking a row of the file would do; or where it speaks against a row
   * taken before, or against the site.
   */
  bind(cells: ReadonlyMap<string, string>, row: number): Bound {
    const key = this.part.key.map((column) => cells.get(column) ?? '');
    const name = JSON.stringify(key);
    const known = this.byKey.get(name);
    const shared: Shared = known ?? {
      cells: new Map(),
      siteRow: this.find(key),
      from: row,
      changes: [],
    };
    const refusals = this.against(shared, cells);
    if (refusals.length > 0) return { ok: false, refusals };
    const whole = new Map(shared.cells);
    for (const [column, text] of cells) if (text !== '') whole.set(column, text);
    const changes = this.changesTo(shared, whole);
    if (changes.length > 0 && !this.takeChanges)
      return { ok: false, refusals: changes.map((change) => refusalOf(change)) };
    const take = () => {
      for (const [column, text] of whole) shared.cells.set(column, text);
      shared.changes = changes;
      this.byKey.set(name, shared);
    };
    const isAdded = shared.siteRow < 0 && !known;
    return { ok: true, state: isAdded ? 'added' : changes.length > 0 ? 'changed' : 'same', take };
  }

  private against(shared: Shared, cells: ReadonlyMap<string, string>): Refusal[] {
    const refusals: Refusal[] = [];
    for (const [column, text] of cells) {
      const before = shared.cells.get(column) ?? '';
      if (before === '' || text === '' || saysTheSame(this.part.table, column, before, text))
        continue;
      refusals.push({
        column,
        expected: `“${before}”, as in row ${this.rowNumber(shared.from)}`,
        found: text,
      });
    }
    return refusals;
  }

  private find(key: readonly string[]): number {
    const columns = key.map((text) => ({ dictionary: [text], codes: new Uint16Array(1) }));
    return this.existing.find(keyHash(columns, 0), columns, 0);
  }

  private changesTo({ siteRow, from }: Shared, cells: ReadonlyMap<string, string>): Change[] {
    if (siteRow < 0) return [];
    const { table, columns } = this.part;
    return columns.flatMap(({ column, uncompared }): Change[] => {
      const after = cells.get(column) ?? '';
      if (uncompared || after === '') return [];
      const before = this.existing.text(siteRow, column);
      return saysTheSame(table, column, before.trim(), after)
        ? []
        : [{ table, row: siteRow, column, before, after, from }];
    });
  }

  /** Rows that are new to the site, in the order the file speaks of them. */
  get added(): readonly Readonly<Record<string, string>>[] {
    const names = this.part.columns.map(({ column }) => column);
    return [...this.byKey.values()]
      .filter(({ siteRow }) => siteRow < 0)
      .map(({ cells }) =>
        Object.fromEntries(names.map((column) => [column, cells.get(column) ?? ''])),
      );
  }

  get changes(): readonly Change[] {
    return [...this.byKey.values()].flatMap(({ changes }) => changes);
  }

  /** Every row taken, new or not. */
  *taken(): Generator<ReadonlyMap<string, string>> {
    for (const { cells } of this.byKey.values()) yield cells;
  }
}

export const refusalOf = ({ column, before, after }: Change): Refusal => ({
  column,
  expected: before === '' ? 'a blank, as the site has' : `“${before}”, as the site has`,
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
    const cells = new Map<string, string>();
    const refusals: Refusal[] = [];
    for (const { column, from, make } of this.shared.part.columns) {
      const cell = make(from.map((at) => this.text(at, i)));
      if (isRefusal(cell)) refusals.push(cell);
      else cells.set(column, cell);
    }
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
  readonly cells: ReadonlyMap<string, string>;
  readonly refusals: readonly Refusal[];
  taken: boolean;
};
