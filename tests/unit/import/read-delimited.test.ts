import fc from 'fast-check';
import Papa from 'papaparse';
import { expect, test } from 'vitest';
import { eachRow } from '../../../src/domain/site/table';
import { guessEncoding } from '../../../src/io/import/encoding';
import { DelimitedReader } from '../../../src/io/import/delimited-reader';
import {
  readDelimited,
  readDelimitedBytes,
  readDelimitedText,
} from '../../../src/io/import/read-delimited';
import type { SourceTable } from '../../../src/io/import/source-table';

const read = (text: string | Uint8Array): SourceTable => {
  const made =
    typeof text === 'string'
      ? readDelimitedText('levels.csv', text)
      : readDelimitedBytes('levels.csv', text);
  if (!made.ok) throw new Error(made.problem);
  return made.value;
};

const rows = (source: SourceTable) => [...eachRow(source.table)];

const LINES = [
  ['Well', 'Date', 'DTW (ft)'],
  ['DP-1', '2025-03-31', '8.31'],
  ['DP-2', '2025-03-31', '7.90'],
];

const dressed = (delimiter: string, newline: string) =>
  LINES.map((cells) => cells.join(delimiter)).join(newline) + newline;

test.each([
  ['commas', ',', '\n'],
  ['semicolons', ';', '\n'],
  ['tabs', '\t', '\n'],
  ['vertical bars', '|', '\n'],
  ['commas, and the line ends of Windows', ',', '\r\n'],
  ['commas, and the line ends of an old Mac', ',', '\r'],
])('cells parted by %s', (_, delimiter, newline) => {
  const source = read(dressed(delimiter, newline));
  expect(source.headings).toEqual(LINES[0]);
  expect(rows(source)).toEqual(LINES.slice(1));
});

const utf16 = (text: string, little: boolean, mark: boolean) => {
  const bytes = new Uint8Array(2 * text.length + (mark ? 2 : 0));
  const view = new DataView(bytes.buffer);
  if (mark) view.setUint16(0, 0xfeff, little);
  [...text].forEach((letter, i) =>
    view.setUint16(2 * i + (mark ? 2 : 0), letter.charCodeAt(0), little),
  );
  return bytes;
};

const NOTED = 'Well,Note\nDP-1,dépôt à 5 µg/L\n';
const CP1252 = Uint8Array.from(NOTED, (letter) => letter.charCodeAt(0));

test.each([
  ['UTF-8', new TextEncoder().encode(NOTED)],
  ['UTF-8 with a byte-order mark', new TextEncoder().encode(`\uFEFF${NOTED}`)],
  ['UTF-16 as Windows writes it', utf16(NOTED, true, true)],
  ['UTF-16 the other way round', utf16(NOTED, false, true)],
  ['UTF-16 without a mark', utf16(NOTED, true, false)],
  ['UTF-16 the other way round, without a mark', utf16(NOTED, false, false)],
  ['Windows-1252', CP1252],
])('%s is read with its accents', (_, bytes) => {
  expect(rows(read(bytes))).toEqual([['DP-1', 'dépôt à 5 µg/L']]);
});

test('a euro sign and curly quotes of Windows-1252, which Latin-1 does not have', () => {
  const bytes = Uint8Array.from([...'Well,Note\nDP-1,'].map((c) => c.charCodeAt(0)).concat([0x80, 0x93, 0x94])); // prettier-ignore
  expect(guessEncoding(bytes, true)).toBe('windows-1252');
  expect(rows(read(bytes))).toEqual([['DP-1', '€“”']]);
});

test('a letter that is no UTF-8 far down in a long file: the whole is read as Windows-1252', async () => {
  const line = 'DP-1,plain text and nothing else\n';
  const many = line.repeat(40_000);
  const bytes = Uint8Array.from(`Well,Note\n${many}DP-2,5 \u00b5g/L\n`, (c) => c.charCodeAt(0));
  const steps = readDelimited('long.csv', new Blob([bytes]));
  for (;;) {
    const step = await steps.next();
    if (!step.done) continue;
    if (!step.value.ok) throw new Error(step.value.problem);
    expect(rows(step.value.value).at(-1)).toEqual(['DP-2', '5 µg/L']);
    expect(step.value.value.said[0]).toBe('Its letters are read as Windows-1252.');
    return;
  }
});

test('bytes that are no text are refused, in words', () => {
  const made = readDelimitedBytes('plan.dwg', Uint8Array.from([1, 2, 3, 0, 4, 5, 0, 0, 0, 6]));
  expect(made).toEqual({
    ok: false,
    problem: 'plan.dwg is not a text file: it has bytes no text has. Save it as CSV or .xlsx.',
  });
});

test('title lines above the header: the header is found, and said', () => {
  const source = read(
    [
      'Osier Bend gauging,,',
      'Crew: J,,',
      '',
      '# depths in feet',
      'Well,Date,DTW (ft)',
      'DP-1,2025-03-31,8.31',
    ].join('\n'),
  );
  expect(source.headings).toEqual(['Well', 'Date', 'DTW (ft)']);
  expect(source.headerRow).toBe(5);
  expect(source.said).toContain(
    'Row 5 is taken as the header. Above it: “Osier Bend gauging”; “Crew: J”; “# depths in feet”.',
  );
  expect(rows(source)).toEqual([['DP-1', '2025-03-31', '8.31']]);
});

test('a header somebody points at stands, and a file may have none', () => {
  const text = 'a,b\nc,d\n1,2\n';
  const pointed = readDelimitedText('x.csv', text, { headerRow: 2 });
  expect(pointed.ok && pointed.value.headings).toEqual(['c', 'd']);
  const none = readDelimitedText('x.csv', text, { headerRow: 0 });
  expect(none.ok && none.value.headings).toEqual(['column 1', 'column 2']);
  expect(none.ok && none.value.table.size).toBe(3);
});

test('line breaks and delimiters in quotes stay in their cell', () => {
  expect(rows(read('Well,Note\r\nDP-1,"two\r\nlines, one cell"\r\nDP-2,x'))).toEqual([
    ['DP-1', 'two\nlines, one cell'],
    ['DP-2', 'x'],
  ]);
});

test('a quote that never closes costs its own row and none of those after it', () => {
  const source = read('Well,Note\nDP-1,ok\nDP-2,"open\nDP-3,fine\nDP-4,fine\n');
  expect(rows(source).map(([well]) => well)).toEqual(['DP-1', 'DP-2', 'DP-3', 'DP-4']);
  expect([...source.broken.keys()]).toEqual([1]);
});

test('a file full of quotes that never close is read in time that grows with its length, not its square', () => {
  const time = (rows: number) => {
    const text = `Well,Note\n${'"DP-1,x\n'.repeat(rows)}`;
    const started = performance.now();
    expect(read(text).table.size).toBeGreaterThan(20);
    return performance.now() - started;
  };
  const [few, many] = [10_000, 40_000].map((rows) => Math.min(time(rows), time(rows)));
  // Four times the rows: a square would take sixteen times as long.
  expect((many ?? 0) / (few ?? 1)).toBeLessThan(10);
});

test('cells beyond the header are kept in one more column', () => {
  const source = read('Well,DTW\nDP-1,1,204.5\nDP-2,7\n');
  expect(rows(source)).toEqual([
    ['DP-1', '1', '204.5'],
    ['DP-2', '7', ''],
  ]);
});

test('a million delimiters in one row do not make a million columns', () => {
  const source = read(`Well,Note\nDP-1,${','.repeat(1_000_000)}x\nDP-2,y\n`);
  expect(source.table.columns.length).toBe(3);
});

test('what our own files carry to keep a spreadsheet from running it is taken off again', () => {
  expect(rows(read("Well,Note\nDP-1,'=1+1\n"))).toEqual([['DP-1', '=1+1']]);
});

test('however a file is cut into pieces, it is the same table', () => {
  const cell = fc.oneof(
    fc.string({ maxLength: 6 }),
    fc.constantFrom('"', '""', ',', '\n', '\r\n', 'µ', ''),
  );
  fc.assert(
    fc.property(
      fc.array(fc.array(cell, { minLength: 1, maxLength: 3 }), { maxLength: 12 }),
      fc.array(fc.nat(200), { maxLength: 8 }),
      (lines, cuts) => {
        const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`;
        const text = ['Well,Date,Note', ...lines.map((l) => l.map(quoted).join(','))].join('\r\n');
        const whole = new DelimitedReader('a.csv', { delimiter: ',', headerRow: 1 });
        whole.push(text);
        const pieces = new DelimitedReader('a.csv', { delimiter: ',', headerRow: 1 });
        let at = 0;
        for (const cut of cuts) {
          pieces.push(text.slice(at, at + cut));
          at += cut;
        }
        pieces.push(text.slice(at));
        expect(pieces.end()).toEqual(whole.end());
      },
    ),
  );
});

test('a read says how far it is, and stops when nobody asks on', async () => {
  const file = new Blob([`Well,Note\n${'DP-1,some words of a note\n'.repeat(200_000)}`]);
  const steps = readDelimited('long.csv', file);
  const first = await steps.next();
  expect(first.done).toBe(false);
  if (first.done) return;
  expect(first.value.of).toBe(file.size);
  expect(first.value.done).toBeLessThan(file.size);
  expect(first.value.rows).toBeGreaterThan(0);
  expect((await steps.return({ ok: false, problem: 'stopped' })).done).toBe(true);
});

// PapaParse reads the same text at once; how we read it, plain rows by ourselves and odd ones
// through PapaParse, must come to the same cells.
test('plain rows and odd ones mixed: every cell is what PapaParse reads there', () => {
  const cell = fc.oneof(
    { weight: 6, arbitrary: fc.constantFrom('MW-1', 'MW-2', '0.5', '<0.5', '', 'ug/L', '5" pipe') },
    { weight: 2, arbitrary: fc.constantFrom('"1,1-DCA"', '"a ""b"" c"', '""', '"two\nlines"') },
    { weight: 1, arbitrary: fc.constantFrom('"blank after" ', '1,1-DCA', 'x,,y', '', '\0\0') },
  );
  const line = fc.oneof(
    { weight: 8, arbitrary: fc.array(cell, { minLength: 4, maxLength: 4 }) },
    { weight: 1, arbitrary: fc.array(cell, { maxLength: 6 }) },
  );
  const lines = fc.array(
    line.map((cells) => cells.join(',')),
    { minLength: 1, maxLength: 60 },
  );
  fc.assert(
    fc.property(lines, fc.array(fc.integer({ min: 1, max: 40 })), (made, cuts) => {
      const text = `well,result,unit,note\n${made.join('\n')}\n`;
      const reader = new DelimitedReader('x.csv', { delimiter: ',', headerRow: 1 });
      let at = 0;
      for (const cut of cuts) reader.push(text.slice(at, (at += cut)));
      reader.push(text.slice(at));
      const ended = reader.end();
      if (!ended.ok) throw new Error(ended.problem);
      const { data } = Papa.parse<string[]>(text, { delimiter: ',', newline: '\n' });
      const expected = data.slice(1, -1).map((cells) => {
        const beyond = cells.slice(4);
        const isBeyond = beyond.some((each) => each.trim() !== '');
        return [0, 1, 2, 3].map((i) => cells[i] ?? '').concat(isBeyond ? beyond.join(',') : '');
      });
      const got = [...eachRow(ended.value.table)].map((cells) =>
        cells.concat(cells.length === 4 ? '' : []),
      );
      expect(got).toEqual(expected);
    }),
    { numRuns: 500 },
  );
});
