import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readAngle, readLngLat, type AngleKind } from '../../../src/io/projection/angles';

const lng = (text: string) => read(text, 'longitude');
const lat = (text: string) => read(text, 'latitude');
const read = (text: string, kind: AngleKind) => {
  const angle = readAngle(text, kind);
  return angle.ok ? angle.value : angle.problem.kind;
};

describe('one longitude or latitude', () => {
  const west = -(95 + 22 / 60);
  const north = 29 + 45 / 60 + 30 / 3600;

  test.each(['-95.3666666666667', '−95.3666666666667', '95.3666666666667 W', 'W95.3666666666667', '95°22′00″W', `95°22'00" W`, '95° 22.000′ W', 'W 95 22 00', '95:22:00 W', '95d22m00s W', '95 deg 22 min W', '95º22’00”w', '-95 22 00', `-95°22'00''`, '95°22 W', '95 22.0 W']) // prettier-ignore
  ('%s is 95.36667 west', (text) => expect(lng(text)).toBeCloseTo(west, 12));

  test.each([
    '29.7583333333333',
    '+29.7583333333333',
    '29°45′30″N',
    'N29°45′30″',
    '29 45 30',
    '29 45 30 n',
    '29°45.5′',
    '29d45m30s',
    '29:45:30',
  ])(
    // prettier-ignore
    '%s is 29.75833 north',
    (text) => expect(lat(text)).toBeCloseTo(north, 12),
  );

  test('south and west of zero keep their sign: −0°30′00″', () => {
    expect(lat('-0 30 00')).toBe(-0.5);
    expect(lat('0°30′00″S')).toBe(-0.5);
    expect(lng('0.5 W')).toBe(-0.5);
    expect(Object.is(lat('0 S'), 0)).toBe(true);
  });

  test('29d45m30s ends in seconds, 29d45m30s S in south', () => {
    expect(lat('29d45m30s')).toBeCloseTo(north, 12);
    expect(lat('29d45m30s S')).toBeCloseTo(-north, 12);
  });

  test.each([
    ['a blank', '  ', 'blank'],
    ['a word', 'north', 'not-an-angle'],
    ['minutes beyond 60', '95 61 00', 'not-an-angle'],
    ['seconds of 60', '95 22 60', 'not-an-angle'],
    ['minutes after decimal degrees', '95.5 22 00', 'not-an-angle'],
    ['seconds after decimal minutes', '95 22.5 10', 'not-an-angle'],
    ['digits run together', '0952200', 'packed'],
    ['two bare numbers', '95 22', 'ambiguous'],
    ['a decimal comma, or two cells', '95,3667', 'ambiguous'],
    ['O for ouest, oeste or Ost', '95°22′O', 'ambiguous'],
    ['a minus sign with W', '-95.5 W', 'sign-and-letter'],
    ['a latitude among longitudes', '29.75 N', 'wrong-hemisphere'],
    ['beyond the globe', '195.4', 'out-of-range'],
    ['four numbers', '95 22 00 00', 'not-an-angle'],
    ['letters on both sides', 'W 95 22 00 W', 'not-an-angle'],
    ['an exponent', '9e1', 'not-an-angle'],
  ])('%s is refused: %s', (_, text, kind) => expect(lng(text)).toBe(kind));

  test('a latitude beyond 90 is refused', () => expect(lat('95.4')).toBe('out-of-range'));

  test('the refusal carries the parts of its sentence', () => {
    const angle = readAngle(' 95,3667 ', 'longitude');
    expect(angle.ok ? null : angle.problem).toEqual({
      kind: 'ambiguous',
      expected: 'a longitude such as −95.36667 or 95°22′00″ W',
      found: '95,3667',
    });
  });

  test('any angle written in degrees, minutes and seconds comes back', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 179 }),
        fc.integer({ min: 0, max: 59 }),
        fc.integer({ min: 0, max: 59_999 }),
        fc.boolean(),
        (d, m, thousandths, negative) => {
          const s = (thousandths / 1000).toFixed(3);
          const value = (negative ? -1 : 1) * (d + m / 60 + Number(s) / 3600);
          for (const text of [
            `${d}°${m}′${s}″${negative ? 'W' : 'E'}`,
            `${negative ? '-' : ''}${d} ${m} ${s}`,
          ])
            expect(lng(text)).toBeCloseTo(value, 11);
        },
      ),
    );
  });

  test('a cell of a megabyte is refused at once', () => {
    for (const text of [' '.repeat(5e5) + '1' + ' '.repeat(5e5) + 'x', '1'.repeat(1e6)]) {
      const begun = performance.now();
      expect(lng(text)).toBe('not-an-angle');
      expect(readLngLat(text).ok).toBe(false);
      expect(performance.now() - begun).toBeLessThan(500);
    }
  });

  test('whatever is typed, an angle within the globe or a problem comes back', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.stringMatching(/^[-+NSEWO0-9.,:°'"dms ]{0,16}$/)),
        (text) => {
          const angle = readAngle(text, 'latitude');
          if (angle.ok) expect(Math.abs(angle.value)).toBeLessThanOrEqual(90);
        },
      ),
      { numRuns: 3000 },
    );
  });
});

describe('two angles in one text', () => {
  const pair = (text: string) => {
    const place = readLngLat(text);
    return place.ok ? place.value.map((x) => Number(x.toFixed(6))) : place.problem.kind;
  };
  const here = [-95.366667, 29.758333];

  test.each([
    '29°45′30″N 95°22′00″W',
    '29°45′30″N, 95°22′00″W',
    'N29 45 30 W95 22 00',
    '95°22′00″W 29°45′30″N',
    '29.758333, -95.366667',
    '-95.366667 29.758333',
    '29.758333N95.366667W',
    'N 29.758333; W 95.366667',
  ])(
    // prettier-ignore
    '%s',
    (text) => expect(pair(text)).toEqual(here),
  );

  test.each([
    ['two small numbers could be either way round', '48.137, 11.575', 'order-unknown'],
    ['a number that is neither', '195.1, 48.1', 'out-of-range'],
    ['two latitudes', '29 N, 30 N', 'not-an-angle'],
    ['one number', '29.75', 'not-an-angle'],
    ['three numbers', '29.75, 95.3, 12', 'not-an-angle'],
    ['nothing', '', 'blank'],
  ])('%s', (_, text, kind) => expect(pair(text)).toBe(kind));
});
