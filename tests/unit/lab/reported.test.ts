import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { unitOf } from '../../../src/domain/lab/concentration-units';
import { plainDigits, readReported, type Reported } from '../../../src/domain/lab/reported';

const says = (
  kind: Reported['kind'],
  number: string | null = null,
  letters = '',
): Partial<Reported> => ({ kind, number, letters });

test.each<[string, Partial<Reported>]>([
  ['12', says('number', '12')],
  ['0.50', says('number', '0.50')],
  ['<0.5', says('less than', '0.5')],
  ['< 0.5', says('less than', '0.5')],
  ['≤0.5', says('less than', '0.5')],
  ['<0.5 U', says('less than', '0.5', 'U')],
  ['ND', says('not detected')],
  ['n.d.', says('not detected')],
  ['Not detected', says('not detected')],
  ['non-detect', says('not detected')],
  ['<MDL', says('not detected')],
  ['ND (0.5)', says('not detected', '0.5')],
  ['ND<0.5', says('not detected', '0.5')],
  ['ND @ 0.5 U', says('not detected', '0.5', 'U')],
  ['0.5 ND', says('not detected', '0.5')],
  ['0.5 U', says('number', '0.5', 'U')],
  ['0.5U', says('number', '0.5', 'U')],
  ['5.2 J', says('number', '5.2', 'J')],
  ['5.2 (J)', says('number', '5.2', 'J')],
  ['5.2 J+', says('number', '5.2', 'J+')],
  ['5 UJ', says('number', '5', 'UJ')],
  ['5 B,J', says('number', '5', 'B,J')],
  ['5E', says('number', '5', 'E')],
  ['1.2E-3', says('number', '1.2E-3')],
  ['1.2E-3 J', says('number', '1.2E-3', 'J')],
  ['1,200', says('number', '1200')],
  ['12,345,678.9', says('number', '12345678.9')],
  ['<1,000', says('less than', '1000')],
  ['>200', says('more than', '200')],
  ['≥ 200', says('more than', '200')],
  ['-0.4', says('number', '-0.4')],
  ['−0.4', says('number', '-0.4')],
  ['R', says('letters', null, 'R')],
  ['U', says('letters', null, 'U')],
  ['', says('blank')],
  ['   ', says('blank')],
  ['--', says('blank')],
  ['NA', says('blank')],
  ['not sampled', says('blank')],
])('“%s”', (text, expected) => {
  expect(readReported(text)).toMatchObject({ ...expected, expected: null });
});

test('no cell at all is blank', () => {
  expect(readReported(null).kind).toBe('blank');
});

describe('never guessed', () => {
  test.each([
    ['1,20', 'a comma that groups nothing'],
    ['0,5', 'a decimal comma nobody spoke of'],
    ['0,500', 'half, or five hundred?'],
    ['1,2345', 'four after a comma'],
    ['1.2.3', 'two points'],
    ['1 200', 'a space between digits'],
    ['5 mg/L', 'a unit in the value’s cell'],
    ['5 ppb', 'a unit in the value’s cell'],
    ['5 ug', 'a unit in the value’s cell'],
    ['5.2-7', 'a range'],
    ['5 ± 1', 'a value with its error'],
    ['10^4', 'a power that lost its dress'],
    ['1.2 x 10-3', 'a power that lost its dress'],
    ['<', 'a sign alone'],
    ['trace', 'a word'],
    ['about 5', 'a word'],
    ['5 see note', 'a word after the number'],
    ['#REF!', 'a spreadsheet’s error'],
    ['2/3/2024', 'a date'],
  ])('“%s” is unreadable: %s', (text) => {
    const read = readReported(text);
    expect(read.kind).toBe('unreadable');
    expect(read.number).toBeNull();
    expect(read.expected).not.toBe('');
    expect(read.expected).not.toBeNull();
  });
});

describe('decimal commas, once the file is said to use them', () => {
  const comma = { decimalComma: true };
  test.each([
    ['0,5', says('number', '0.5')],
    ['<0,05 U', says('less than', '0.05', 'U')],
    ['1.200', says('number', '1200')],
    ['1.200,5', says('number', '1200.5')],
    ['1,2E-3', says('number', '1.2E-3')],
  ] as const)('“%s”', (text, expected) => {
    expect(readReported(text, comma)).toMatchObject(expected);
  });
  test.each(['0.5', '1,200.5', '1,2,3'])('“%s” is unreadable', (text) => {
    expect(readReported(text, comma).kind).toBe('unreadable');
  });
});

test('any text at all is read or refused, and a number comes out only as digits with a point', () => {
  fc.assert(
    fc.property(
      fc.oneof(fc.string(), fc.stringMatching(/^[<>ND0-9.,eE +\-UJRB]{0,12}$/)),
      (text) => {
        const { kind, number } = readReported(text);
        if (number !== null) {
          expect(number).toMatch(/^[-+]?(\d+\.?\d*|\.\d+)([eE][-+]?\d{1,3})?$/);
          expect(kind).not.toBe('blank');
        }
        if (kind === 'number' || kind === 'less than' || kind === 'more than')
          expect(number).not.toBeNull();
      },
    ),
  );
});

test('a number grouped by threes is the number without its commas', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1000, max: 2_000_000_000 }), (n) => {
      expect(plainDigits(n.toLocaleString('en-US'))).toBe(String(n));
    }),
  );
});

test('a hostile cell is refused at once', () => {
  const cells = [
    '9'.repeat(100_000),
    `5${' '.repeat(50_000)}as N`,
    'ND '.repeat(30_000),
    'J'.repeat(100_000),
  ];
  for (const cell of cells) {
    expect(readReported(cell).kind).toBe('unreadable');
    expect(unitOf(cell)).toBeNull();
    expect(plainDigits(cell)).toBeNull();
  }
});
