import {
  blockBetween,
  clearBlock,
  columnsDrawn,
  fillDown,
  nextWith,
  pastedOver,
  readClipboard,
  rowsIn,
  writeBlock,
  type At,
} from '../../domain/site/cell-block';
import { nextProblem } from '../../domain/site/cell-words';
import type { Edit } from '../../domain/site/edits/apply';
import { TABLES, type TableName } from '../../domain/site/schema';
import { onePerSite } from '../one-per-site.svelte';
import type { OpenSite } from '../open-site.svelte';

/** The tables of a site as they are drawn and edited: which one, and which cells are in hand. */
export class TablesView {
  /** The tables are open over the map. */
  open = $state(false);
  table = $state<TableName>('locations');
  /** The cell in hand, and the other corner of the block that is marked. */
  at: At = $state.raw({ row: 0, column: 0 });
  corner: At = $state.raw({ row: 0, column: 0 });
  /** The next cell pressed is the other corner of the block: for hands without a Shift key. */
  isStretching = $state(false);
  /** Why the last thing asked for was not done. */
  trouble = $state('');

  readonly #site: OpenSite;
  readonly columns = $derived.by(() => columnsDrawn(this.table, this.rows));
  readonly block = $derived(blockBetween(this.at, this.corner));

  constructor(site: OpenSite) {
    this.#site = site;
  }

  /** The table in hand as it is kept; undefined where the site has none yet. */
  get rows() {
    return this.#site.package.tables[this.table];
  }

  get size(): number {
    return this.rows?.size ?? 0;
  }

  /** Open a table, at its first cell. */
  choose(table: TableName) {
    this.table = table;
    this.trouble = '';
    this.mark({ row: 0, column: 0 });
  }

  /** Open the tables at a cell; the row as a spreadsheet numbers it. */
  openCell(table: TableName, row: number, column: string) {
    this.open = true;
    this.table = table;
    this.mark({ row: row - 2, column: Math.max(0, this.columns.indexOf(column)) });
  }

  /** A cell was pressed. */
  press(to: At, stretch: boolean) {
    this.mark(to, stretch || this.isStretching);
    this.isStretching = false;
  }

  /** Mark one cell, or stretch the block to it. There is one row more than the table has: a new one. */
  mark(to: At, stretch = false) {
    const within = (value: number, most: number) => Math.max(0, Math.min(value, most));
    const at = {
      row: within(to.row, this.size),
      column: within(to.column, this.columns.length - 1),
    };
    this.corner = at;
    if (!stretch) this.at = at;
  }

  move(down: number, right: number, stretch = false) {
    const from = stretch ? this.corner : this.at;
    this.mark({ row: from.row + down, column: from.column + right }, stretch);
  }

  write(at: At, text: string): boolean {
    const column = this.columns[at.column] ?? '';
    const words = `Change ${column} in row ${at.row + 2} of ${this.#title}`;
    return this.#make(words, writeBlock(this.table, this.rows, at, [[text]]));
  }

  paste(texts: readonly (readonly string[])[]) {
    const { top, left } = this.block;
    const whole = pastedOver(this.block, texts);
    const width = Math.max(0, ...whole.map(({ length }) => length));
    const words = `Paste ${whole.length} × ${width} cells into ${this.#title}`;
    const from = { row: top, column: left };
    if (!this.#make(words, writeBlock(this.table, this.rows, from, whole))) return;
    this.mark(from);
    this.mark({ row: top + whole.length - 1, column: left + width - 1 }, true);
    const over = left + width - this.columns.length;
    if (over > 0) this.trouble = `The last ${over} columns pasted had no column to go to.`;
  }

  /** Paste what the clipboard holds: a browser asks the person first, or refuses. */
  pasteFromClipboard = async () => {
    try {
      const texts = readClipboard(await navigator.clipboard.readText());
      if (texts.length > 0) this.paste(texts);
      else this.trouble = 'There is no text on the clipboard.';
    } catch {
      this.trouble =
        'The browser does not let this page read the clipboard: press Ctrl+V in a cell.';
    }
  };

  fillDown = () => this.#make(`Fill down in ${this.#title}`, fillDown(this.table, this.rows, this.block)); // prettier-ignore

  clear = () =>
    this.#make(`Clear cells of ${this.#title}`, clearBlock(this.table, this.rows, this.block));

  removeRows = () => {
    const rows = rowsIn(this.block, this.rows);
    if (rows.length === 0) return;
    const count = rows.length === 1 ? `row ${(rows[0] ?? 0) + 2}` : `${rows.length} rows`;
    const edit = { kind: 'remove-rows', table: this.table, rows } as const;
    if (this.#make(`Remove ${count} of ${this.#title}`, edit)) this.mark(this.at);
  };

  /** The blank row at the end, ready to be written in. */
  newRow = () => this.mark({ row: this.size, column: 0 });

  toNextProblem = () => {
    const found = nextProblem(this.#site.site.problems, this.table, this.columns, this.at);
    if (found) this.mark(found);
  };

  find(sought: string) {
    const found = nextWith(this.rows, this.at, sought);
    this.trouble = found ? '' : `“${sought}” stands in no cell of ${this.#title}.`;
    if (found) this.mark(found);
  }

  get #title() {
    return TABLES[this.table].title;
  }

  /** True where the site changed. */
  #make(label: string, edit: Edit | null): boolean {
    this.trouble = '';
    if (edit === null) return false;
    const made = this.#site.edit(label, edit);
    if (!made.ok)
      this.trouble =
        made.problem === 'read-only'
          ? 'Another window has this site: here it can only be read.'
          : 'That row is no longer there.';
    return made.ok;
  }
}

/** The tables of a site; the same one each time it is asked for. */
export const tablesOf = onePerSite((site) => new TablesView(site));
