import type { DataPackage } from '../../domain/site/data-package';
import { apply, type Edit } from '../../domain/site/edits/apply';
import type { TableName } from '../../domain/site/schema';
import type { Settings } from '../../domain/site/settings';
import { cellText, rowTexts, type Table } from '../../domain/site/table';

/** A file that was imported, and what became of its rows. */
export type ImportedFile = {
  readonly name: string;
  /** SHA-256 of its bytes, in hex. */
  readonly sha256: string;
  readonly rows: number;
  readonly taken: number;
  readonly refused: number;
  readonly blank: number;
};

type RowText = Readonly<Record<string, string>>;

/** What an edit did, with what was there before. Rows count as a spreadsheet does: the header is 1. */
export type Change =
  | {
      readonly what: 'write-cells';
      readonly table: TableName;
      readonly cells: readonly {
        readonly row: number;
        readonly column: string;
        readonly before: string;
        readonly after: string;
      }[];
    }
  | {
      readonly what: 'add-rows';
      readonly table: TableName;
      /** The first of them. */
      readonly row: number;
      readonly count: number;
      /** Left out where there are many: they are in the table, and in the file imported. */
      readonly rows?: readonly RowText[];
    }
  | {
      readonly what: 'remove-rows';
      readonly table: TableName;
      readonly count: number;
      /** Left out where there are many. */
      readonly rows?: readonly { readonly row: number; readonly before: RowText }[];
    }
  | {
      readonly what: 'change-settings';
      readonly before: Partial<Settings>;
      readonly after: Partial<Settings>;
    }
  | { readonly what: 'together'; readonly changes: readonly Change[] }
  | { readonly what: 'other'; readonly edit: Edit };

export type JournalLine = {
  /** Time by the clock of the machine, in UTC. Lines stand in order of their doing, whatever it said. */
  readonly when: string;
  /** Initials; null where none were given. */
  readonly who: string | null;
  readonly did: 'edit' | 'undo' | 'redo';
  /** As the menu said it: "Write 8.30 at DP-3". */
  readonly label: string;
  readonly files?: readonly ImportedFile[];
  /** Left out for undo and redo, whose label says what they went over. */
  readonly change?: Change;
};

/** No more rows than this are written out in a line. Cells written over always are. */
const MOST_ROWS_ADDED = 200;
const MOST_ROWS_REMOVED = 10_000;

/** The header is row 1 and rows count from 0. */
const asSpreadsheet = (row: number) => row + 2;

const rowOf = (table: Table, row: number): RowText => {
  const texts = rowTexts(table, row);
  return Object.fromEntries(table.columns.map((column, i) => [column, texts[i] ?? '']));
};

/** What an edit does to a site, with what was there before. */
export function changeOf(before: DataPackage, edit: Edit): Change {
  switch (edit.kind) {
    case 'write-cells': {
      const table = before.tables[edit.table];
      const cells = edit.cells.map(({ row, column, text }) => ({
        row: asSpreadsheet(row),
        column,
        before: table ? cellText(table, row, column) : '',
        after: text,
      }));
      return { what: 'write-cells', table: edit.table, cells };
    }
    case 'add-rows': {
      const row = asSpreadsheet(before.tables[edit.table]?.size ?? 0);
      const count = edit.rows.length;
      const rows = count > MOST_ROWS_ADDED ? {} : { rows: edit.rows };
      return { what: 'add-rows', table: edit.table, row, count, ...rows };
    }
    case 'add-table':
      return {
        what: 'add-rows',
        table: edit.table,
        row: asSpreadsheet(before.tables[edit.table]?.size ?? 0),
        count: edit.added.size,
      };
    case 'remove-rows': {
      const table = before.tables[edit.table];
      const count = edit.rows.length;
      const rows =
        table && count <= MOST_ROWS_REMOVED
          ? {
              rows: edit.rows.map((row) => ({
                row: asSpreadsheet(row),
                before: rowOf(table, row),
              })),
            }
          : {};
      return { what: 'remove-rows', table: edit.table, count, ...rows };
    }
    case 'change-settings': {
      const names = Object.keys(edit.settings) as (keyof Settings)[];
      const was = Object.fromEntries(names.map((name) => [name, before.settings[name]]));
      return { what: 'change-settings', before: was, after: edit.settings };
    }
    case 'together': {
      const changes: Change[] = [];
      let now = before;
      edit.edits.forEach((part, i) => {
        changes.push(changeOf(now, part));
        const made = i < edit.edits.length - 1 ? apply(now, part) : null;
        if (made?.ok) now = made.value;
      });
      return { what: 'together', changes };
    }
    default:
      return { what: 'other', edit };
  }
}

/** One line of journal.jsonl, without its end. */
export const lineOf = (line: JournalLine): string => JSON.stringify(line);

/**
 * The lines of a journal for a list on the screen, oldest first. A line that is
 * none of ours is null: it stays in the file and is not shown.
 */
export const readJournal = (text: string): (JournalLine | null)[] =>
  text
    .split(/\r?\n/)
    .filter((line) => line.trim() !== '')
    .map(readLine);

function readLine(text: string): JournalLine | null {
  try {
    const line = JSON.parse(text) as Partial<JournalLine> | null;
    const isOurs =
      typeof line?.when === 'string' &&
      typeof line.label === 'string' &&
      (line.did === 'edit' || line.did === 'undo' || line.did === 'redo');
    return isOurs ? (line as JournalLine) : null;
  } catch {
    return null;
  }
}
