import { proxy, wrap, type Remote } from 'comlink';
import type { DataPackage } from '../../domain/site/data-package';
import type { Edit } from '../../domain/site/edits/apply';
import type { Together } from '../../domain/site/edits/together';
import type { Block } from '../../domain/site/table';
import { blocksOf, shellOf } from '../../io/keeping/kept-package';
import { Importing, type Report } from './importing';

type Room = Importing | Remote<Importing>;

/** What was asked for is no longer wanted. */
export class Stopped extends Error {}

/** The worker that reads files, and what of the site it has been sent. */
export class ImportingAway {
  #worker: Worker | null = null;
  #room: Room | null = null;
  #numbers = new WeakMap<Block, number>();
  #next = 0;
  #site: DataPackage | null = null;
  #hasResults = false;
  readonly #waiting = new Set<(why: Error) => void>();

  /** Ask the worker something. Rejects where it fails or is stopped before it answers. */
  ask<Answer>(question: (room: Room) => Answer | Promise<Answer>): Promise<Answer> {
    const room = this.#open();
    return new Promise<Answer>((answer, reject) => {
      this.#waiting.add(reject);
      const done = () => this.#waiting.delete(reject);
      Promise.resolve(question(room)).then(answer, reject).finally(done);
    });
  }

  /** How far it has got, told across. */
  report(tell: Report): Report {
    return this.#worker ? proxy(tell) : tell;
  }

  /**
   * Send the site as it stands, but for what was sent before.
   * @param withResults  its results are only of use for more results
   */
  async send(given: DataPackage, withResults: boolean): Promise<void> {
    const room = this.#open();
    if (this.#site === given && (this.#hasResults || !withResults)) return;
    const { results, ...others } = given.tables;
    const sent: DataPackage = withResults && results ? given : { ...given, tables: others };
    // One by one: the page is never held up by the copying of more than one.
    for (const block of blocksOf(sent)) {
      if (this.#numbers.has(block)) continue;
      const number = this.#next++;
      await this.ask(() => room.addBlock(number, block));
      this.#numbers.set(block, number);
    }
    await this.ask(() => room.setSite(shellOf(sent, (block) => this.#numbers.get(block) ?? -1)));
    this.#site = given;
    this.#hasResults = withResults;
  }

  /** The edit of the last look, brought over block by block. */
  async edit(tell: Report): Promise<Together> {
    const shells = await this.ask((room) => room.edits());
    const of = shells.reduce((sum, each) => sum + (each.kind === 'blocks' ? each.size : 0), 0);
    const edits: Edit[] = [];
    let rows = 0;
    for (const [place, shell] of shells.entries()) {
      if (shell.kind === 'whole') {
        edits.push(shell.edit);
        continue;
      }
      const { table, columns, size } = shell;
      const blocks: Block[] = [];
      for (let at = 0; at < shell.blocks; at++) {
        const block = await this.ask((room) => room.block(place, at));
        blocks.push(block);
        rows += block.size;
        tell({ done: rows, of, rows });
      }
      edits.push({ kind: 'add-table', table, added: { columns, blocks, size } });
    }
    return { kind: 'together', edits };
  }

  /** Give up whatever is being worked out. What was read is gone with it. */
  stop(): void {
    this.#drop(new Stopped());
  }

  /** Let the worker go; the next question gets another, which is sent the site anew. */
  #drop(why: Error): void {
    this.#worker?.terminate();
    this.#end(why);
    this.#worker = this.#room = this.#site = null;
    this.#numbers = new WeakMap();
    this.#hasResults = false;
  }

  #open(): Room {
    if (this.#room) return this.#room;
    if (typeof Worker === 'undefined') return (this.#room = new Importing());
    this.#worker = new Worker(new URL('./import-worker.ts', import.meta.url), { type: 'module' });
    this.#worker.onerror = ({ message }) =>
      this.#drop(new Error(message || 'the browser ended its worker'));
    return (this.#room = wrap<Importing>(this.#worker));
  }

  #end(why: Error): void {
    for (const reject of this.#waiting) reject(why);
    this.#waiting.clear();
  }
}
