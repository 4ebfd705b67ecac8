import { inTakingOrder } from '../../io/import/taking-order';
import type { ListedTable } from './importing';

/** What became of a file that was looked at. */
export type Done = { readonly says: string; readonly isTaken: boolean };

/** Files that wait to be looked at, and what became of those before them. */
export class ImportQueue {
  /** The first is in hand; the others in the order in which each finds what it names. */
  tables: readonly ListedTable[] = $state.raw([]);
  done: readonly Done[] = $state.raw([]);

  readonly inHand: ListedTable | null = $derived(this.tables[0] ?? null);
  readonly waiting: readonly ListedTable[] = $derived(this.tables.slice(1));

  add(found: readonly ListedTable[]) {
    const first = this.tables.slice(0, 1);
    this.tables = [...first, ...inTakingOrder([...this.waiting, ...found])];
  }

  note(says: string, isTaken: boolean) {
    this.done = [...this.done, { says: `${this.inHand?.name ?? ''}: ${says}`, isTaken }];
  }

  /** Done with the file in hand. */
  next() {
    this.tables = this.waiting;
  }

  /** The file in hand after all others. */
  later() {
    this.tables = [...this.waiting, ...this.tables.slice(0, 1)];
  }

  /** A file of the queue before the others, which stay in order. */
  first(number: number) {
    const isIt = (table: ListedTable) => table.number === number;
    const others = this.tables.filter((table) => !isIt(table));
    this.tables = [...this.tables.filter(isIt), ...inTakingOrder(others)];
  }

  empty() {
    this.tables = [];
  }
}
