/** Which points of a section are named, where there is not room for all. */
import { expect, test } from 'vitest';
import { metres } from '../../../src/domain/units';
import { headsOf } from '../../../src/domain/water/event-heads';
import { flowOf } from '../../../src/domain/water/flow';
import { headUnder, sectionLines, sectionOf } from '../../../src/domain/water/section';
import { nameRank, namesThatFit } from '../../../src/ui/section/section-scale';
import { openFolder } from '../folder';

const { site } = openFolder('demo-sites/osier-bend');
const [first] = sectionLines(site);
const heads = headsOf(site, '2026-09');
const section =
  first &&
  sectionOf(
    site,
    first.line,
    metres(50, 'us-ft'),
    heads,
    headUnder(site, flowOf(site, '2026-09', 'shallow', heads)),
    new Map(),
  );
if (!section) throw new Error('Osier Bend has a section.');

/** On a sheet beside the map, two px to three metres. */
const named = (selected: string | null) =>
  namesThatFit(
    section.columns,
    ({ at }) => at / 1.5,
    14,
    (column) => nameRank(column, selected),
  ).map(({ location }) => location.id);

test('of a nest the well that is open higher up, and gauged, is named', () => {
  expect(named(null)).toContain('MW-1');
  expect(named(null)).not.toContain('PZ-1D');
});

test('the chosen point is named whatever stands beside it', () => {
  expect(named('PZ-1D')).toContain('PZ-1D');
  expect(named('PZ-1D')).not.toContain('MW-1');
});

test('names stand from left to right, none on another', () => {
  const places = section.columns
    .filter(({ location }) => named(null).includes(location.id))
    .map(({ at }) => at / 1.5);
  expect(places.length).toBeGreaterThan(3);
  places.slice(1).forEach((at, i) => expect(at - (places[i] ?? 0)).toBeGreaterThanOrEqual(14));
});
