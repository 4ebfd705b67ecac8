import { describe, expect, test } from 'vitest';
import { examine, findingsOf } from '../../../src/domain/findings/findings-of';
import { flowAt } from '../../../src/domain/findings/history';
import { withCell } from '../../../src/domain/site/table';
import { flowPoints } from '../../../src/domain/water/flow-points';
import { leaveOneOut } from '../../../src/domain/water/leave-one-out';
import { demoSites, inlSite } from '../../faults/sites';
import { ofRule, one } from './a-site';

const [osier, quellmoor] = demoSites() as [ReturnType<typeof inlSite>, ReturnType<typeof inlSite>];
const inl = inlSite();
const at = ({ site }: typeof osier, event: string) => findingsOf(examine(site, event));
const about = (all: ReturnType<typeof at>, severity?: string) =>
  all.filter((f) => severity === undefined || f.severity === severity).map((f) => f.about);

describe('the demo sites as they are', () => {
  test('nothing is serious at any event of any site', () => {
    for (const place of [osier, quellmoor, inl])
      for (const event of place.site.events.keys())
        expect(about(at(place, event), 'serious'), `${place.name} ${event}`).toEqual([]);
  });

  // demo-sites/osier-bend/README.md tells these of the first event.
  test('Osier Bend, September 2025: what its README says is there to be found', () => {
    const all = at(osier, '2025-09');
    expect(about(all, 'caution')).toEqual([
      'sounded depth: DP-18-S2',
      'not at rest: PZ-5D @ 2025-09',
      'not surveyed: DP-23-S1 @ 2025-09',
      'duplicate disagrees: DP-17-S2-2509-DUP @ 2025-09',
      'receipt temperature: 2025-09-3 @ 2025-09',
      'turbid sample: DP-12-S2-2509 @ 2025-09',
      'sample of uncertain depth: DP-18-S2-2509 @ 2025-09',
    ]);
    expect(one(all, 'sounded depth').says).toContain('1.35 ft short');
    expect(one(all, 'receipt temperature').says).toContain('7.2 °C');
    expect(one(all, 'dry or below the screen').who).toEqual(['DP-07']);
    expect(one(all, 'floating product').who).toEqual(['DP-02']);
    expect(one(all, 'interval crosses a contact').who).toEqual(['DP-12']);
    expect(one(all, 'moved from its stake').says).toContain('10.6');
    expect(one(all, 'holes and screens').who).toEqual(['DP-16']);
    expect(one(all, 'gauged too soon').who).toEqual(['PZ-5D']);
    expect(ofRule(all, 'estimated elevation').flatMap(({ who }) => who)).toEqual(['SW-1', 'DP-19']);
    expect(ofRule(all, 'temporary push levels').map(({ severity }) => severity)).toEqual([
      'note',
      'note',
    ]);
  });

  test('Osier Bend, March 2026: the well struck by a tractor, and dichloromethane in the rinse and in PZ-7', () => {
    const all = at(osier, '2026-03');
    expect(one(all, 'left out by hand').says).toContain('Casing struck by a tractor');
    const blank = one(all, 'found in a blank');
    expect(blank.who).toEqual(['PZ-7']);
    expect(blank.says).toContain('Dichloromethane');
  });

  test('Osier Bend, September 2026: product without a density, a new mark, toluene in a trip blank', () => {
    const all = at(osier, '2026-09');
    expect(one(all, 'floating product')).toMatchObject({ severity: 'caution', who: ['MW-5'] });
    expect(one(all, 'measuring point changed')).toMatchObject({ severity: 'note', who: ['PZ-8'] });
    expect(one(all, 'found in a blank').says).toContain('Toluene');
  });

  test('Quellmoor: in a line and not resolved, then hanging on W-6 alone', () => {
    const first = at(quellmoor, '2025-10');
    expect(one(first, 'direction not resolved').severity).toBe('caution');
    expect(one(first, 'thin set of wells').severity).toBe('caution');
    expect(one(first, 'temporary push levels').says).toContain('would be 160°');
    const second = at(quellmoor, '2026-05');
    expect(one(second, 'one well drives the answer').who).toEqual(['W-6']);
    expect(ofRule(second, 'direction not resolved')).toEqual([]);
  });
});

describe('the INL south-west data as a reviewer reads them', () => {
  test('April 2008: two multi-port wells are nests, and the heads are no plane', () => {
    const all = at(inl, 'Levels 2008');
    expect(ofRule(all, 'nest in one plane').flatMap(({ who }) => who)).toEqual([
      'MIDDLE 2051',
      'USGS 132',
    ]);
    expect(one(all, 'not a plane').severity).toBe('caution');
    expect(one(all, 'interval not known').says).toContain('95 screens');
  });

  test('June 2019: four nests, two deep ports that do not fit, three ports read twice', () => {
    const all = at(inl, 'Levels 2019');
    expect(ofRule(all, 'nest in one plane').flatMap(({ who }) => who)).toEqual([
      'MIDDLE 2051',
      'USGS 131A',
      'USGS 132',
      'USGS 137A',
    ]);
    for (const { severity, says } of ofRule(all, 'residual stands out')) {
      expect(severity).toBe('caution');
      expect(says).toContain('one of 12 screens at MIDDLE 2051');
    }
    expect(ofRule(all, 'readings disagree')).toHaveLength(3);
  });

  test('replicates of the agency name no parent', () => {
    expect(one(at(inl, 'Samples 2008'), 'duplicates without a parent').says).toContain('9 field');
  });
});

describe('MW-2’s mark at Osier Bend mistyped by a foot: 972.34 read as 973.34', () => {
  const marks = osier.package.tables.measuring_points;
  if (!marks) throw new Error('no measuring points');
  const row = osier.site.measuringPoints.get('MW-2-MP1')?.row ?? 0;
  const site = osier.read({
    ...osier.package,
    tables: { ...osier.package.tables, measuring_points: withCell(marks, row - 2, 'elevation', '973.34') }, // prettier-ignore
  });

  test.each(['2025-09', '2026-03', '2026-09'])(
    'in %s it has the largest externally studentised residual, of eight wells or more',
    (event) => {
      const { points } = flowPoints(site, flowAt(site, event, 'shallow').gauged);
      const left = leaveOneOut(points, { weighted: true, confidence: 0.95 });
      if (!left.ok) throw new Error(left.problem.kind);
      const sizes = left.value.wells.map(({ id, studentised }) => [id, Math.abs(studentised ?? 0)] as const); // prettier-ignore
      expect(points.length).toBeGreaterThanOrEqual(8);
      expect(sizes.toSorted((a, b) => b[1] - a[1])[0]?.[0]).toBe('MW-2');
    },
  );

  test.each(['2025-09', '2026-03', '2026-09'])(
    'in %s the finding names MW-2 and says a foot',
    (event) => {
      const finding = one(findingsOf(examine(site, event)), 'residual stands out');
      expect(finding).toMatchObject({ severity: 'serious', who: ['MW-2'] });
      expect(finding.says).toContain('a foot');
      expect(finding.says).toContain('the mark, then, and not the reading');
    },
  );
});
