import type { Ask } from './ask';

/** How a file writes decimals; null: not known, and a number with a comma can't be read. */
export type Decimals = 'point' | 'comma' | null;

const NUMBER = /[-+−]?\d[\d.,]*/;
const GROUPED_BY_COMMA = /^[1-9]\d{0,2}(?:,\d{3})+$/;
const GROUPED_BY_POINT = /^[1-9]\d{0,2}(?:\.\d{3})+$/;

/**
 * What the numbers of a file say of its decimal sign. "0.5" can only be written
 * with a point and "0,5" only with a comma; "1,200" and "1.200" say nothing.
 */
export class DecimalEvidence {
  private point: string | null = null;
  private comma: string | null = null;
  private open: string | null = null;

  see(text: string) {
    if (this.point !== null && (this.comma !== null || !text.includes(','))) return;
    const number = NUMBER.exec(text)?.[0].replace(/^[-+−]/, '');
    if (number === undefined) return;
    const [hasPoint, hasComma] = [number.includes('.'), number.includes(',')];
    if (hasPoint && hasComma) {
      if (number.lastIndexOf('.') > number.lastIndexOf(',')) this.point ??= text.trim();
      else this.comma ??= text.trim();
    } else if (hasPoint && !GROUPED_BY_POINT.test(number)) this.point ??= text.trim();
    else if (hasComma)
      if (GROUPED_BY_COMMA.test(number)) this.open ??= text.trim();
      else this.comma ??= text.trim();
  }

  /** What is certain without asking: no commas at all, or decimals with a point beside them. */
  get settled(): Decimals {
    if (this.comma !== null) return null;
    return this.open === null || this.point !== null ? 'point' : null;
  }

  /** A sentence for what was settled, where commas were read as parting thousands. */
  get said(): string | null {
    return this.settled === 'point' && this.open !== null
      ? `“${this.open}” is read with its comma parting thousands: the file writes decimals with a point (“${this.point ?? ''}”).`
      : null;
  }

  get ask(): Ask | null {
    if (this.settled !== null) return null;
    const proposed = this.comma === null ? 'point' : this.point === null ? 'comma' : null;
    const why =
      this.comma === null
        ? `“${this.open ?? ''}” can be a thousand and more, or a decimal fraction; nothing else in the file says which.`
        : this.point === null
          ? `“${this.comma}” can only be a decimal comma, and no number has a decimal point.`
          : `“${this.comma}” has a decimal comma and “${this.point}” a decimal point.`;
    return {
      id: 'decimals',
      question: 'Which sign parts the decimals in this file?',
      why,
      choices: [
        { value: 'point', says: 'A point: 1,200 is one thousand two hundred' },
        { value: 'comma', says: 'A comma: 0,5 is a half' },
      ],
      proposed,
      needed: true,
    };
  }
}
