import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { VERDICTS } from '../../../src/domain/lab/verdict';
import type { Feature, Location } from '../../../src/domain/site/schema';
import { inUnits, metres } from '../../../src/domain/units';
import { headsOf } from '../../../src/domain/water/event-heads';
import { flowOf, type Flow } from '../../../src/domain/water/flow';
import { featureItems } from '../../../src/map/scene/from-features';
import { directionDoubt } from '../../../src/domain/show';
import { flowItems, flowWords, residualItems } from '../../../src/map/scene/from-flow';
import { headItems } from '../../../src/map/scene/from-heads';
import { locationItems, placeOf, pointsExtent } from '../../../src/map/scene/from-locations';
import { constructionItems, type Construction } from '../../../src/map/scene/from-three-points';
import { verdictItems } from '../../../src/map/scene/from-verdicts';
import { azimuthTo } from '../../../src/map/scene/plain';
import type { Item, Place } from '../../../src/map/scene/scene';
import { demoSite } from './site';

const { site } = demoSite('osier-bend');
const quellmoor = demoSite('quellmoor').site;

const expectedOf = (name: string) =>
  JSON.parse(
    readFileSync(new URL(`../../../demo-sites/${name}/expected.json`, import.meta.url), 'utf8'),
  ) as { flow: { event: string; zone: string; azimuthGrid: number | null; resolved: boolean }[] };

const location = (id: string): Location => {
  const found = site.locations.get(id);
  if (!found) throw new Error(id);
  return found;
};
const kindOf = <Kind extends Item['kind']>(items: readonly Item[], kind: Kind) =>
  items.filter((item): item is Extract<Item, { kind: Kind }> => item.kind === kind);

describe('points', () => {
  test('a point is drawn by what it is and how far it has got', () => {
    const [well] = kindOf(locationItems(location('MW-1')), 'symbol');
    const [push] = kindOf(locationItems(location('DP-16')), 'symbol');
    expect(well).toMatchObject({
      shape: 'monitoring well, installed',
      means: 'Monitoring well, installed',
    });
    expect(push).toMatchObject({ shape: 'direct push, refused', who: 'DP-16' });
  });

  test('a planned point stands where it is staked', () => {
    const at = placeOf(location('DP-30'));
    expect(inUnits((at?.[0] ?? 0) as never, 'us-ft')).toBeCloseTo(489_500, 6);
    expect(kindOf(locationItems(location('DP-30')), 'line')).toEqual([]);
  });

  test('DP-14, moved 10.6 ft off the water main, has a line from its stake; DP-02, pushed at it, has none', () => {
    const [line] = kindOf(locationItems(location('DP-14')), 'line');
    const [[e0, n0] = [0, 0], [e1, n1] = [0, 0]] = line?.path ?? [];
    expect(inUnits(Math.hypot(e1 - e0, n1 - n0) as never, 'us-ft')).toBeCloseTo(10.6, 0);
    expect(kindOf(locationItems(location('DP-02')), 'line')).toEqual([]);
  });

  test('one point a hundred kilometres off does not make the rest a dot', () => {
    const near = [...site.locations.values()].flatMap((one) => {
      const at = placeOf(one);
      return at ? [at] : [];
    });
    const [e = 0, n = 0] = near[0] ?? [];
    const far: Place = [e + 100_000, n];
    expect(pointsExtent([...near, far])).toEqual(pointsExtent(near));
    expect(pointsExtent([])).toBeNull();
  });
});

describe('posted heads, September 2025', () => {
  const heads = headsOf(site, '2025-09');
  const items = headItems(heads, 'ft');
  const at = (who: string) => items.filter((item) => item.who === who);

  test('a well that counts has its head as worked by hand, marked as a well', () => {
    expect(at('MW-1')).toMatchObject([{ text: '960.53', mark: 'level, well', face: 'semibold' }]);
  });

  test('a push point’s level is in brackets, under its own mark, apart from the wells', () => {
    for (const item of at('DP-01'))
      expect(item).toMatchObject({ text: expect.stringMatching(/^\(/), mark: 'level, temporary' });
  });

  test('a dry screen says dry, and no number stands for it', () => {
    expect(at('DP-07')[0]?.text.split('\n')[0]).toBe('dry');
  });

  test('a pumped well is posted too, as not counted, to the tenth it was read to', () => {
    expect(at('SW-1')).toMatchObject([{ text: '(953.5)', mark: 'level, left out' }]);
  });

  test('the reading a decision excludes in March 2026 stays on the map, as not counted', () => {
    const march = headItems(headsOf(site, '2026-03'), 'ft').filter(({ who }) => who === 'PZ-8');
    expect(march).toMatchObject([{ mark: 'level, left out' }]);
    expect(march[0]?.text).toMatch(/^\(\d+\.\d\d\)$/);
  });

  test('screens of one point stand one under the other', () => {
    expect(at('DP-05')[0]?.text.split('\n').length).toBeGreaterThan(1);
  });
});

describe('the arrow', () => {
  // Azimuths worked by hand in the demos' README.
  test.each(
    expectedOf('osier-bend')
      .flow.filter(({ resolved }) => resolved)
      .map(({ event, zone, azimuthGrid }) => [event, zone, azimuthGrid] as const),
  )('of %s, %s zone, points to the azimuth worked by hand, %d°', (event, zone, azimuth) => {
    const [arrow] = kindOf(flowItems(flowOf(site, event, zone)), 'arrow');
    const drawn = arrow ? azimuthTo(arrow.tail, arrow.head) : NaN;
    expect((drawn + 360) % 360).toBeCloseTo(azimuth ?? NaN, 1);
  });

  test('moves when another event is chosen', () => {
    const of = (event: string) =>
      kindOf(flowItems(flowOf(site, event, 'shallow')), 'arrow')[0]?.head;
    expect(of('2025-09')).not.toEqual(of('2026-03'));
  });

  test('there is none, nor a fan, where wells in a line cannot tell the direction', () => {
    const flow = flowOf(quellmoor, '2025-10', 'sand');
    expect(flow.resolved).toBe(false);
    expect(flowItems(flow)).toEqual([]);
  });

  test('one more well, and there it is, with its fan', () => {
    const items = flowItems(flowOf(quellmoor, '2026-05', 'sand'));
    expect(items.map(({ kind }) => kind)).toEqual(['fan', 'arrow', 'text']);
  });

  test('says its direction with its doubt and from which north, and the gradient', () => {
    const flow = flowOf(site, '2025-09', 'shallow');
    expect(flowWords(flow)).toBe(
      `112° ${directionDoubt(flow.azimuthHalfWidth ?? NaN)} grid\ngradient 0.00399`,
    );
  });

  test('residuals stand up from wells above the plane and hang from those below', () => {
    const flow = flowOf(site, '2025-09', 'shallow');
    const bars = residualItems(flow, 'ft');
    expect(bars).toHaveLength(9);
    const longest = Math.max(
      ...flow.fitted.map(({ residual }) => Math.abs(inUnits(residual, 'ft'))),
    );
    expect(bars[0]?.means).toMatch(
      `Head above or below the plane, the longest ${longest.toFixed(3)} ft; a head’s standard error `,
    );
    for (const [i, { height }] of bars.entries())
      expect(Math.sign(height)).toBe(Math.sign(flow.fitted[i]?.residual ?? 0));
  });

  test('a bar is whole at one standard error of a head, or at the longest where that is more', () => {
    const longestBar = (flow: Flow) =>
      Math.max(...residualItems(flow, 'ft').map(({ height }) => Math.abs(height)));
    const flow = flowOf(site, '2025-09', 'shallow');
    const largest = Math.max(...flow.fitted.map(({ residual }) => Math.abs(residual)));
    const sigma = Math.max(...flow.fitted.map(({ gauged }) => gauged.sigma));
    const times = (by: number) =>
      flow.fitted.map((one) => ({ ...one, residual: metres(by * one.residual) }));
    const small = (0.1 * sigma) / largest;
    expect(longestBar({ ...flow, fitted: times(small) })).toBeCloseTo(4.4, 9);
    expect(longestBar({ ...flow, fitted: times(10) })).toBeCloseTo(44, 9);
  });

  test('its head keeps off the wells it would lie under: a twelfth of the way to the farthest', () => {
    for (const event of ['2025-09', '2026-03', '2026-09']) {
      const flow = flowOf(site, event, 'shallow');
      const wells = flow.gauged.flatMap(({ location }) => {
        const at = placeOf(location);
        return at ? [at] : [];
      });
      const [arrow] = kindOf(flowItems(flow, wells), 'arrow');
      const reach = Math.max(...flow.fitted.map(({ x, y }) => Math.hypot(x, y)));
      for (const { location } of flow.gauged) {
        const { easting, northing } = location;
        if (!arrow || !easting || !northing) continue;
        const [east, north] = arrow.head;
        expect(Math.hypot(easting.value - east, northing.value - north)).toBeGreaterThan(reach / 12); // prettier-ignore
      }
    }
  });
});

describe('verdict marks', () => {
  const place: Place = [100, 200];

  test('three screens have three marks, the shallowest on top', () => {
    const marks = verdictItems([
      { who: 'DP-05', at: place, verdicts: ['not-detected', 'exceeds', 'cannot-tell'] },
    ]);
    expect(marks.map(({ shape }) => shape)).toEqual([
      'verdict not-detected',
      'verdict exceeds',
      'verdict cannot-tell',
    ]);
    const downs = marks.map(({ offset }) => offset?.[1] ?? NaN);
    expect(downs[0]).toBeLessThan(downs[1] ?? NaN);
    expect(downs[1]).toBeLessThan(downs[2] ?? NaN);
  });

  test('marks of one stack do not touch', () => {
    const [first, second] = verdictItems([
      { who: 'DP-05', at: place, verdicts: ['exceeds', 'exceeds'] },
    ]);
    const apart = (second?.offset?.[1] ?? 0) - (first?.offset?.[1] ?? 0);
    expect(apart).toBeGreaterThanOrEqual(first?.size ?? Infinity);
  });

  test('every verdict can be drawn and says what it means', () => {
    const marks = verdictItems(
      VERDICTS.map((verdict) => ({ who: verdict, at: place, verdicts: [verdict] })),
    );
    expect(marks.map(({ means }) => means)).toContain('Limit exceeds level (cannot tell)');
    expect(new Set(marks.map(({ means }) => means)).size).toBe(9);
  });
});

describe('features', () => {
  const feature = (id: string): Feature => {
    const found = site.features.find((one) => one.id === id);
    if (!found) throw new Error(id);
    return found;
  };
  const items = (id: string) => featureItems(feature(id), 'us-ft');

  test('a building is an area, with its edge and its name', () => {
    expect(items('BL-1').map(({ kind }) => kind)).toEqual(['area', 'line', 'text']);
    expect(kindOf(items('BL-1'), 'text')[0]?.text).toBe('Workshop');
  });

  test('a gas main has the strip to keep clear of: half its width and its buffer', () => {
    const [strip] = kindOf(items('U-1'), 'area');
    const norths = strip?.polygons.flat(2).map(([, n]) => inUnits(n as never, 'us-ft')) ?? [];
    // 0.5 ft wide, 5 ft buffer: 10.5 ft across, on a line that rises 14 ft.
    expect(Math.max(...norths) - Math.min(...norths)).toBeCloseTo(14 + 2 * 5.25, 1);
  });

  test('a line of section has a letter at each end', () => {
    expect(kindOf(items('SEC-A'), 'text').map(({ text }) => text)).toEqual(['A', 'A′']);
  });

  test('a stream with a width is an area of water', () => {
    expect(kindOf(items('SWT-1'), 'area')[0]).toMatchObject({ fill: 'water-wash' });
  });

  test('a shape that cannot be read draws nothing', () => {
    expect(featureItems({ ...feature('BL-1'), shape: 'POLYGON ((1 2, 3' }, 'us-ft')).toEqual([]);
  });

  test('only what is water is blue, and nothing drawn is the colour of an exceedance', () => {
    for (const one of site.features)
      for (const item of featureItems(one, 'us-ft')) {
        const colour = 'colour' in item ? item.colour : null;
        expect(colour).not.toBe('signal');
        if (colour === 'water') expect(['surface water', 'no-flow line']).toContain(one.kind);
      }
  });
});

describe('the three-point construction', () => {
  const construction: Construction = {
    high: { who: '1', at: [0, 0], head: '26.26' },
    middle: { who: '2', at: [118.49, 114.83], head: '26.20' },
    low: { who: '3', at: [215, 0], head: '26.07' },
    interpolated: [67.895, 0],
    along: '67.9 m',
    foot: [115.1, 91.0],
    distance: '134.6 m',
  };

  test('is drawn step by step, each step on top of those before', () => {
    const counts = [0, 1, 2, 3, 4].map((step) => constructionItems(construction, step).length);
    expect(counts[0]).toBe(0);
    expect(counts.toSorted((a, b) => a - b)).toEqual(counts);
    expect(new Set(counts).size).toBe(5);
    for (const step of [1, 2, 3])
      expect(constructionItems(construction, step + 1).slice(0, counts[step])).toEqual(
        constructionItems(construction, step),
      );
  });

  test('the arrow comes with the last step and goes down to the low well', () => {
    expect(kindOf(constructionItems(construction, 3), 'arrow')).toEqual([]);
    const [arrow] = kindOf(constructionItems(construction, 4), 'arrow');
    const { foot, low } = construction;
    expect(arrow && azimuthTo(arrow.tail, arrow.head)).toBeCloseTo(azimuthTo(foot, low.at), 9);
  });
});
