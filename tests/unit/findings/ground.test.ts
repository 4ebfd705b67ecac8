import { describe, expect, test } from 'vitest';
import { siteFrom } from '../site-from';
import { but, found, GOOD, linesOf, ofRule, one, siteOfWells } from './a-site';

const onSite = (tables: Parameters<typeof siteOfWells>[1]) =>
  found(siteOfWells(GOOD, tables), null);

const locations = (change: (line: string) => string) =>
  onSite({ locations: (linesOf(GOOD).locations ?? []).map(change) });

describe('coordinates', () => {
  test('a point 100 km off the others', () => {
    const finding = one(
      locations((line) => line.replace('W-5,1320,5100', 'W-5,329320,5100')),
      'coordinates in doubt',
    );
    expect(finding).toMatchObject({ severity: 'caution', who: ['W-5'] });
    expect(finding.says).toContain('100 km from the middle of the points');
    expect(finding.cells).toContainEqual({
      kind: 'cell',
      table: 'locations',
      row: 6,
      column: 'easting',
    });
  });

  test('easting and northing exchanged in one row', () => {
    const far = (line: string) => line.replace(/^(W-\d),(\d+),(\d{4})/, '$1,$2,182$3');
    const finding = one(
      locations((line) => far(line).replace('W-5,1320,1825100', 'W-5,1825100,1320')),
      'coordinates in doubt',
    );
    expect(finding.who).toEqual(['W-5']);
    expect(finding.says).toContain('exchanged');
  });

  test('a zero is a place', () => {
    const finding = one(
      locations((line) => line.replace('W-5,1320,5100', 'W-5,0,0')),
      'coordinates in doubt',
    );
    expect(finding.says).toContain('0, 0');
  });
});

describe('elevations and datums', () => {
  test('a ground elevation in metres among feet', () => {
    const finding = one(
      found(siteOfWells(but('W-5', { ground: '30.5' })), null),
      'ground elevation in doubt',
    );
    expect(finding.who).toEqual(['W-5']);
  });

  test('a mark in metres over a ground in feet is said to be that', () => {
    const finding = one(
      found(siteOfWells(but('W-5', { mark: '31.21' })), null),
      'height of a mark',
    );
    expect(finding.says).toContain('one of the two is in feet and the other in metres');
  });

  test('a mark thirteen feet above ground has another datum, or a wrong digit', () => {
    const finding = one(
      found(siteOfWells(but('W-5', { mark: '113.39' })), null),
      'height of a mark',
    );
    expect(finding).toMatchObject({ severity: 'caution', who: ['W-5'] });
    expect(finding.says).toContain('13.19 ft above the ground');
  });

  test('below ground without being flush; flush and yet above the ground', () => {
    const below = found(siteOfWells(but('W-5', { mark: '99.80' })), null);
    expect(one(below, 'height of a mark').says).toContain('not described as flush');
    const flush = { mark: '99.80', description: 'Top of casing in flush box' };
    expect(found(siteOfWells(but('W-5', flush)), null)).toEqual([]);
    const standing = found(siteOfWells(but('W-5', { ...flush, mark: '100.80' })), null);
    expect(one(standing, 'height of a mark').says).toContain('though it is described as');
  });

  test('marks described alike stand alike: a foot more than seven flush ones is doubtful', () => {
    const flush = GOOD.map((well) => ({
      ...well,
      mark: '100.20',
      description: 'Land surface',
    }));
    const finding = one(
      found(siteOfWells(but('W-5', { mark: '101.20' }, flush)), null),
      'height of a mark',
    );
    expect(finding.says).toContain('stands 1.00 ft above ground; the 7 others');
  });
});

describe('staked and as pushed', () => {
  const points = (shift: (i: number) => readonly [number, number], e = 2_000_000, n = 13_840_000) =>
    siteFrom({
      locations: [
        'id,easting,northing,kind,status,planned_easting,planned_northing,note',
        ...[0, 1, 2, 3, 4].map((i) => {
          const [east, north] = [e + 40 * i, n + 55 * ((i * 2) % 5)];
          const [dx, dy] = shift(i);
          return `P-${i},${(east + dx).toFixed(1)},${(north + dy).toFixed(1)},direct push,pushed,${east},${north},`;
        }),
      ],
      decisions: ['what,on,reason', ...[0, 1, 2, 3, 4].map((i) => `clear point,P-${i},Ticket`)],
    });

  test('one point moved 10.6 ft is a note, one moved 60 ft a caution; a foot is nothing', () => {
    const moved = (by: number) =>
      found(
        points((i) => [i === 2 ? by : 0.3 * (i - 2), 0.4]),
        null,
      );
    expect(one(moved(10.6), 'moved from its stake')).toMatchObject({
      severity: 'note',
      who: ['P-2'],
    });
    expect(one(moved(60), 'moved from its stake').severity).toBe('caution');
    expect(moved(1)).toEqual([]);
  });

  // Survey and international feet differ by 2 parts per million: 27.7 ft at N 13,841,180 ft (85 FR 62698).
  test('27.7 ft north and 4 ft east for every point: survey feet taken for international feet', () => {
    const finding = one(
      found(
        points(() => [4, 27.68]),
        null,
      ),
      'shift shared by all points',
    );
    expect(finding.who).toHaveLength(5);
    expect(finding.says).toContain('28.0 ft');
    expect(finding.says).toContain('survey feet taken for international feet');
    const other = one(
      found(
        points(() => [20, 20]),
        null,
      ),
      'shift shared by all points',
    );
    expect(other.says).not.toContain('international feet');
  });
});

describe('holes', () => {
  const withHole = (row: string, screens = 'P-1-S1,P-1,13.15,0.15,4.0,4.0') =>
    found(
      siteFrom({
        locations: ['id,easting,northing,kind,status', 'P-1,1000,2000,direct push,decommissioned'],
        screens: ['id,location,tip_depth,tool_offset,retraction,exposed_length', screens],
        attempts: [
          'location,suffix,depth,outcome,decommission_material,decommission_volume,decommission_how,decommission_day,open_reason',
          row,
        ],
        decisions: ['what,on,reason', 'clear point,P-1,Ticket 1'],
      }),
      null,
    );

  test('no hole closes without its decommissioning or a reason', () => {
    expect(withHole('P-1,,13.15,reached,Grout,3.0,tremie,2025-09-15,')).toEqual([]);
    expect(one(withHole('P-1,B,13.15,reached,,,,,'), 'hole not closed')).toMatchObject({
      severity: 'caution',
      about: 'hole not closed: P-1 B',
    });
    expect(withHole('P-1,,13.15,reached,,,,,Left for a second sample')).toEqual([]);
    const lacking = one(
      withHole('P-1,,13.15,reached,Grout,,tremie,2025-09-15,'),
      'hole not closed',
    );
    expect(lacking).toMatchObject({ severity: 'note' });
    expect(lacking.says).toContain('lacks the volume');
  });

  test('a screen deeper than any hole at its location', () => {
    const all = withHole('P-1,,11.00,refusal,Grout,3.0,tremie,2025-09-15,');
    expect(one(all, 'holes and screens').says).toContain(
      'its tip at 13.15 ft, but no hole at P-1 reached more than 11.00 ft',
    );
  });

  test('a point pushed with no clearance on record', () => {
    const site = siteFrom({
      locations: [
        'id,easting,northing,kind,status',
        'P-1,1000,2000,direct push,pushed',
        'P-2,1000,2100,direct push,planned',
      ],
    });
    expect(one(found(site, null), 'no clearance on record').who).toEqual(['P-1']);
  });
});

describe('intervals', () => {
  const screen = (row: string, more: Parameters<typeof siteFrom>[0] = {}) =>
    found(
      siteFrom({
        locations: [
          'id,easting,northing,ground_elevation,ground_how,kind,status',
          'MW-1,1000,2000,101.2,surveyed,monitoring well,installed',
        ],
        screens: [
          'id,location,tip_depth,tool_offset,retraction,screen_length,exposed_length,sounded_depth,zone',
          row,
        ],
        ...more,
      }),
      null,
    );

  test('more exposed than the rods were retracted cannot be', () => {
    const finding = one(screen('S,MW-1,24.0,0,3.0,4.0,4.0,,sand'), 'interval that cannot be');
    expect(finding.says).toContain('more screen is exposed than the rods were retracted');
  });

  test('an interval nobody knows is noted, once for all of them', () => {
    expect(one(screen('S,MW-1,,,,,,,sand'), 'interval not known')).toMatchObject({
      severity: 'note',
    });
  });

  test('sounded 0.3 ft short is over 0.2 ft and uncertain; 0.2 ft short is not; accepted it is a note', () => {
    expect(one(screen('S,MW-1,24.0,0,4.0,4.0,4.0,23.7,sand'), 'sounded depth').says).toContain(
      '0.30 ft short of the base',
    );
    expect(screen('S,MW-1,24.0,0,4.0,4.0,4.0,23.8,sand')).toEqual([]);
    const accepted = screen('S,MW-1,24.0,0,4.0,4.0,4.0,23.7,sand', {
      decisions: ['what,on,reason', 'accept interval,S,Silt came in'],
    });
    expect(one(accepted, 'sounded depth')).toMatchObject({ severity: 'note' });
  });

  const strata = [
    'location,top,bottom,description,class',
    'MW-1,0,21.0,Sand,sand',
    'MW-1,21.0,30.0,Till,till',
  ];

  test('an interval that crosses from sand into till has no zone, or is a caution, unless accepted', () => {
    const crossing = (zone: string, decisions?: string[]) =>
      one(
        screen(`S,MW-1,24.0,0,4.0,4.0,4.0,,${zone}`, {
          strata,
          ...(decisions ? { decisions } : {}),
        }),
        'interval crosses a contact',
      );
    expect(crossing('')).toMatchObject({ severity: 'note' });
    expect(crossing('sand')).toMatchObject({ severity: 'caution' });
    expect(crossing('sand').says).toContain('from sand into till at 21.00 ft below ground');
    expect(crossing('sand', ['what,on,reason', 'accept interval,S,Mostly sand']).severity).toBe(
      'note',
    );
  });

  test('a screen that touches the till with an inch does not cross into it', () => {
    const all = screen('S,MW-1,21.1,0,4.0,4.0,4.0,,sand', { strata });
    expect(ofRule(all, 'interval crosses a contact')).toEqual([]);
  });
});

test('a drawing whose text cannot be read is named by file, row and character', () => {
  const all = onSite({
    features: [
      'id,kind,name,shape',
      'U-1,utility,Gas main,"LINESTRING (1000 5000, 1600)"',
      'B-1,boundary,Fence,"POLYGON ((0 0, 10 0, 10 10, 0 0))"',
    ],
  });
  const finding = one(all, 'drawing that cannot be read');
  expect(finding.says).toContain('features.csv, row 2, shape: at character');
  expect(finding.says).toContain('no point is kept clear of it');
});

test('a decision on a reading that there is not decides nothing', () => {
  const all = onSite({ decisions: ['what,on,reason', 'exclude,W5 @ E1,Struck by a tractor'] });
  expect(one(all, 'decision on nothing').says).toContain('“W5 @ E1” names no reading');
});
