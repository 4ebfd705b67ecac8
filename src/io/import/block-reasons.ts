import type { Block } from '../../domain/site/table';
import { isRefusal, type Refusal } from './ask';
import type { Cells } from './cells';
import type { BlockOnce, Said } from './once';
import type { SourceTable } from './source-table';

/** Where every text of a column of the file is blank, by code; and whether a row has nothing else. */
export function blankRows({ columns }: Block) {
  const blank = columns.map(({ dictionary }) =>
    Uint8Array.from(dictionary, (text) => (text.trim() === '' ? 1 : 0)),
  );
  const isBlankAt = (at: number, i: number) => blank[at]?.[columns[at]?.codes[i] ?? 0] !== 0;
  return {
    isBlankAt,
    isBlank: (i: number) => {
      for (let at = 0; at < columns.length; at++) if (!isBlankAt(at, i)) return false;
      return true;
    },
  };
}

/** What is wrong with the rows of a block, each by itself. */
export class BlockReasons {
  /** Columns with a cell that can't be taken. */
  private readonly doubtful: readonly Cells[];
  /** Column of what runs on beyond the header; −1 where no row of the block does. */
  private readonly beyond: number;
  private lastRow = -2;
  private lastSaid: readonly Said[] = [];
  private last: readonly Refusal[] = [];

  /**
   * @param cells  the columns made of the block
   * @param once  what its rows say of things several rows speak of
   * @param start  rows of the file before it
   */
  constructor(
    private readonly source: SourceTable,
    private readonly block: Block,
    cells: readonly Cells[],
    private readonly once: readonly BlockOnce[],
    private readonly isBlankAt: (at: number, i: number) => boolean,
    private readonly start: number,
  ) {
    this.doubtful = cells.filter(({ dictionary }) => dictionary.some(isRefusal));
    this.beyond = block.columns.length > source.headings.length ? source.headings.length : -1;
  }

  /** Whether no row of the block can be wrong but by what it says of things several rows speak of. */
  get isSound(): boolean {
    return this.doubtful.length === 0 && this.source.broken.size === 0 && this.beyond < 0;
  }

  /** Why a row is refused; none where it stands. Rows looked at one after the other that say the same share the list. */
  of(i: number): readonly Refusal[] {
    const why = this.source.broken.get(this.start + i);
    const runsOn = this.beyond >= 0 && !this.isBlankAt(this.beyond, i);
    if (why !== undefined || runsOn) return this.reasons(i, why, runsOn);
    if (!this.saysTheSame(i)) {
      this.last = this.reasons(i, undefined, false);
      this.lastSaid = this.once.map((each) => each.at(i));
    }
    this.lastRow = i;
    return this.last;
  }

  /** Whether a row has the doubtful cells of the last one looked at, and says the same of other things. */
  private saysTheSame(i: number): boolean {
    if (this.lastRow < 0) return false;
    for (const { codes } of this.doubtful) if (codes[i] !== codes[this.lastRow]) return false;
    return this.once.every((each, k) => each.at(i) === this.lastSaid[k]);
  }

  private reasons(i: number, why: string | undefined, runsOn: boolean): readonly Refusal[] {
    const reasons: Refusal[] = [];
    if (why !== undefined)
      addReason(reasons, { column: 'The row', expected: why, found: firstText(this.block, i) });
    if (runsOn) {
      const beyond = this.block.columns[this.beyond];
      addReason(reasons, {
        column: 'After the last column',
        expected: 'no more cells than the header has',
        found: beyond?.dictionary[beyond.codes[i] ?? 0] ?? '',
      });
    }
    for (const { dictionary, codes } of this.doubtful) {
      const cell = dictionary[codes[i] ?? 0] ?? '';
      if (isRefusal(cell)) addReason(reasons, cell);
    }
    for (const each of this.once)
      for (const refusal of each.at(i).refusals) addReason(reasons, refusal);
    return reasons;
  }
}

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
