/**
 * The rectangles a PDF draws and the fonts it carries, read from its own
 * operators (ISO 32000-1, 8.3 and 8.5: q Q cm re m l), in points of 1/72 inch.
 */
import { inflateSync } from 'node:zlib';

type Matrix = readonly [number, number, number, number, number, number];

const times = (m: Matrix, n: Matrix): Matrix => [
  m[0] * n[0] + m[1] * n[2],
  m[0] * n[1] + m[1] * n[3],
  m[2] * n[0] + m[3] * n[2],
  m[2] * n[1] + m[3] * n[3],
  m[4] * n[0] + m[5] * n[2] + n[4],
  m[4] * n[1] + m[5] * n[3] + n[5],
];

export type PdfMarks = {
  readonly pages: number;
  /** Width and height of the page, points. */
  readonly page: readonly [number, number];
  /** Width and height of every rectangle, points. */
  readonly rectangles: readonly (readonly [number, number])[];
  /** Runs of words that can be selected. */
  readonly texts: number;
  /** Fonts that are embedded, and those with a table back to letters. */
  readonly embedded: number;
  readonly readable: number;
};

export function pdfMarks(bytes: Buffer): PdfMarks {
  const source = bytes.toString('latin1');
  const streams = [...source.matchAll(/stream\r?\n/g)].flatMap(({ index, 0: word }) => {
    const start = index + word.length;
    const end = source.indexOf('endstream', start);
    try {
      return [inflateSync(bytes.subarray(start, end)).toString('latin1')];
    } catch {
      return [];
    }
  });
  const all = [source, ...streams].join('\n');
  const rectangles: (readonly [number, number])[] = [];
  let texts = 0;
  for (const stream of streams) {
    if (!/\b(re|BT|cm)\b/.test(stream)) continue;
    let now: Matrix = [1, 0, 0, 1, 0, 0];
    const kept: Matrix[] = [];
    let numbers: number[] = [];
    let path: (readonly [number, number])[] = [];
    for (const token of stream.split(/\s+/)) {
      const number = Number(token);
      if (token !== '' && Number.isFinite(number)) {
        numbers.push(number);
        continue;
      }
      const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = numbers;
      const at = (x: number, y: number) =>
        [now[0] * x + now[2] * y + now[4], now[1] * x + now[3] * y + now[5]] as const;
      if (token === 'q') kept.push(now);
      else if (token === 'Q') now = kept.pop() ?? now;
      else if (token === 'cm') now = times([a, b, c, d, e, f], now);
      else if (token === 're') {
        const [[x0, y0], [x1, y1]] = [at(a, b), at(a + c, b + d)];
        rectangles.push([Math.abs(x1 - x0), Math.abs(y1 - y0)]);
      } else if (token === 'm') path = [at(a, b)];
      else if (token === 'l') path.push(at(a, b));
      else if (token === 'h' && path.length >= 4) {
        const [xs, ys] = [path.map(([x]) => x), path.map(([, y]) => y)];
        rectangles.push([Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)]);
      } else if (/(^|>|\))T[jJ]$/.test(token)) texts++;
      numbers = [];
    }
  }
  const box = /\/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)/.exec(all);
  return {
    pages: [...all.matchAll(/\/Type\s*\/Page\b(?!s)/g)].length,
    page: [Number(box?.[1]), Number(box?.[2])],
    rectangles,
    texts,
    embedded: [...all.matchAll(/\/FontFile[23]?\b/g)].length,
    readable: [...all.matchAll(/\/ToUnicode\b/g)].length,
  };
}
