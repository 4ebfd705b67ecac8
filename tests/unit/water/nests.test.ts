import { describe, expect, test } from 'vitest';
import { metres, type Metres } from '../../../src/domain/units';
import { headsOf } from '../../../src/domain/water/event-heads';
import {
  nestsOf,
  verticalProblemWords,
  verticalText,
  verticalWords,
} from '../../../src/domain/water/nests';
import { verticalGradient, type NestScreen } from '../../../src/domain/water/vertical';
import type { Worked } from '../../../src/domain/work';
import { siteFrom } from '../site-from';

/**
 * Locations as `id,easting,northing`, screens as `id,location,depth of the tip,
 * zone,depth to water`, ten feet of screen under ground at 100 ft, marks at 102 ft.
 */
const nestsFrom = (
  locations: readonly string[],
  screens: readonly string[],
  grid: { combinedFactor?: number } = {},
) => {
  const parts = screens.map((line) => line.split(','));
  const site = siteFrom(
    {
      locations: [
        'id,easting,northing,ground_elevation,ground_how,kind,status',
        ...locations.map((line) => `${line},100,surveyed,monitoring well,installed`),
      ],
      screens: [
        'id,location,tip_depth,exposed_length,zone',
        ...parts.map(([id, at, tip, zone]) => `${id},${at},${tip},${tip ? 10 : ''},${zone}`),
      ],
      measuring_points: ['id,screen,elevation', ...parts.map(([id]) => `${id}-MP,${id},102`)],
      events: ['id,first_day,last_day', 'E1,2026-01-01,2026-01-02'],
      water_levels: [
        'screen,event,measuring_point,time,depth_to_water,status',
        ...parts.map(
          ([id, , , , dtw = '', status = 'static']) =>
            `${id},E1,${id}-MP,2026-01-01T10:00,${dtw},${status}`,
        ),
      ],
    },
    {},
    grid,
  );
  return nestsOf(site, headsOf(site, 'E1'));
};
const pairsOf = (nests: ReturnType<typeof nestsFrom>) =>
  nests.map(({ pairs }) =>
    pairs.map((pair) =>
      pair.ok ? `${pair.value.shallow.id} over ${pair.value.deep.id}` : pair.problem.kind,
    ),
  );

describe('which wells are read as a nest', () => {
  // 5 m is 16.404 ft: common practice, no source.
  test('16.4 ft apart they are one, 16.5 ft apart they are two wells', () => {
    const apart = (east: number, north: number) =>
      nestsFrom(
        ['A,1000,2000', `B,${1000 + east},${2000 + north}`],
        ['A,A,20,shallow,8', 'B,B,40,deep,9'],
      ).length;
    expect(apart(16.4, 0)).toBe(1);
    expect(apart(16.5, 0)).toBe(0);
    expect(apart(0, 16.4)).toBe(1);
    expect(apart(0, -16.5)).toBe(0);
    expect(apart(11, 12)).toBe(1); // 16.28 ft
    expect(apart(12, 12)).toBe(0); // 16.97 ft
  });

  test('wherever they stand in the grid, and whichever was read first', () => {
    // Either side of 984.25 ft, which is 300 m, and of the origin.
    for (const at of [984.25, 0, -984.25, 1_968_503.94])
      for (const [east, north] of [
        [5, 0],
        [0, 5],
        [5, 5],
        [5, -5],
      ] as const) {
        const two = [`A,${at - east},${at - north}`, `B,${at + east},${at + north}`];
        const screens = ['A,A,20,shallow,8', 'B,B,40,deep,9'];
        expect(nestsFrom(two, screens), `${at} ${east} ${north}`).toHaveLength(1);
        expect(nestsFrom(two, screens.toReversed()), `${at} ${east} ${north}`).toHaveLength(1);
      }
  });

  test('one near two others is read with the one that was read first', () => {
    const nests = nestsFrom(
      ['A,0,0', 'B,30,0', 'C,15,0'],
      ['B,B,20,shallow,8', 'A,A,20,shallow,8', 'C,C,40,deep,9'],
    );
    expect(nests.map(({ locations }) => locations)).toEqual([['B', 'C']]);
  });

  test('it is the distance on the ground that counts, not that in the grid', () => {
    // 16.0 grid feet at a combined factor of 0.97 are 16.49 ft on the ground.
    const nests = (combinedFactor: number) =>
      nestsFrom(['A,0,0', 'B,16,0'], ['A,A,20,shallow,8', 'B,B,40,deep,9'], { combinedFactor });
    expect(nests(1)).toHaveLength(1);
    expect(nests(0.97)).toHaveLength(0);
  });

  test('two screens of one location are a nest; without coordinates nothing is read', () => {
    const nests = nestsFrom(
      ['A,,', 'B,,'],
      ['A1,A,20,shallow,8', 'A2,A,40,deep,9', 'B,B,30,mid,8'],
    );
    expect(nests).toEqual([]);
    const placed = nestsFrom(['A,5,5'], ['A1,A,20,shallow,8', 'A2,A,40,deep,9']);
    expect(pairsOf(placed)).toEqual([['A1 over A2']]);
    expect(placed[0]?.locations).toEqual(['A']);
  });

  test('one screen alone is no nest', () => {
    expect(nestsFrom(['A,0,0', 'B,900,0'], ['A,A,20,shallow,8', 'B,B,40,deep,9'])).toEqual([]);
  });

  test('a dry screen and one still recovering are not read; one without a zone is', () => {
    const nests = nestsFrom(
      ['A,0,0'],
      ['A1,A,20,shallow,8', 'A2,A,40,deep,9,recovering', 'A3,A,60,,10', 'A4,A,80,deep,,dry'],
    );
    expect(pairsOf(nests)).toEqual([['A1 over A3']]);
  });

  test('a screen whose interval is not known is named, and takes part in no pair', () => {
    const [nest] = nestsFrom(['A,0,0'], ['A1,A,20,shallow,8', 'A2,A,,mid,9', 'A3,A,60,deep,10']);
    expect(nest?.withoutInterval).toEqual(['A2']);
    expect(pairsOf([nest!])).toEqual([['A1 over A3']]);
    const [whole] = nestsFrom(['A,0,0'], ['A1,A,20,shallow,8', 'A3,A,60,deep,10']);
    expect(whole?.withoutInterval).toEqual([]);
  });
});

const feet = (value: number, decimals = 2): Worked<Metres> => ({
  value: metres(value, 'ft'),
  work: {
    title: 'x',
    symbol: 'x',
    formula: 'x',
    terms: [],
    answer: { value: metres(value, 'ft'), dimension: 'length' },
    decimals,
  },
});
const screen = (id: string, top: number, base: number, head: number): NestScreen => ({
  id,
  top: feet(top),
  base: feet(base, 1),
  head: feet(head),
  sigma: metres(0.01, 'ft'),
});
const found = (...pair: [NestScreen, NestScreen]) => {
  const answer = verticalGradient(...pair);
  if (!answer.ok) throw new Error(answer.problem.kind);
  return answer.value;
};

describe('the sentence needs no sign', () => {
  const deep = screen('D', 60, 50, 90);

  test('down, up, and not to be told', () => {
    expect(verticalWords(found(screen('S', 80, 70, 91), deep))).toBe('Downward, from S to D.');
    expect(verticalWords(found(screen('S', 80, 70, 89), deep))).toBe('Upward, from D to S.');
    expect(verticalWords(found(screen('S', 80, 70, 90.01), deep))).toBe(
      'Up or down cannot be told at this precision.',
    );
    expect(found(screen('S', 80, 70, 90), deep).way).toBe('cannot be told at this precision');
  });

  test('the water standing in both screens, and screens that share depth, are said', () => {
    const words = verticalWords(found(screen('S', 95, 70, 91), screen('D', 92, 50, 90)));
    expect(words).toContain('The water stands in the screen of S and D');
    expect(words).toContain('share some depth');
    expect(verticalWords(found(screen('S', 95, 70, 91), deep))).not.toContain('share');
  });

  test.each([
    ['dry-screen', 'A and B: the water is at or below the base of the screen.'],
    ['no-error-stated', 'A and B: no error is stated for the head.'],
    ['screen-upside-down', 'A and B: the top of the screen is not above its base.'],
    ['same-depth', 'A and B: the middles of the screens are at one depth.'],
  ] as const)('%s', (kind, words) => {
    expect(verticalProblemWords({ kind, ids: ['A', 'B'] })).toBe(words);
  });

  test('1.96 of the standard error stands beside it, to two figures', () => {
    // 1 ft over 20 ft; √2 · 0.01 / 20 · 1.96 = 0.001386.
    expect(verticalText(found(screen('S', 80, 70, 91), deep))).toBe('0.0500 ± 0.0014');
  });
});

describe('how a vertical gradient was worked', () => {
  const value = found(screen('S', 95, 70, 91), screen('D', 60, 50, 90));
  const termsOf = ({ work }: Worked<number>) =>
    work.terms.map(({ symbol, name, dimension }) => [symbol, name, dimension]);

  test('heads and middles by name; the middle from its own two terms', () => {
    expect(termsOf(value.gradient)).toEqual([
      ['h1', 'head in S, the shallow screen', 'length'],
      ['h2', 'head in D, the deep screen', 'length'],
      ['z1', 'middle of S', 'length'],
      ['z2', 'middle of D', 'length'],
    ]);
    const [, , z1, z2] = value.gradient.work.terms;
    if (z1?.from.kind !== 'work' || z2?.from.kind !== 'work') throw new Error('a middle is worked');
    expect(z1.from.work.terms.map(({ symbol }) => symbol)).toEqual(['head', 'base']);
    expect(z2.from.work.terms.map(({ symbol }) => symbol)).toEqual(['top', 'base']);
    // Top to a hundredth and base to a tenth: the middle to a hundredth.
    expect(z2.from.work.decimals).toBe(2);
  });

  test('the error from the site’s setting', () => {
    expect(value.sigma.work.terms[0]?.from).toEqual({ kind: 'setting', name: 'error of a head' });
  });

  test('middles a hair over a centimetre apart have a distance, under it none', () => {
    const beside = (by: number) => verticalGradient(
      screen('S', 80, 70, 91),
      screen('D', 80 - by / 0.3048, 70 - by / 0.3048, 90),
    ).ok; // prettier-ignore
    expect(beside(0.0101)).toBe(true);
    expect(beside(0.0099)).toBe(false);
  });

  test('a screen of no length is upside down, and said so before anything else', () => {
    expect(verticalGradient(screen('S', 70, 70, 60), screen('D', 60, 50, 40))).toEqual({
      ok: false,
      problem: { kind: 'screen-upside-down', ids: ['S'] },
    });
  });
});
