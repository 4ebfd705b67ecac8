import { describe, expect, test } from 'vitest';
import { casOf, isCas } from '../../../src/domain/lab/cas';
import {
  amountIn,
  compareAmounts,
  exactAmountOf,
  unitOf,
  WORKED_IN,
  type Amount,
} from '../../../src/domain/lab/concentration-units';
import {
  compareNearly,
  decimalOf,
  multiplyDecimals,
  numberOf,
  plainText,
  roundedToMultiple,
} from '../../../src/domain/lab/decimal';
import { decidingNumber, limitOf, reportingLimitOf } from '../../../src/domain/lab/limit';
import { FLAG, legendsFrom } from '../../../src/domain/lab/qualifiers';
import { resultReader } from '../../../src/domain/lab/reading';
import { plainDigits, readReported } from '../../../src/domain/lab/reported';
import { aResult } from './a-result';

const COMMA = { decimalComma: true };
const read = (cell: string) => {
  const { kind, number, letters } = readReported(cell);
  return [kind, number, letters];
};

describe('a cell of results: words for “looked for and not seen”', () => {
  test.each([
    'ND', 'nd', 'N.D.', 'n.d', 'not detected', 'Not-Detected', 'non-detect', 'nondetect',
    'non-detects', 'nondetects', 'non-detected', 'BDL', 'BQL', 'BRL', '<MDL', '< RL', '<  DL',
    '<PQL', '<LOD', '<LOQ', '<MRL', '<CRQL',
  ])('“%s”', (cell) => expect(read(cell)).toEqual(['not detected', null, ''])); // prettier-ignore

  test.each([
    ['ND 0.5', '0.5', ''],
    ['ND(0.5)', '0.5', ''],
    ['ND [0.50]', '0.50', ''],
    ['ND (<0.5)', '0.5', ''],
    ['N.D.<0.5 UJ', '0.5', 'UJ'],
    ['nd@5E-3', '5E-3', ''],
    ['ND 1.2E-10', '1.2E-10', ''],
    ['ND 5e2', '5e2', ''],
    ['ND 1.5E+02 U', '1.5E+02', 'U'],
    ['ND 1,200', '1200', ''],
    ['0.5 n.d.', '0.5', ''],
    ['<0.5 ND', '0.5', ''],
  ])('“%s” keeps the number beside it', (cell, number, letters) => {
    expect(read(cell)).toEqual(['not detected', number, letters]);
  });

  test.each(['some ND', 'bdl?', 'about nondetect', 'ND 1,20', 'ND 0.5 mg/L', 'end 0.5', 'ND -0.5'])(
    '“%s” is not guessed at',
    (cell) => expect(readReported(cell).kind).toBe('unreadable'),
  );
});

describe('words that say there is no result', () => {
  test.each([
    '-', '---', '–', '—', 'n/a', 'NA', 'N.A.', 'NS', 'NR', 'NT', 'not sampled', 'Not analyzed',
    'not analysed', 'not reported', 'not tested', 'not measured', 'not applicable',
  ])('“%s”', (cell) => expect(read(cell)).toEqual(['blank', null, ''])); // prettier-ignore

  test.each(['was not sampled', 'not sampled, dry', 'not analyxed', '- see note'])(
    '“%s” is not one of them',
    (cell) => expect(readReported(cell).kind).toBe('unreadable'),
  );
});

describe('numbers with powers of ten, signs and groups', () => {
  test.each([
    ['1.2E-03', '1.2E-03'],
    ['5e+10', '5e+10'],
    ['4E-100', '4E-100'],
    ['.05', '.05'],
    ['+12.75', '+12.75'],
    ['-1,200', '-1200'],
    ['+1,200.55', '+1200.55'],
    ['999,999', '999999'],
  ])('%s', (cell, number) => expect(read(cell)).toEqual(['number', number, '']));

  test.each([
    '0.51,200',
    '0,120',
    '1,200E3',
    '1,2000',
    '12,34',
    '1.2.3',
    '1E1000',
    '5,',
    '.',
    '1,200.',
  ])('%s is no number with a decimal point', (cell) =>
    expect(readReported(cell)).toMatchObject({ kind: 'unreadable', number: null }),
  );

  test.each([
    ['12', '12'],
    ['12,5', '12.5'],
    [',05', '.05'],
    ['-12,5', '-12.5'],
    ['+0,25', '+0.25'],
    ['1.200', '1200'],
    ['-1.200', '-1200'],
    ['1.200,55', '1200.55'],
    ['12.345.678,9', '12345678.9'],
    ['1,5E-3', '1.5E-3'],
  ])('with decimal commas %s is %s', (cell, number) => {
    expect(plainDigits(cell, COMMA)).toBe(number);
  });

  test.each(['0,51.200', '12.5', '1.20', '0.120', '1.200,', '1.2000', '1.200E3', ',', '12,5,5'])(
    'with decimal commas %s is none',
    (cell) => expect(plainDigits(cell, COMMA)).toBeNull(),
  );

  test('which kind of comma was expected is said', () => {
    expect(readReported('1,20').expected).toContain('0.5 or 1,200');
    expect(readReported('1.20', COMMA).expected).toContain('0,5 or 1.200');
    expect(readReported('5 ug/L').expected).toBe('only qualifier letters after the number');
    expect(readReported('high').expected).toContain('<0.5, ND');
  });

  test('sixty characters are read, sixty-one are not', () => {
    const long = `0.${'1'.repeat(58)}`;
    expect(read(long)).toEqual(['number', long, '']);
    expect(readReported(`${long}1`).kind).toBe('unreadable');
    expect(plainDigits(long)).toBe(long);
    expect(plainDigits(`${long}1`)).toBeNull();
  });
});

describe('qualifier letters beside a number', () => {
  test.each([
    ['5 B   J', 'B J'],
    ['5 B, J', 'B, J'],
    ['5;J', null],
    ['5 J;B', 'J;B'],
    ['5 J/B-', 'J/B-'],
    ['5 b', 'b'],
    ['5 b c', 'b c'],
    ['5 JB UJ', 'JB UJ'],
    ['5 *', '*'],
    ['5 ^J#', '^J#'],
    ['5 A B C D E', 'A B C D E'],
    ['5 A B C D E F', null],
    ['5 JBUJX', null],
    ['5 %', null],
    ['5 J %', null],
    ['5 [J]', 'J'],
    ['5 ( J )', 'J'],
    ['5 (B J)', 'B J'],
    ['5 J (B)', null],
    ['5 (J) B', null],
    ['5 NDX', 'NDX'],
    ['5 SND', 'SND'],
  ])('“%s”: %s', (cell, letters) => {
    expect(read(cell)).toEqual(
      letters === null ? ['unreadable', null, ''] : ['number', '5', letters],
    );
  });

  test('more than a number it was not seen at is no non-detect', () => {
    expect(read('>5 ND')).toEqual(['more than', '5', 'ND']);
    expect(read('>=5 J')).toEqual(['more than', '5', 'J']);
    expect(read('<=5 J')).toEqual(['less than', '5', 'J']);
  });

  test.each([
    'G',
    'UG',
    'MG',
    'NG',
    'PG',
    'KG',
    'ML',
    'L',
    'PPM',
    'PPB',
    'PPT',
    'PPQ',
    'MFL',
    'PCI',
    'CI',
    'BQ',
    'NTU',
    'DEG',
    'SU',
    'MV',
    'UV',
    'US',
  ])('a unit is none: 5 %s', (unit) => {
    expect(readReported(`5 ${unit}`).kind).toBe('unreadable');
    expect(readReported(`5 J ${unit}`).kind).toBe('unreadable');
  });

  test.each(['PPX', 'UGA', 'AUG', 'SUX', 'XG'])(
    'nor are letters that only hold one: 5 %s',
    (letters) => {
      expect(read(`5 ${letters}`)).toEqual(['number', '5', letters]);
    },
  );

  test.each(['R', 'UJ', 'NJX', 'J+', 'b', 'b-'])('“%s” alone', (letters) => {
    expect(read(letters)).toEqual(['letters', null, letters]);
  });
  test.each(['JJJJ', 'J?', 'bc', 'J +'])('“%s” alone says nothing', (cell) => {
    expect(readReported(cell).kind).toBe('unreadable');
  });
});

describe('units of concentration', () => {
  // By the metric prefixes: one of each in the unit its dimension is worked in.
  test.each([
    ['g/L', 'mass per volume', '1e6'],
    ['mg/L', 'mass per volume', '1e3'],
    ['µg/L', 'mass per volume', '1'],
    ['ng/L', 'mass per volume', '1e-3'],
    ['pg/L', 'mass per volume', '1e-6'],
    ['mg/mL', 'mass per volume', '1e6'],
    ['ug/mL', 'mass per volume', '1e3'],
    ['ng/mL', 'mass per volume', '1'],
    ['pg/mL', 'mass per volume', '1e-3'],
    ['mcg/L', 'mass per volume', '1'],
    ['pCi/L', 'activity per volume', '37'], // 11th CGPM, 1964: 3.7 · 10¹⁰ Bq a curie
    ['pCi/mL', 'activity per volume', '37e3'],
    ['Bq/L', 'activity per volume', '1e3'],
    ['mBq/L', 'activity per volume', '1'],
    ['Bq/mL', 'activity per volume', '1e6'],
    ['MFL', 'fibres per volume', '1'], // million fibres a litre
    ['fibres/L', 'fibres per volume', '1e-6'],
    ['fibers/L', 'fibres per volume', '1e-6'],
    ['g/kg', 'mass per mass', '1e6'],
    ['mg/kg', 'mass per mass', '1e3'],
    ['µg/kg', 'mass per mass', '1'],
    ['ng/kg', 'mass per mass', '1e-3'],
    ['mg/g', 'mass per mass', '1e6'],
    ['ug/g', 'mass per mass', '1e3'],
    ['ng/g', 'mass per mass', '1'],
    ['pg/g', 'mass per mass', '1e-3'],
  ])('one %s', (text, dimension, amount) => {
    const unit = unitOf(text)!;
    expect(unit).toMatchObject({ dimension, basis: null, parts: false });
    expect(amountIn(1, unit)).toBe(Number(amount));
    expect(numberOf(exactAmountOf({ text: '1', unit }))).toBe(Number(amount));
  });

  test.each([
    ['ppm', 1e3],
    ['ppb', 1],
    ['ppt', 1e-3],
    ['ppq', 1e-6],
  ])('one %s is a mass per volume in water, and a mass per mass in soil', (text, amount) => {
    expect(unitOf(text)).toMatchObject({ dimension: 'mass per volume', parts: true, times: 1 });
    expect(unitOf(text, true)).toMatchObject({ dimension: 'mass per mass', parts: false });
    expect(amountIn(1, unitOf(text)!)).toBe(amount);
    expect(amountIn(1, unitOf(text, true)!)).toBe(amount);
  });

  test('each dimension is worked in a unit that is one of itself', () => {
    for (const [dimension, name] of Object.entries(WORKED_IN)) {
      const unit = unitOf(name);
      expect(unit?.dimension).toBe(dimension);
      expect(amountIn(7, unit!)).toBe(7);
    }
    expect(Object.keys(WORKED_IN)).toHaveLength(4);
  });

  test('an amount is the nearest number to the decimal, as 3 ng/L is 0.003 µg/L', () => {
    for (const [text, power] of [
      ['ng/L', -3],
      ['pg/L', -6],
      ['mg/L', 3],
      ['g/L', 6],
    ] as const)
      // prettier-ignore
      for (let k = 1; k < 1000; k++)
        expect(amountIn(k, unitOf(text)!)).toBe(Number(`${k}e${power}`));
  });

  test.each([
    ['mg/L as N', 'N'],
    ['mg/L  as  no3', 'NO3'],
    ['mg/L, as N', 'N'],
    ['mg/L ,  as N', 'N'],
    ['mg/L,as N', 'N'],
    ['mg/L (as CaCO3)', 'CACO3'],
    ['mg/L(as N)', 'N'],
    ['mg/L ( as N )', 'N'],
    ['mg/L-N', 'N'],
    ['mg/L - N', 'N'],
    ['g/L-N', 'N'],
    ['ug/mL - P', 'P'],
    ['mg N/L', 'N'],
    ['mg-N/L', 'N'],
    ['mgN/L', 'N'],
    ['g N/L', 'N'],
    ['ug P/mL', 'P'],
  ])('%s counts as %s', (text, basis) => {
    expect(unitOf(text)?.basis).toBe(basis);
    expect(unitOf(text)?.dimension).toBe('mass per volume');
  });

  test.each([
    'kmg/L-N',
    'xmg N/L',
    'mg N/Lx',
    'mg/L-Nx',
    'mg/L as',
    'mg/L was N',
    'mg/L as N yes',
    'mg/L as nitrogen',
    'mg',
    '/L',
    'furlong',
    '',
  ])('“%s” is no unit', (text) => expect(unitOf(text)).toBeNull());

  test('capitals and room do not matter; more than forty characters is no unit', () => {
    expect(unitOf('  MG  /  l ')).toEqual(unitOf('mg/L'));
    expect(unitOf('\u03bcg/L')).toEqual(unitOf('\u00b5g/L')); // Greek mu, micro sign
    expect(unitOf(`mg/L${' '.repeat(36)}`)).not.toBeNull();
    expect(unitOf(`mg/L${' '.repeat(37)}`)).toBeNull();
    expect(unitOf(null)).toBeNull();
  });

  test('a text that is no decimal is not made into an amount', () => {
    const unit = unitOf('mg/L')!;
    expect(() => exactAmountOf({ text: '1,2', unit })).toThrow('1,2');
    const order = (a: string, b: string) => {
      const of = (text: string): Amount => ({ text, unit });
      return compareAmounts(of(a), of(b));
    };
    expect([order('0.1', '0.10'), order('0.1', '0.2'), order('3', '2')]).toEqual([0, -1, 1]);
  });
});

describe('exact decimals', () => {
  const of = (text: string) => decimalOf(text)!;

  test('1.5 times 0.02 is 0.03', () => {
    expect(plainText(multiplyDecimals(of('1.5'), of('0.02')))).toBe('0.030');
    expect(plainText(multiplyDecimals(of('-12'), of('1e3')))).toBe('-12000');
  });

  test('nothing is 0, however many places', () => {
    expect(plainText({ digits: 0n, exponent: 3 })).toBe('0');
    expect(plainText({ digits: 0n, exponent: 0 })).toBe('0');
    expect(plainText({ digits: 0n, exponent: -2 })).toBe('0.00');
    expect(plainText(roundedToMultiple(of('0'), of('0.001')))).toBe('0.000');
    expect(plainText(of('+3'))).toBe('3');
  });

  test('a hundred digits are read, a hundred and one are not, nor two hundred characters and one', () => {
    expect(decimalOf('9'.repeat(100))?.digits).toBe(10n ** 100n - 1n);
    expect(decimalOf('9'.repeat(101))).toBeNull();
    expect(decimalOf(`0.${'9'.repeat(99)}`)).not.toBeNull();
    expect(decimalOf(`0.${'9'.repeat(100)}`)).toBeNull();
  });

  test('numbers apart are compared as they are; only those as good as equal are worked out', () => {
    const never = () => {
      throw new Error('worked out');
    };
    expect(compareNearly(1, 2, never)).toBe(-1);
    expect(compareNearly(-1, -2, never)).toBe(1);
    expect(compareNearly(0, 1e-5, never)).toBe(-1);
    expect(compareNearly(1, 1 + 2e-12, never)).toBe(-1);
    expect(compareNearly(1, 1 + 1e-13, () => 0)).toBe(0);
    expect(compareNearly(5, 5, () => 1)).toBe(1);
    expect(compareNearly(1e-300, 2e-300, () => 0)).toBe(0); // fewer digits are carried there
  });
});

describe('CAS numbers', () => {
  // 71-43-2 benzene, 7732-18-5 water, 50-00-0 formaldehyde: in any handbook.
  test.each(['71-43-2', '7732-18-5', '50-00-0'])('%s', (text) => {
    expect(isCas(text)).toBe(true);
    expect(casOf(` 000${text} `)).toBe(text);
  });
  test.each([
    '71-43-3',
    '71-43-2x',
    'x71-43-2',
    'CAS 71-43-2',
    '1-43-2',
    '71-4-2',
    '',
    '71432',
    '7-43-2',
  ])('“%s” is none', (text) => expect(casOf(text)).toBeNull());
  test('only zeros in front are dropped, and none inside', () => {
    expect(casOf('0000-00-0')).toBeNull();
    expect(casOf('100-41-4')).toBe('100-41-4'); // ethylbenzene
    expect(casOf('0107-06-2')).toBe('107-06-2'); // 1,2-dichloroethane
    expect(casOf(null)).toBeNull();
  });
});

describe('legends', () => {
  const usual = legendsFrom([])(null);

  test('N alone and NJ are tentative; separators of any kind and number part letters', () => {
    expect(usual.laboratory('N').flags).toBe(FLAG.tentative);
    expect(usual.laboratory('UJ').flags).toBe(FLAG.notDetected | FLAG.estimated);
    for (const cell of ['J;;B', ' J  B ', 'J | B', 'J/B', ',J,B,'])
      expect(usual.laboratory(cell)).toEqual({ flags: FLAG.estimated | FLAG.inBlank, unknown: [] });
  });

  test('a row with room around its letter or its laboratory counts; one with no known meaning does not', () => {
    const row = { laboratory: ' Laboratory A ', letter: ' H ', source: null };
    const legends = legendsFrom([
      { ...row, meaning: 'estimated' },
      { ...row, letter: 'Q', meaning: 'looks odd' },
      { ...row, laboratory: '  ', letter: 'Z', meaning: 'rejected' },
    ]);
    expect(legends('Laboratory A').laboratory('H')).toEqual({ flags: FLAG.estimated, unknown: [] });
    expect(legends('Laboratory A').laboratory('Q').unknown).toEqual(['Q']);
    expect(legends('Laboratory B').laboratory('H').unknown).toEqual(['H']);
    expect(legends('Laboratory B').laboratory('Z').flags).toBe(FLAG.rejected);
    expect(legends(null).validation('Z').flags).toBe(FLAG.rejected);
  });

  test('four letters run together are parted as known, or not at all', () => {
    expect(usual.laboratory('UJDB').flags).toBe(
      FLAG.notDetected | FLAG.estimated | FLAG.dilution | FLAG.inBlank,
    );
    expect(usual.laboratory('UJDX')).toEqual({ flags: FLAG.unknown, unknown: ['UJDX'] });
  });
});

describe('the number a non-detect is judged by', () => {
  const reader = resultReader();
  const reading = (value: string, more: object = {}) =>
    reader(aResult(value, { lab_qualifier: 'U', ...more }));
  const limits = { detection_limit: '0.2', reporting_limit: '1.0' };

  test('each of the two columns decides where its set says so, and is named', () => {
    const both = reading('1.0', limits);
    expect(limitOf(both, 'reporting limit')).toMatchObject({
      text: '1.0',
      column: 'reporting_limit',
    });
    expect(limitOf(both, 'detection limit')).toMatchObject({
      text: '0.2',
      column: 'detection_limit',
    });
    expect(limitOf(reading('0.2', limits), 'detection limit')?.column).toBe('detection_limit');
  });

  test('without the column that decides it is the number reported, else the other column', () => {
    const reported = reading('5', { detection_limit: '0.2' });
    expect(limitOf(reported, 'reporting limit')).toMatchObject({ text: '5', column: 'value' });
    const other = reading('ND', { detection_limit: '0.2' });
    expect(limitOf(other, 'reporting limit')).toMatchObject({
      text: '0.2',
      column: 'detection_limit',
    });
    expect(limitOf(reading('ND'), 'reporting limit')).toBeNull();
    expect(decidingNumber(reading('ND'), 'detection limit')).toBeNull();
  });

  test('reported below another number than either column gives: the larger of the two', () => {
    expect(limitOf(reading('10', limits), 'reporting limit')?.text).toBe('10');
    expect(limitOf(reading('10', limits), 'detection limit')?.text).toBe('10');
    expect(limitOf(reading('0.5', limits), 'reporting limit')?.text).toBe('1.0');
  });

  test('1 and 1.0 are one number', () => {
    expect(limitOf(reading('1', limits), 'reporting limit')?.text).toBe('1.0');
    expect(limitOf(reading('1', limits), 'detection limit')?.text).toBe('0.2');
  });

  test('a detection has none, and a result without a unit has none; a reporting limit stands beside any', () => {
    const seen = reader(aResult('5', limits));
    expect(limitOf(seen, 'reporting limit')).toBeNull();
    expect(reportingLimitOf(seen)).toEqual({ text: '1.0', unit: unitOf('µg/L') });
    const unitless = reading('1', { ...limits, unit: null });
    expect(limitOf(unitless, 'reporting limit')).toBeNull();
    expect(reportingLimitOf(unitless)).toBeNull();
    expect(reportingLimitOf(reading('ND'))).toBeNull();
  });
});
