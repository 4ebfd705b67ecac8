import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Site } from '../../../src/domain/site/site';
import { metres } from '../../../src/domain/units';
import type { GaugedScreen } from '../../../src/domain/water/event-heads';
import { placesTogether } from '../../../src/domain/water/nests';

/** A grid whose distances are those on the ground. */
const site = { grid: { combinedFactor: 1, convergence: null } } as unknown as Site;

const wellAt = (id: string, at: readonly [number, number] | null, screen: number) =>
  ({
    screen: { id: `${id} ${screen}` },
    location: { id, easting: at && { value: at[0] }, northing: at && { value: at[1] } },
  }) as unknown as GaugedScreen;

const names = (groups: readonly (readonly GaugedScreen[])[]) =>
  groups.map((group) => group.map(({ screen }) => screen.id));

/** Each screen against the first of every group before it, one by one. */
function oneByOne(screens: readonly GaugedScreen[], within: number): GaugedScreen[][] {
  const groups: GaugedScreen[][] = [];
  for (const one of screens) {
    const here = one.location;
    const group = groups.find(([first]) => {
      const there = first?.location;
      if (!there || there.id === here.id) return there !== undefined;
      if (!here.easting || !here.northing || !there.easting || !there.northing) return false;
      const east = here.easting.value - there.easting.value;
      return Math.hypot(east, here.northing.value - there.northing.value) <= within;
    });
    if (group) group.push(one);
    else groups.push([one]);
  }
  return groups;
}

test('screens stand together as if each were measured against the first of every place before it', () => {
  const coordinate = fc.double({ min: -20, max: 20, noNaN: true });
  const well = fc.record({
    name: fc.constantFrom('A', 'B', 'C', 'D', 'E', 'F'),
    at: fc.option(fc.tuple(coordinate, coordinate)),
  });
  fc.assert(
    fc.property(fc.array(well, { maxLength: 30 }), fc.constantFrom(1, 5), (wells, within) => {
      const screens = wells.map(({ name, at }, i) => wellAt(name, at, i));
      const found = placesTogether(site, screens, metres(within));
      expect(names(found)).toEqual(names(oneByOne(screens, within)));
    }),
  );
});

test('two wells exactly as far apart as the distance stand together, across a line between squares', () => {
  const pair = [wellAt('MW-1', [9.5, 0], 1), wellAt('MW-2', [14.5, 0], 2)];
  expect(placesTogether(site, pair, metres(5))).toHaveLength(1);
  const apart = [wellAt('MW-1', [9.5, 0], 1), wellAt('MW-2', [14.51, 0], 2)];
  expect(placesTogether(site, apart, metres(5))).toHaveLength(2);
});
