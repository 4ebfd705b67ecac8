import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { headsOf } from '../../../src/domain/water/event-heads';
import { flowOf } from '../../../src/domain/water/flow';
import { featureItems } from '../../../src/map/scene/from-features';
import { flowItems } from '../../../src/map/scene/from-flow';
import { headItems } from '../../../src/map/scene/from-heads';
import { locationItems } from '../../../src/map/scene/from-locations';
import { verdictItems } from '../../../src/map/scene/from-verdicts';
import { legendOf, SWATCH } from '../../../src/map/scene/legend';
import { LAYERS } from '../../../src/map/scene/layers';
import { placesOf, type Item, type Scene } from '../../../src/map/scene/scene';
import { SYMBOL_NAMES } from '../../../src/map/scene/symbols';
import { demoSite } from './site';

const { site } = demoSite('osier-bend');
const scene: Scene = [
  ...site.features.flatMap((feature) => featureItems(feature, 'us-ft')),
  ...[...site.locations.values()].flatMap((location) => locationItems(location)),
  ...headItems(headsOf(site, '2025-09'), 'ft'),
  ...flowItems(flowOf(site, '2025-09', 'shallow')),
];
const meanings = (of: Scene) => legendOf(of).map(({ means }) => means);

describe('the legend', () => {
  test('has what is drawn, each meaning once', () => {
    const all = meanings(scene);
    expect(new Set(all).size).toBe(all.length);
    for (const item of scene) if (item.means) expect(all).toContain(item.means);
  });

  test('has nothing that is not drawn', () => {
    expect(meanings(scene)).toContain('Direction of flow');
    const without = scene.filter(({ kind }) => kind !== 'arrow' && kind !== 'fan');
    expect(meanings(without)).not.toContain('Direction of flow');
    expect(meanings([])).toEqual([]);
  });

  test('names verdicts in their own order, whatever order they are drawn in', () => {
    const marks = verdictItems([
      { who: 'a', at: [0, 0], verdicts: ['no-result', 'cannot-tell', 'exceeds'] },
    ]);
    expect(meanings(marks)).toEqual(['Exceeds', 'Limit exceeds level (cannot tell)', 'No result']);
  });

  test('is in the order of the layers, the top one first, however the drawing is shuffled', () => {
    const rank = (item: Item) => (item.kind === 'symbol' ? SYMBOL_NAMES.indexOf(item.shape) : 0);
    fc.assert(
      fc.property(fc.shuffledSubarray([...scene]), (some) => {
        const drawn = LAYERS.toReversed().flatMap((layer) =>
          some.filter((item) => item.layer === layer).toSorted((a, b) => rank(a) - rank(b)),
        );
        const expected = [...new Set(drawn.flatMap(({ means }) => means ?? []))];
        expect(meanings(some)).toEqual(expected);
      }),
      { numRuns: 30 },
    );
  });

  test('draws an area with its edge as one sample', () => {
    const building = legendOf(scene).find(({ means }) => means === 'Building');
    expect(building?.sample.map(({ kind }) => kind).toSorted()).toEqual(['area', 'line']);
  });

  test('samples stand in their swatch, and cannot be clicked', () => {
    for (const { sample } of legendOf(scene))
      for (const item of sample) {
        expect(item.who).toBeUndefined();
        if (item.kind === 'fan') continue; // its places are the circle it is cut from
        for (const [e, n] of placesOf(item)) {
          expect(e).toBeGreaterThanOrEqual(0);
          expect(e).toBeLessThanOrEqual(SWATCH.width);
          expect(n).toBeGreaterThanOrEqual(0);
          expect(n).toBeLessThanOrEqual(SWATCH.height);
        }
      }
  });
});
