import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { KNOWN_ANALYTES } from '../../../src/domain/lab/analyte-list';
import {
  analyteKey,
  analyteNamed,
  analyteProblem,
  analyteWithCas,
} from '../../../src/domain/lab/analytes';
import { casOf, checkDigit, isCas } from '../../../src/domain/lab/cas';

// Worked sums of CAS's own explanation of the check digit, and three more read with it.
test.each([
  ['107-07-3', 33],
  ['71-23-8', 38],
  ['7732-18-5', 105],
  ['64-17-5', 45],
])('%s: the sum is %i and its last digit the check', (cas, sum) => {
  expect(isCas(cas)).toBe(true);
  const digits = cas.replaceAll('-', '').slice(0, -1);
  const worked = [...digits].reverse().reduce((total, d, i) => total + (i + 1) * Number(d), 0);
  expect(worked).toBe(sum);
  expect(checkDigit(digits)).toBe(sum % 10);
});

test.each(['71-43-3', '7440-38-3', '71432', '71-4-3', '', 'benzene', '0-00-0'])(
  '“%s” is not a CAS number',
  (text) => expect(isCas(text)).toBe(false),
);

test('leading zeros of a ten-digit column are dropped', () => {
  expect(casOf('000071-43-2')).toBe('71-43-2');
  expect(casOf(' 7440-38-2 ')).toBe('7440-38-2');
});

describe('known analytes', () => {
  test('every CAS number has its check digit, and none stands twice', () => {
    const numbers = KNOWN_ANALYTES.flatMap(({ cas }) => cas ?? []);
    expect(numbers.length).toBeGreaterThan(150);
    expect(numbers.filter((cas) => !isCas(cas))).toEqual([]);
    expect(new Set(numbers).size).toBe(numbers.length);
  });

  test('no name or synonym stands for two analytes', () => {
    const names = KNOWN_ANALYTES.flatMap(({ name, synonyms }) => [name, ...synonyms]);
    const small = names.map((name) => name.toLowerCase());
    expect(small.filter((name, i) => small.indexOf(name) !== i)).toEqual([]);
  });

  // CAS numbers and names of the USGS National Water Information System, by the R
  // package inldata 1.2.5 (Fisher and others, 2024).
  test('agree with the names and numbers of the USGS analyses', () => {
    const file = new URL('../../fixtures/inl-southwest/raw/results.csv', import.meta.url);
    const rows = Papa.parse<{ casrn: string; srsname: string }>(readFileSync(file, 'utf8'), {
      header: true,
      skipEmptyLines: true,
    }).data;
    const theirs = new Map(rows.map(({ casrn, srsname }) => [srsname, casrn]));
    expect(theirs.size).toBeGreaterThan(80);
    const known = [...theirs].filter(([name]) => analyteNamed(name) !== null);
    expect(known.length).toBeGreaterThan(70);
    for (const [name, cas] of known) expect(analyteNamed(name)?.cas, name).toBe(cas);
    const numbered = [...theirs.values()].filter((cas) => analyteWithCas(cas) !== null);
    expect(numbered.length).toBeGreaterThan(80);
  });
});

describe('matching', () => {
  test('by CAS number where its check digit is right, whatever the name', () => {
    expect(analyteKey('79-01-6', 'Trichlorethene (lab spelling)')).toBe('79-01-6');
  });
  test('by a listed synonym where there is no CAS number', () => {
    expect(analyteKey(null, 'tce')).toBe('79-01-6');
    expect(analyteKey('', ' Trichloroethene ')).toBe('79-01-6');
  });
  test('a CAS number with a wrong check digit counts for nothing', () => {
    expect(analyteKey('79-01-5', 'Trichloroethene')).toBe('79-01-6');
  });
  test('nothing nearly alike is taken for it', () => {
    expect(analyteKey(null, 'Trichloroethan')).toBe('name:trichloroethan');
    expect(analyteKey(null, 'DCE')).toBe('name:dce');
  });
});

test('a wrong check digit, and a number that is another analyte’s, are problems with a place', () => {
  expect(analyteProblem('71-43-3', 'Benzene')).toMatchObject({ column: 'cas', found: '71-43-3' });
  expect(analyteProblem('108-88-3', 'Benzene')).toEqual({
    column: 'cas',
    expected: '71-43-2, the CAS number of Benzene',
    found: '108-88-3',
  });
  expect(analyteProblem('71-43-2', 'Benzene')).toBeNull();
  expect(analyteProblem(null, 'Something else')).toBeNull();
  expect(analyteProblem('7732-18-5', 'Something else')).toBeNull();
});
