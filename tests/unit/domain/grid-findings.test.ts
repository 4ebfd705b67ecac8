import { describe, expect, test } from 'vitest';
import { examine, findingsOf } from '../../../src/domain/findings/findings-of';
import type { LengthUnit } from '../../../src/domain/units';
import { openSite } from '../../../src/io/open-site';
import { bytesOf } from '../../../src/io/package/files';

/** A folder with points of an invented site in Texas South Central, its grid in survey feet. */
function siteOf(rows: readonly string[], unit: LengthUnit = 'us-ft', code = 'EPSG:2278') {
  const descriptor = {
    title: 'Points',
    downgradient: {
      format: 1,
      grid: { name: 'NAD83 / Texas South Central (ftUS)', code, projection: null, unit },
      verticalUnit: 'ft',
      verticalDatum: 'NAVD 88',
    },
  };
  const opened = openSite(
    new Map([
      ['datapackage.json', bytesOf(JSON.stringify(descriptor))],
      ['locations.csv', bytesOf(`${rows.join('\n')}\n`)],
    ]),
  );
  if (!opened.ok) throw new Error();
  return opened.value;
}

const HEAD = 'id,easting,northing,kind,status';
const points = (make: (e: number, n: number) => readonly [number, number]) => [
  HEAD,
  ...Array.from({ length: 6 }, (_, i) => {
    const [e, n] = make(3_121_116.09 + 100 * i, 13_841_180.57 + 60 * i);
    return `DP-${i + 1},${e.toFixed(2)},${n.toFixed(2)},monitoring well,installed`;
  }),
];

const doubts = (rows: readonly string[]) => {
  const { site, grid } = siteOf(rows);
  return findingsOf(examine(site, null, grid.covers)).map(({ says }) => says);
};

describe('the area the grid is meant for, in the findings', () => {
  test('points inside it raise no doubt', () =>
    expect(doubts(points((e, n) => [e, n]))).toEqual([]));

  test('easting and northing exchanged in every row', () => {
    expect(doubts(points((e, n) => [n, e]))).toEqual([
      'Easting and northing seem to be exchanged in every row.',
    ]);
  });

  test('metres in a grid of survey feet', () => {
    const metres = points((e, n) => [e * (1200 / 3937), n * (1200 / 3937)]);
    expect(doubts(metres)).toEqual([
      'The points lie in the area of the grid only if their numbers are in m and not in ftUS.',
    ]);
  });

  test('coordinates of another zone', () => {
    expect(doubts(points((e, n) => [e - 3_000_000, n - 9_000_000]))[0]).toBe(
      'All points lie outside the area the grid is meant for.',
    );
  });
});

describe('against a control point', () => {
  // 951,318.0872 m E, 4,218,800.2768 m N, in both feet; 2.000 ppm make 27.68 ft of this northing (85 FR 62698).
  const [e, n] = [951_318.0872, 4_218_800.2768];
  const inFeet = (foot: number) => [(e / foot).toFixed(3), (n / foot).toFixed(3)];
  const withControl = (table: readonly string[], known: readonly string[]) => [
    `${HEAD},control_easting,control_northing`,
    `CP-1,${table.join()},monitoring well,installed,${known.join()}`,
    ...points((east, north) => [east, north]).slice(1).map((row) => `${row},,`), // prettier-ignore
  ];

  test('survey feet taken for international feet: every point 28 ft off, said with both feet named', () => {
    const { site, grid } = siteOf(withControl(inFeet(0.3048), inFeet(1200 / 3937)));
    const finding = findingsOf(examine(site, null, grid.covers)).find(
      ({ rule }) => rule === 'control points',
    );
    expect(finding).toMatchObject({ severity: 'serious', who: ['CP-1'] });
    expect(finding?.says).toContain(
      'off by 2 parts per million, 28.4 ftUS here: they were turned from metres into international feet, and the control is in US survey feet.',
    );
  });

  test('a surveyed point on its control says nothing', () => {
    const { site } = siteOf(withControl(inFeet(1200 / 3937), inFeet(1200 / 3937)));
    expect(findingsOf(examine(site, null)).filter(({ rule }) => rule === 'control points')).toEqual(
      [],
    );
  });
});
