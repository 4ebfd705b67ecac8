import { describe, expect, test } from 'vitest';
import { seriesOf, yearsAt, type Series } from '../../../src/domain/lab/over-time';
import { timeChart } from '../../../src/domain/lab/time-chart';
import { siteFrom } from '../site-from';

const DAYS = ['2023-05-01', '2024-05-01', '2025-05-01'];

/** Results as `screen,event number,kind,cas,analyte,fraction,value,unit,qualifier,limit`. */
const seriesFrom = (
  rows: readonly string[],
  more: { readonly times?: Readonly<Record<string, string>>; readonly level?: string } = {},
): Series[] => {
  const parts = rows.map((row) => row.split(','));
  const sampleOf = ([screen, event, kind]: readonly string[]) => `${screen}.${event}.${kind}`;
  const samples = [...new Map(parts.map((part) => [sampleOf(part), part])).entries()];
  const site = siteFrom({
    locations: [
      'id,easting,northing,kind,status',
      ...['MW-2', 'MW-10', 'MW-1'].map((id) => `${id},0,0,monitoring well,installed`),
    ],
    screens: ['id,location', ...['MW-2', 'MW-10', 'MW-1'].map((id) => `${id},${id}`)],
    events: ['id,first_day,last_day', ...DAYS.map((day, i) => `E${i},${day},${day}`)],
    samples: [
      'id,screen,event,kind,time',
      ...samples.map(
        ([id, [screen = '', event = '', kind = '']]) =>
          `${id},${kind.endsWith('blank') ? '' : screen},E${event},${kind},${more.times?.[id] ?? ''}`,
      ),
    ],
    results: [
      'sample,cas,analyte,fraction,value,unit,lab_qualifier,reporting_limit',
      ...parts.map((part) => `${sampleOf(part)},${part.slice(3).join(',')}`),
    ],
    screening_levels: [
      'set,cas,analyte,value,unit',
      `One,71-43-2,Benzene,${more.level ?? '0.005,mg/L'}`,
    ],
  });
  return seriesOf(site, 'One');
};
const benzene = (screen: string, event: number, value: string, kind = 'field sample') =>
  `${screen},${event},${kind},71-43-2,Benzene,,${value}`;
const named = (all: readonly Series[]) => all.map(({ screen, analyte }) => `${screen} ${analyte}`);

describe('which results make a series', () => {
  test('field samples of one screen; neither blanks nor field duplicates are in it', () => {
    const found = seriesFrom([
      benzene('MW-1', 0, '5,µg/L,,1'),
      benzene('MW-1', 1, '4,µg/L,,1'),
      benzene('MW-1', 0, '9,µg/L,,1', 'trip blank'),
      benzene('MW-1', 1, '9,µg/L,,1', 'trip blank'),
      benzene('MW-1', 0, '6,µg/L,,1', 'field duplicate'),
      benzene('MW-2', 0, '6,µg/L,,1', 'field duplicate'),
      benzene('MW-2', 1, '6,µg/L,,1', 'field duplicate'),
    ]);
    expect(named(found)).toEqual(['MW-1 Benzene']);
    expect(found[0]?.points.map(({ value }) => value)).toEqual([5, 4]);
  });

  test('one event makes none, whatever the number of results', () => {
    expect(seriesFrom([benzene('MW-1', 0, '5,µg/L,,1'), benzene('MW-1', 0, '6,µg/L,,1')])).toEqual(
      [],
    );
  });

  test('dissolved and total are apart, and the dissolved is named so', () => {
    const metal = (event: number, fraction: string) =>
      `MW-1,${event},field sample,7440-38-2,Arsenic,${fraction},5,µg/L,,1`;
    const found = seriesFrom([
      metal(0, 'total'), metal(1, 'total'), metal(0, 'dissolved'), metal(1, 'dissolved'),
    ]); // prettier-ignore
    expect(named(found)).toEqual(['MW-1 Arsenic', 'MW-1 Arsenic, dissolved']);
  });

  test('those seen most come first, then the longest, then by the numbers in their names', () => {
    const found = seriesFrom([
      ...[0, 1].map((event) => benzene('MW-10', event, '5,µg/L,,1')),
      ...[0, 1].map((event) => benzene('MW-2', event, '5,µg/L,,1')),
      ...[0, 1, 2].map((event) => benzene('MW-1', event, '1,µg/L,U,1')),
      ...[0, 1, 2].map((event) => `MW-1,${event},field sample,108-88-3,Toluene,,${event < 2 ? '5,µg/L,,1' : '1,µg/L,U,1'}`),
      ...[0, 1].map((event) => `MW-2,${event},field sample,100-41-4,Ethylbenzene,,1,µg/L,U,1`),
      ...[0, 1].map((event) => `MW-2,${event},field sample,108-88-3,Toluene,,5,µg/L,,1`),
    ]); // prettier-ignore
    expect(named(found)).toEqual([
      'MW-1 Toluene', // two seen of three
      'MW-2 Benzene', // two of two
      'MW-2 Toluene',
      'MW-10 Benzene',
      'MW-1 Benzene', // none of three
      'MW-2 Ethylbenzene', // none of two
    ]);
  });
});

describe('the points of a series', () => {
  test('stand in the order of time, by the sample’s own day before its event’s', () => {
    const [series] = seriesFrom(
      [benzene('MW-1', 0, '5,µg/L,,1'), benzene('MW-1', 1, '4,µg/L,,1'), benzene('MW-1', 2, '3,µg/L,,1')],
      { times: { 'MW-1.0.field sample': '2026-01-15T14:30' } },
    ); // prettier-ignore
    expect(series?.points.map(({ day, value }) => [day, value])).toEqual([
      ['2024-05-01', 4],
      ['2025-05-01', 3],
      ['2026-01-15', 5],
    ]);
    // Noon of 1970-01-02 is a day and a half after its beginning.
    expect(yearsAt('1970-01-02T12:00')! * 365.25).toBeCloseTo(1.5, 9);
    expect(yearsAt('1970-01-02')! * 365.25).toBeCloseTo(1, 9);
  });

  test('over range is at least its number; a rejected one and one in another kind of unit have none', () => {
    for (const middle of ['6,µg/L,R,1', '4,µg/kg,,1']) {
      const [series] = seriesFrom([
        benzene('MW-1', 0, '>200,µg/L,,1'),
        benzene('MW-1', 1, middle),
        benzene('MW-1', 2, '3,µg/L,,1'),
      ]);
      expect(
        series?.points.map(({ value, detected, atLeast }) => [value, detected, atLeast]),
      ).toEqual([
        [200, true, true],
        [3, true, false],
      ]);
      expect(series?.without).toBe(1);
    }
  });

  test('a series without a single number is none', () => {
    expect(seriesFrom([benzene('MW-1', 0, ',µg/L,,'), benzene('MW-1', 1, ',µg/L,,')])).toEqual([]);
    expect(seriesFrom([benzene('MW-1', 0, '5,,,1'), benzene('MW-1', 1, '5,,,1')])).toEqual([]);
  });

  test('a level stands beside it in its unit, or not at all', () => {
    const two = [benzene('MW-1', 0, '5,µg/L,,1'), benzene('MW-1', 1, '4,µg/L,,1')];
    expect(seriesFrom(two)[0]?.level?.amount).toBe(5);
    expect(seriesFrom(two, { level: '5,mg/kg' })[0]?.level).toBeNull();
    expect(seriesFrom(two, { level: ',' })[0]?.level).toBeNull();
    const toluene = two.map((row) => row.replace('71-43-2,Benzene', '108-88-3,Toluene'));
    expect(seriesFrom(toluene)[0]?.level ?? null).toBeNull();
  });
});

describe('a chart of 400 by 200', () => {
  const point = (day: string, value: number, kind: '' | 'U' | '>' = '') => ({
    time: yearsAt(day)!,
    day,
    value,
    detected: kind !== 'U',
    atLeast: kind === '>',
    result: null as never,
  });
  const chart = (points: readonly ReturnType<typeof point>[], level: number | null = null) =>
    timeChart(
      {
        points,
        unit: 'µg/L',
        level: level === null ? null : { level: null as never, amount: level },
      },
      400,
      200,
    );
  const four = [
    point('2020-07-01', 3.7),
    point('2022-07-01', 25, 'U'),
    point('2023-07-01', 7, '>'),
    point('2024-07-01', 5),
  ];
  const found = chart(four, 40);

  test('the frame leaves room for the numbers at the left and the days below', () => {
    expect(found.frame).toEqual({ left: 52, top: 10, right: 388, bottom: 176 });
  });

  test('from nothing to a round number above all, the level included', () => {
    expect(found.yTicks.map(({ text }) => text)).toEqual(['0', '10', '20', '30', '40']);
    expect(found.yTicks[0]?.y).toBeCloseTo(176, 9);
    expect(found.yTicks.at(-1)?.y).toBeCloseTo(10, 9);
    expect(found.level).toBeCloseTo(10, 9);
    expect(found.marks[1]?.y).toBeCloseTo(176 - (25 / 40) * 166, 9);
    expect(chart(four).level).toBeNull();
    expect(chart(four).yTicks.at(-1)?.text).toBe('30');
    expect(chart([point('2020-07-01', 0.3), point('2021-07-01', 0.1)]).yTicks.map(({ text }) => text)).toEqual(
      ['0', '0.10', '0.20', '0.30'],
    ); // prettier-ignore
  });

  test('time runs evenly, with six parts of a hundred to spare at either end', () => {
    // 4 years and 0.06 of them at either side: 4.48 years over 336 px.
    const span = four[3]!.time - four[0]!.time;
    const perYear = 336 / (span * 1.12);
    expect(found.marks[0]?.x).toBeCloseTo(52 + 0.06 * span * perYear, 6);
    expect(found.marks[3]?.x).toBeCloseTo(388 - 0.06 * span * perYear, 6);
    const between = (four[1]!.time - four[0]!.time) * perYear;
    expect(found.marks[1]!.x - found.marks[0]!.x).toBeCloseTo(between, 6);
  });

  test('each mark says its day, its number and what it is', () => {
    expect(found.marks.map(({ kind, says }) => [kind, says])).toEqual([
      ['detected', '2020-07-01: 3.70 µg/L'],
      ['not detected', '2022-07-01: not detected, limit 25.0 µg/L'],
      ['at least', '2023-07-01: at least 7.00 µg/L'],
      ['detected', '2024-07-01: 5.00 µg/L'],
    ]);
  });

  test('a line only from one detection to the next: one alone has none', () => {
    expect(found.lines.map((line) => line.map(([x]) => x))).toEqual([
      [found.marks[2]?.x, found.marks[3]?.x],
    ]);
    expect(chart([point('2020-07-01', 3), point('2021-07-01', 3, 'U')]).lines).toEqual([]);
  });

  test('new years’ days are named; past six every second, third … of them', () => {
    expect(found.xTicks.map(({ text }) => text)).toEqual(['2021', '2022', '2023', '2024']);
    const long = (from: number, to: number) =>
      chart([point(`${from}-07-01`, 1), point(`${to}-07-01`, 2)]).xTicks.map(({ text }) => text);
    expect(long(2014, 2020)).toEqual(['2015', '2016', '2017', '2018', '2019', '2020']);
    expect(long(2013, 2020)).toEqual(['2014', '2016', '2018', '2020']);
    expect(long(2000, 2025)).toEqual(['2001', '2006', '2011', '2016', '2021']);
    const first = chart([point('2014-07-01', 1), point('2020-07-01', 2)]);
    const day =
      (first.xTicks[0]!.x - first.marks[0]!.x) / (first.xTicks[1]!.x - first.xTicks[0]!.x);
    expect(day).toBeCloseTo(184 / 365, 2); // 1 July to 1 January of a year
  });

  test('within a year the two ends are named by month, one day once', () => {
    const months = (...days: string[]) =>
      chart(days.map((day) => point(day, 1))).xTicks.map(({ text }) => text);
    expect(months('2024-03-10', '2024-09-20')).toEqual(['2024-03', '2024-09']);
    expect(months('2023-11-10', '2024-02-20')).toEqual(['2023-11', '2024-02']);
    expect(months('2023-11-10', '2025-02-20')).toEqual(['2024', '2025']);
    expect(months('2024-03-10')).toEqual(['2024-03']);
    const alone = chart([point('2024-03-10', 1)]);
    expect(alone.marks[0]?.x).toBeCloseTo((52 + 388) / 2, 6);
  });
});
