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
 * Rows by the hash of their key, for a million of them: two numbers a row. The
 * caller compares the keys themselves.
 */
export class KeyIndex {
  private rows: Int32Array;
  private hashes: Int32Array;
  private count = 0;

  constructor(expected: number) {
    let capacity = 1024;
    while (capacity < expected * 2) capacity *= 2;
    this.rows = new Int32Array(capacity).fill(-1);
    this.hashes = new Int32Array(capacity);
  }

  /** A row with this hash whose key is the same; −1 for none. */
  find(hash: number, isSame: (row: number) => boolean): number {
    const mask = this.rows.length - 1;
    for (let at = mixed(hash) & mask; ; at = (at + 1) & mask) {
      const row = this.rows[at] ?? -1;
      if (row < 0) return -1;
      if (this.hashes[at] === hash && isSame(row)) return row;
    }
  }

  add(hash: number, row: number): void {
    if (++this.count * 2 > this.rows.length) this.grow();
    this.put(hash, row);
  }

  private put(hash: number, row: number): void {
    const mask = this.rows.length - 1;
    let at = mixed(hash) & mask;
    while ((this.rows[at] ?? -1) >= 0) at = (at + 1) & mask;
    this.rows[at] = row;
    this.hashes[at] = hash;
  }

  private grow(): void {
    const { rows, hashes } = this;
    this.rows = new Int32Array(rows.length * 2).fill(-1);
    this.hashes = new Int32Array(rows.length * 2);
    rows.forEach((row, at) => {
      if (row >= 0) this.put(hashes[at] ?? 0, row);
    });
  }
}

const mixed = (hash: number) => Math.imul(hash ^ (hash >>> 16), 0x45d9f3b) >>> 0;
