import type { Edit } from '../../domain/site/edits/apply';
import type { TableName } from '../../domain/site/schema';
import { rowTexts, type Block } from '../../domain/site/table';
import { fail, ok, type Result } from '../../domain/result';
import type { Answers } from '../../io/import/ask';
import type { Target } from '../../io/import/context';
import type { Mapping, Proposal } from '../../io/import/mapping';
import { proposeMapping } from '../../io/import/match-columns';
import { previewing, summaryOf, type Preview } from '../../io/import/preview';
import type { Dressed } from '../../io/import/delimited-reader';
import { refusedCsv } from '../../io/import/refused';
import type { Progress, SourceTable } from '../../io/import/source-table';
import { recognised, type Recognised } from '../../io/import/taking-order';
import { verdictCounts, type VerdictCount } from '../../io/import/verdicts';
import { sha256 } from '../../io/keeping/digest';
import type { ImportedFile } from '../../io/keeping/journal';
import { packageOf, type KeptPackage } from '../../io/keeping/kept-package';
import { gridOf, siteOf } from '../../io/open-site';
import { candidatesIn, pastedCandidate, type Candidate } from './candidates';
import type { Remembered } from './remembered';

/** A table that can be taken in, by its number. */
export type ListedTable = Pick<Candidate, 'name' | 'isText'> & {
  readonly number: number;
  /** What it seems to be; null where that cannot be told. */
  readonly is: Recognised | null;
};

export type FoundTables = {
  readonly tables: readonly ListedTable[];
  /** Why there is nothing in some of the files. */
  readonly troubles: readonly string[];
};

/** A table that has been read, without its rows. */
export type SourceShown = Omit<SourceTable, 'table' | 'broken'> & {
  /** Cells of its first rows. */
  readonly first: readonly (readonly string[])[];
};

/** What an import would do, without its rows: of long lists only the beginning, and how many there are. */
export type PreviewShown = Omit<Preview, 'edit'> & {
  readonly changed: number;
  readonly refusedRows: number;
  /** Verdicts on the results it would add, by set of levels. */
  readonly verdicts: readonly VerdictCount[];
  readonly summary: string;
  /** The same once it is done. */
  readonly took: string;
  /** Whether there is anything to add or change. */
  readonly hasEdit: boolean;
};

/** One edit of an import; of a table to be added only how many blocks it has. */
export type EditShell =
  | { readonly kind: 'whole'; readonly edit: Edit }
  | {
      readonly kind: 'blocks';
      readonly table: TableName;
      readonly columns: readonly string[];
      readonly size: number;
      readonly blocks: number;
    };

export type Report = (progress: Progress) => void;

/** Rows of a long list that are shown; the rest are counted. */
const MOST = 200;

/** Between two reports, and between two looks whether something newer was asked. */
const AT_A_TIME = 100; // ms

/** Lets a message come in that makes this work stale. A timer would wait four milliseconds. */
const breath = () =>
  new Promise<void>((go) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      go();
    };
    port2.postMessage(null);
  });

/** What a table seems to be; null where that cannot be told. */
async function atAGlance({ glance }: Candidate): Promise<Recognised | null> {
  const reading = glance();
  for (;;) {
    const step = await reading.next();
    if (step.done) return step.value.ok ? recognised(proposeMapping(step.value.value)) : null;
  }
}

/**
 * Files on their way into a site, read and looked through away from the page:
 * they stay here with their rows, and the page is told what it shows. What is
 * overtaken by a newer question answers null.
 */
export class Importing {
  private readonly tables = new Map<number, { candidate: Candidate; file: File | null }>();
  private readonly blocks = new Map<number, Block>();
  private target: Target | null = null;
  private inHand: number | null = null;
  private source: SourceTable | null = null;
  private preview: Preview | null = null;
  private turn = 0;

  /** The tables in files. */
  async find(files: readonly File[]): Promise<FoundTables> {
    const tables: ListedTable[] = [];
    const troubles: string[] = [];
    for (const file of files) {
      const found = await candidatesIn(file);
      if (found.ok) for (const each of found.value) tables.push(await this.list(each, file));
      else troubles.push(found.problem);
    }
    return { tables, troubles };
  }

  async paste(text: string): Promise<FoundTables> {
    return { tables: [await this.list(pastedCandidate(text), null)], troubles: [] };
  }

  private async list(candidate: Candidate, file: File | null): Promise<ListedTable> {
    const number = this.tables.size;
    this.tables.set(number, { candidate, file });
    return { number, name: candidate.name, isText: candidate.isText, is: await atAGlance(candidate) }; // prettier-ignore
  }

  addBlock(number: number, block: Block): void {
    this.blocks.set(number, block);
  }

  /** The site rows are taken into, of the blocks sent before. */
  setSite(kept: KeptPackage): void {
    const { package: given } = packageOf(kept, this.blocks, null);
    const { grid, problem } = gridOf(given);
    // Rows are told from those of the site by their texts: its results need not be read.
    const { results: _, ...others } = given.tables;
    const site = siteOf({ ...given, tables: others }, grid, problem);
    this.target = { package: given, site, grid };
  }

  /** Read a table, as it seems to be dressed or as a person says. */
  async read(
    number: number,
    dressed: Dressed,
    report: Report,
  ): Promise<Result<SourceShown, string> | null> {
    const turn = ++this.turn;
    this.source = this.preview = null;
    this.inHand = number;
    const reading = this.tables.get(number)?.candidate.read(dressed);
    if (!reading) return fail('The file is no longer at hand: drop it here again.');
    let told = 0;
    for (;;) {
      const step = await reading.next();
      if (turn !== this.turn) return null;
      if (step.done) {
        if (!step.value.ok) return step.value;
        const { table, broken: _, ...shown } = (this.source = step.value.value);
        const first = [0, 1, 2].map((row) => rowTexts(table, row));
        return ok({ ...shown, first });
      }
      if (performance.now() - told < AT_A_TIME) continue;
      told = performance.now();
      report(step.value);
    }
  }

  /** How its columns match the tables. */
  match(form: TableName | null, remembered: Remembered): Proposal | null {
    return this.source && proposeMapping(this.source, form, remembered.here, remembered.elsewhere);
  }

  /** What taking it would do, with what is known so far. */
  async look(mapping: Mapping, answers: Answers, report: Report): Promise<PreviewShown | null> {
    const turn = ++this.turn;
    const { source, target } = this;
    this.preview = null;
    if (!source || !target) return null;
    const steps = previewing(source, mapping, answers, target);
    let since = performance.now();
    for (;;) {
      const step = steps.next();
      if (step.done) return this.show((this.preview = step.value), target);
      if (performance.now() - since < AT_A_TIME) continue;
      report(step.value);
      await breath();
      if (turn !== this.turn) return null;
      since = performance.now();
    }
  }

  private show(preview: Preview, target: Target): PreviewShown {
    const { edit, changes, refused, ...others } = preview;
    return {
      ...others,
      changes: changes.slice(0, MOST),
      changed: changes.length,
      refused: refused.slice(0, MOST),
      refusedRows: refused.length,
      verdicts: verdictCounts(edit, target),
      summary: summaryOf(preview),
      took: summaryOf(preview, true),
      hasEdit: edit !== null,
    };
  }

  /** The edits of the last look, in order; blocks are asked for one by one. */
  edits(): readonly EditShell[] {
    return (this.preview?.edit?.edits ?? []).map((edit) => {
      if (edit.kind !== 'add-table') return { kind: 'whole', edit };
      const { columns, size, blocks } = edit.added;
      return { kind: 'blocks', table: edit.table, columns, size, blocks: blocks.length };
    });
  }

  /** A block of a table to be added. */
  block(edit: number, at: number): Block {
    const given = this.preview?.edit?.edits[edit];
    const block = given?.kind === 'add-table' ? given.added.blocks[at] : undefined;
    if (!block) throw new Error('The file was looked at again meanwhile.');
    return block;
  }

  /** The file in hand and what becomes of its rows, for the journal; null for what was pasted. */
  async imported(): Promise<ImportedFile | null> {
    const { preview } = this;
    const file = this.inHand === null ? null : this.tables.get(this.inHand)?.file;
    // Only a page from a safe address may work out sums.
    if (!file || !preview || !('subtle' in crypto)) return null;
    const { rows, taken, refused, blank } = preview.account;
    const sum = await sha256(new Uint8Array(await file.arrayBuffer()));
    return { name: file.name, sha256: sum, rows, taken, refused, blank };
  }

  /** The refused rows as a file, with the reason in a last column. */
  refused(): string {
    return this.source && this.preview ? refusedCsv(this.source, this.preview) : '';
  }
}
