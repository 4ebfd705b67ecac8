import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  inWalkingOrder,
  nameBy,
  namesFor,
  readPattern,
  type Pattern,
  type ToName,
} from '../../../src/domain/layout/numbering';

const WORDS = ['number', 'row', 'column', 'transect', 'station', 'location', 'top', 'day'];

const pattern = (text: string): Pattern => {
  const read = readPattern(text, WORDS);
  if (!read.ok) throw new Error(JSON.stringify(read.problem));
  return read.value;
};

const fresh = (counts: Record<string, number> = {}): ToName => ({
  name: null,
  keepsName: false,
  counts,
});
const pushed = (name: string): ToName => ({ name, keepsName: true, counts: {} });
const names = (points: readonly ToName[], text: string, taken?: string[]) =>
  namesFor(points, pattern(text), taken);

describe('a pattern and the names it gives', () => {
  test.each([
    ['DP-[number 01]', 1, 'DP-01'],
    ['DP-[number 01]', 99, 'DP-99'],
    ['DP-[number 01]', 100, 'DP-100'],
    ['DP-[number 101]', 3, 'DP-103'],
    ['[number a]', 2, 'b'],
    ['[number A]', 26, 'Z'],
    ['[number A]', 27, 'AA'],
    ['[number A]', 702, 'ZZ'],
    ['[number A]', 703, 'AAA'],
    ['[number C]', 2, 'D'],
    ['[number]', 7, '7'],
    ['[ number  01 ] east', 5, '05 east'],
  ])('%s, number %i: %s', (text, number, name) => {
    expect(nameBy(pattern(text), { number })).toBe(name);
  });

  test('rows by letter and columns by number', () => {
    expect(nameBy(pattern('[row A][column 1]'), { row: 2, column: 11 })).toBe('B11');
  });

  test('a sample is named for its location, interval and day', () => {
    expect(
      nameBy(pattern('[location]-[top]-[day]'), { location: 'DP-03', top: '8', day: '20260531' }),
    ).toBe('DP-03-8-20260531');
  });

  test('a word that is not told, or blank, gives no name', () => {
    expect(nameBy(pattern('[location]-[top]'), { location: 'DP-03' })).toBeNull();
    expect(nameBy(pattern('[location]-[top]'), { location: 'DP-03', top: '' })).toBeNull();
    expect(
      nameBy(pattern('[row A]'), Object.create({ row: 1 }) as Record<string, number>),
    ).toBeNull();
  });

  test.each([
    ['DP-[number 01', 'unclosed', 4],
    ['DP-[no 01]', 'unknown-word', 4],
    ['[]', 'unknown-word', 1],
    ['[constructor]', 'unknown-word', 1],
    ['[number 0 1]', 'unreadable-example', 1],
    ['[number AB]', 'unreadable-example', 1],
    ['[number -1]', 'unreadable-example', 1],
    ['', 'empty', 1],
  ])('“%s” is refused: %s at character %i', (text, kind, at) => {
    expect(readPattern(text, WORDS)).toMatchObject({
      ok: false,
      problem: { kind, at, words: WORDS },
    });
  });
});

describe('renumbering', () => {
  test('pushed points keep their names and the numbers step over them', () => {
    expect(names([fresh(), pushed('DP-02'), fresh(), fresh()], 'DP-[number 01]')).toEqual({
      ok: true,
      value: ['DP-01', 'DP-02', 'DP-03', 'DP-04'],
    });
    expect(names([fresh(), fresh(), pushed('dp-1')], 'DP-[number 1]')).toEqual({
      ok: true,
      value: ['DP-2', 'DP-3', 'dp-1'],
    });
  });

  test('names in use elsewhere on the site are stepped over too', () => {
    expect(names([fresh(), fresh()], 'DP-[number 1]', ['DP-1', 'MW-1'])).toEqual({
      ok: true,
      value: ['DP-2', 'DP-3'],
    });
  });

  test('a pattern that gives two points one name is refused', () => {
    expect(names([fresh({ row: 1 }), fresh({ row: 1 })], 'R[row 1]')).toEqual({
      ok: false,
      problem: { kind: 'name-twice', name: 'R1' },
    });
    expect(names([pushed('R1'), fresh({ row: 1 })], 'R[row 1]').ok).toBe(false);
  });

  test('a pattern that asks what the layout has not is refused, naming the point', () => {
    expect(names([fresh({ row: 1 }), fresh()], '[row 1]')).toEqual({
      ok: false,
      problem: { kind: 'not-told', point: 1 },
    });
  });

  test('whatever was pushed, every point has one name of its own', () => {
    const point = fc.oneof(
      fc.constant(fresh()),
      fc.integer({ min: 1, max: 30 }).map((n) => pushed(`DP-${n}`)),
    );
    const points = fc.uniqueArray(point, {
      comparator: (a, b) => a.name !== null && a.name === b.name,
      maxLength: 25,
    });
    fc.assert(
      fc.property(points, (all) => {
        const named = names(all, 'DP-[number 1]');
        const given = named.ok ? named.value : [];
        expect(new Set(given).size).toBe(all.length);
        all.forEach(({ name, keepsName }, i) => {
          if (keepsName) expect(given[i]).toBe(name);
        });
      }),
    );
  });
});

describe('the order points are walked in', () => {
  const points = [1, 2, 3].flatMap((row) =>
    [1, 2, 3].map((column) => ({ counts: { row, column } })),
  );
  const walked = (order: Parameters<typeof inWalkingOrder>[1]) =>
    inWalkingOrder([...points].reverse(), order).map(
      ({ counts }) => `${counts.row}${counts.column}`,
    );

  test('row by row', () => {
    expect(walked('row by row').join(' ')).toBe('11 12 13 21 22 23 31 32 33');
  });

  test('back and forth', () => {
    expect(walked('back and forth').join(' ')).toBe('11 12 13 23 22 21 31 32 33');
  });

  test('transects by station', () => {
    const stations = [3, 1, 2].map((station) => ({ counts: { transect: 1, station } }));
    expect(inWalkingOrder(stations, 'row by row').map(({ counts }) => counts.station)).toEqual([
      1, 2, 3,
    ]);
  });
});
