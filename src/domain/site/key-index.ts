/** A text as 32 bits (FNV-1a: Fowler, Noll, Vo). Texts of one hash are told apart by comparing them. */
export function hashOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash | 0;
}

/** Hash of several texts from theirs, in order. */
export const joinedHash = (hash: number, next: number) =>
  (Math.imul(hash ^ (hash >>> 15), 0x2c1b3c6d) ^ Math.imul(next, 0x297a2d39)) | 0;

/**
 * Rows by the hash of their key, for a million of them: two numbers a row, side
 * by side. The caller compares the keys themselves.
 */
export class KeyIndex {
  /** Pairs of row + 1 and hash; 0 for a free place. */
  private slots: Int32Array;
  private count = 0;
  /** Where the last search ended: the place a key not found would take. */
  private free = 0;

  constructor(expected: number) {
    let capacity = 1024;
    while (capacity < expected * 2) capacity *= 2;
    this.slots = new Int32Array(2 * capacity);
  }

  /** A row with this hash whose key is the same; −1 for none. */
  find(hash: number, isSame: (row: number) => boolean): number {
    const { slots } = this;
    const mask = slots.length - 2;
    for (let at = (mixed(hash) << 1) & mask; ; at = (at + 2) & mask) {
      const row = (slots[at] ?? 0) - 1;
      if (row < 0) {
        this.free = at;
        return -1;
      }
      if (slots[at + 1] === hash && isSame(row)) return row;
    }
  }

  /** Add the row that was just searched for and not found. */
  add(hash: number, row: number): void {
    this.slots[this.free] = row + 1;
    this.slots[this.free + 1] = hash;
    if (++this.count * 4 > this.slots.length) this.grow();
  }

  private grow(): void {
    const { slots } = this;
    this.slots = new Int32Array(slots.length * 2);
    const mask = this.slots.length - 2;
    for (let from = 0; from < slots.length; from += 2) {
      if (slots[from] === 0) continue;
      let at = (mixed(slots[from + 1] ?? 0) << 1) & mask;
      while (this.slots[at] !== 0) at = (at + 2) & mask;
      this.slots[at] = slots[from] ?? 0;
      this.slots[at + 1] = slots[from + 1] ?? 0;
    }
  }
}

const mixed = (hash: number) => Math.imul(hash ^ (hash >>> 16), 0x45d9f3b) >>> 0;
