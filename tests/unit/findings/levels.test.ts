import { describe, expect, test } from 'vitest';
import { but, found, GOOD, levelsOf, linesOf, ofRule, one, siteOfWells, without } from './a-site';
import type { AWell } from './a-site';

const rules = (wells: readonly AWell[]) => found(siteOfWells(wells)).map(({ rule }) => rule);

test('eight good wells gauged in one morning: nothing is doubtful', () => {
  expect(found(siteOfWells(GOOD))).toEqual([]);
});

describe('dry, or water below the screen', () => {
  test('a dry well is a caution, and says where the water is not', () => {
    const finding = one(
      found(siteOfWells(but('W-5', { depth: '', status: 'dry' }))),
      'dry or below the screen',
    );
    expect(finding).toMatchObject({ severity: 'caution', who: ['W-5'] });
    // ground 100.2, base 20.0 down
    expect(finding.says).toContain('below the base of its screen at 80.20 ft');
  });

  test('a dry push point only tells that the water is deeper: a note', () => {
    const site = siteOfWells(but('W-5', { depth: '', status: 'dry', kind: 'direct push' }));
    expect(one(found(site), 'dry or below the screen').severity).toBe('note');
  });

  test('a level below the base of the screen was read from the bottom of the well', () => {
    // mark 102.39, depth 22.40: 79.99, the sump being at 79.90 and the base at 80.20
    const finding = one(
      found(siteOfWells(but('W-5', { depth: '22.40' }))),
      'dry or below the screen',
    );
    expect(finding.says).toContain('79.99 ft, is below the base of its screen at 80.20 ft');
    expect(finding.cells).toContainEqual({
      kind: 'cell',
      table: 'water_levels',
      row: 6,
      column: 'depth_to_water',
    });
  });

  test('five hundredths of water over the base may be what is left in the sump', () => {
    const finding = one(
      found(siteOfWells(but('W-5', { depth: '22.14' }))),
      'dry or below the screen',
    );
    expect(finding.says).toContain('only 0.05 ft above the base');
  });
});

describe('a level where water does not stand', () => {
  test('a head above the ground is flowing, or a slip', () => {
    const finding = one(found(siteOfWells(but('W-5', { depth: '1.00' }))), 'head above ground');
    expect(finding.says).toContain('101.39 ft, is 1.19 ft above the ground at 100.20 ft');
    expect(finding.severity).toBe('caution');
  });

  test('a well that is said to flow is only noted', () => {
    const site = siteOfWells(but('W-5', { depth: '1.00', status: 'flowing' }));
    expect(one(found(site), 'head above ground').severity).toBe('note');
  });

  test('a negative depth puts the water above its own mark', () => {
    const finding = one(
      found(siteOfWells(but('W-5', { depth: '-6.00' }))),
      'level above the measuring point',
    );
    expect(finding).toMatchObject({ severity: 'serious', who: ['W-5'] });
    expect(finding.says).toContain('−6.00 ft');
  });
});

describe('the mark a depth hangs from', () => {
  const second = {
    events: [
      'id,title,first_day,last_day',
      'E1,First,2025-09-01,2025-09-01',
      'E2,Second,2026-03-01,2026-03-01',
    ],
    water_levels: [
      ...levelsOf(GOOD, 'E1', '2025-09-01'),
      ...levelsOf(GOOD, 'E2', '2026-03-01')
        .slice(1)
        .map((line) => line.replace('W-5,E2,W-5-MP,', 'W-5,E2,W-5-MP2,')),
    ],
  };
  const marks = linesOf(GOOD).measuring_points ?? [];

  test('a mark that was cut and surveyed again is noted with both elevations', () => {
    const site = siteOfWells(GOOD, {
      ...second,
      measuring_points: [...marks, 'W-5-MP2,W-5,2026-02-01,Casing cut,102.39,0.01,R.O.'],
    });
    const finding = one(found(site, 'E2'), 'measuring point changed');
    expect(finding.severity).toBe('note');
    expect(finding.says).toContain('W-5-MP2 in place of W-5-MP, 102.39 ft then and 102.39 ft now');
    expect(ofRule(found(site, 'E1'), 'measuring point changed')).toEqual([]);
  });

  test('who surveyed the new mark is not recorded: a caution', () => {
    const site = siteOfWells(GOOD, {
      ...second,
      measuring_points: [...marks, 'W-5-MP2,W-5,2026-02-01,Casing cut,102.39,0.01,'],
    });
    expect(one(found(site, 'E2'), 'measuring point changed').severity).toBe('caution');
  });

  test('a mark used before its first day, or one of another well', () => {
    const early = siteOfWells(GOOD, {
      measuring_points: marks.map((line) =>
        line.replace('W-5-MP,W-5,2025-08-02', 'W-5-MP,W-5,2025-10-02'),
      ),
    });
    expect(one(found(early), 'measuring point in doubt').says).toContain(
      'in use only since 2025-10-02',
    );
    const others = siteOfWells(GOOD, {
      water_levels: levelsOf(GOOD, 'E1', '2025-09-01').map((line) =>
        line.replace('W-5,E1,W-5-MP', 'W-5,E1,W-6-MP'),
      ),
    });
    const finding = one(found(others), 'measuring point in doubt');
    expect(finding).toMatchObject({ severity: 'serious', who: ['W-5'] });
    expect(finding.says).toContain('a mark of W-6');
  });

  test('a mark given up before the reading', () => {
    const site = siteOfWells(GOOD, {
      measuring_points: [...marks, 'W-5-MP2,W-5,2025-08-20,Casing cut,102.39,0.01,R.O.'],
    });
    expect(one(found(site), 'measuring point in doubt').says).toContain(
      'W-5-MP2 has been its mark since 2025-08-20',
    );
  });

  test('readings that name no mark take the one of the day, which is noted once', () => {
    const site = siteOfWells(GOOD, {
      water_levels: levelsOf(GOOD, 'E1', '2025-09-01').map((line) =>
        line.replace(/,W-[12]-MP,/, ',,'),
      ),
    });
    const finding = one(found(site), 'measuring point not named');
    expect(finding).toMatchObject({ severity: 'note', who: ['W-1', 'W-2'] });
  });

  test('no mark at all: the depth has nothing to hang from', () => {
    const site = siteOfWells(GOOD, {
      measuring_points: marks.filter((line) => !line.startsWith('W-5-MP')),
      water_levels: levelsOf(GOOD, 'E1', '2025-09-01').map((line) =>
        line.replace('W-5,E1,W-5-MP', 'W-5,E1,'),
      ),
    });
    expect(one(found(site), 'measuring point in doubt').says).toContain(
      'its depth of 6.00 ft has no elevation to hang from',
    );
  });

  test('a mark without an elevation or a stick-up is not surveyed; an estimated ground is not surveyed either', () => {
    expect(one(found(siteOfWells(but('W-5', { mark: '' }))), 'not surveyed').who).toEqual(['W-5']);
    const lines = linesOf(GOOD);
    const site = siteOfWells(GOOD, {
      locations: (lines.locations ?? []).map((line) =>
        line.startsWith('W-5') ? line.replace('surveyed', 'estimated') : line,
      ),
      measuring_points: [
        'id,screen,from_day,description,elevation,stick_up',
        ...marks
          .slice(1)
          .map((line) => line.replace(/,0.01,R.O.$/, ','))
          .map((line) => (line.startsWith('W-5') ? 'W-5-MP,W-5,,,,2.19' : line)),
      ],
    });
    expect(one(found(site), 'estimated elevation')).toMatchObject({
      severity: 'note',
      who: ['W-5'],
    });
  });
});

describe('when it was gauged', () => {
  // "a short time, for example a day": ASTM D6000
  test('one well read nine days after the others is named, over a limit of a day', () => {
    const site = siteOfWells(but('W-5', { time: '2025-09-10T09:00' }));
    const finding = one(found(site), 'gauging took long');
    expect(finding).toMatchObject({ severity: 'caution', who: ['W-5'] });
    expect(finding.says).toContain('read over 9 days');
    expect(one(found(site), 'read outside the event').who).toEqual(['W-5']);
  });

  test('the limit is the reviewer’s: with ten days nothing is said of the spread', () => {
    const site = siteOfWells(but('W-5', { time: '2025-09-10T09:00' }), {}, { gaugingSpread: 240 });
    expect(ofRule(found(site), 'gauging took long')).toEqual([]);
  });

  test('a reading that counts and has no time', () => {
    expect(one(found(siteOfWells(but('W-5', { time: '' }))), 'no time of reading')).toMatchObject({
      severity: 'caution',
      who: ['W-5'],
    });
  });

  test('gauged before it was set, and after it was pulled', () => {
    const screens = linesOf(GOOD).screens ?? [];
    const late = siteOfWells(GOOD, {
      screens: screens.map((line) =>
        line.startsWith('W-5') ? line.replace('2025-08', '2025-10') : line,
      ),
    });
    const finding = one(found(late), 'gauged while it was not there');
    expect(finding).toMatchObject({ severity: 'serious', who: ['W-5'] });
    expect(finding.says).toContain('before it was set at 2025-10-01T10:00');
    const pulled = siteOfWells(GOOD, {
      screens: [
        `${screens[0] ?? ''},pulled_time`,
        ...screens
          .slice(1)
          .map((line) => `${line},${line.startsWith('W-5') ? '2025-08-30T12:00' : ''}`),
      ],
    });
    expect(one(found(pulled), 'gauged while it was not there').says).toContain(
      'after it was pulled',
    );
  });

  test('gauged after its hole was filled, or where nothing was pushed yet', () => {
    const filled = siteOfWells(GOOD, {
      attempts: [
        'location,suffix,depth,outcome,day,decommission_day',
        'W-5,,20.3,reached,2025-08-01,2025-08-02',
      ],
    });
    expect(one(found(filled), 'gauged while it was not there').says).toContain(
      'after its hole was filled on 2025-08-02',
    );
    const planned = siteOfWells(GOOD, {
      locations: (linesOf(GOOD).locations ?? []).map((line) =>
        line.startsWith('W-5') ? line.replace('installed', 'planned') : line,
      ),
    });
    expect(one(found(planned), 'gauged while it was not there').says).toContain('only planned');
  });

  // EPA 530/R-93-001, 1992, ch. 4: at least 24 h after construction.
  test('a well gauged 23 h after it was set has not had its day', () => {
    const screens = linesOf(GOOD).screens ?? [];
    const site = (set: string) =>
      siteOfWells(GOOD, {
        screens: screens.map((line) =>
          line.startsWith('W-5') ? line.replace('2025-08-01T10:00', set) : line,
        ),
      });
    // W-5 is read at 09:30 on 1 September
    expect(one(found(site('2025-08-31T10:30')), 'gauged too soon').says).toContain('23 h after');
    expect(ofRule(found(site('2025-08-31T09:30')), 'gauged too soon')).toEqual([]);
  });
});

describe('a level that is not the level', () => {
  test('a recovering well is left out with a caution; put in all the same it is serious', () => {
    expect(
      one(found(siteOfWells(but('W-5', { status: 'recovering' }))), 'not at rest'),
    ).toMatchObject({ severity: 'caution', who: ['W-5'] });
    const used = but('W-5', { status: 'recovering', use: 'yes', why: 'It was nearly up' });
    expect(one(found(siteOfWells(used)), 'not at rest').severity).toBe('serious');
  });

  // USGS Techniques and Methods 1-A1, 2011: within 0.02 ft (value from memory).
  test('two readings at rest that differ by 0.03 ft disagree; by 0.02 ft they do not', () => {
    const twice = (second: string) =>
      siteOfWells(GOOD, {
        water_levels: [
          ...levelsOf(GOOD, 'E1', '2025-09-01'),
          `W-5,E1,W-5-MP,2025-09-01T09:50,${second},,,static,,`,
        ],
      });
    expect(one(found(twice('6.03')), 'readings disagree').says).toContain('differ by 0.03 ft');
    expect(ofRule(found(twice('6.02')), 'readings disagree')).toEqual([]);
  });

  test('product without a density leaves the well out; with a density of 83 the cell is wrong', () => {
    const none = found(siteOfWells(but('W-5', { depth: '6.30', product: '6.00' })));
    expect(one(none, 'floating product').says).toContain(
      '0.30 ft of product float in W-5 and its density was not measured',
    );
    const dense = found(siteOfWells(but('W-5', { depth: '6.30', product: '6.00', density: '83' })));
    expect(one(dense, 'floating product').says).toContain('not lighter than water');
    const fine = found(
      siteOfWells(but('W-5', { depth: '6.30', product: '5.94', density: '0.83' })),
    );
    expect(ofRule(fine, 'floating product')).toEqual([]);
  });

  test('product in a push point is not the layer in the ground: a note', () => {
    const site = siteOfWells(but('W-5', { depth: '6.30', product: '6.00', kind: 'direct push' }));
    expect(one(found(site), 'floating product').severity).toBe('note');
  });

  test('product last time and none read now: nobody may have looked', () => {
    const site = siteOfWells(GOOD, {
      events: [
        'id,title,first_day,last_day',
        'E1,First,2025-09-01,2025-09-01',
        'E2,Second,2026-03-01,2026-03-01',
      ],
      water_levels: [
        ...levelsOf(
          but('W-5', { depth: '6.30', product: '5.94', density: '0.83' }),
          'E1',
          '2025-09-01',
        ),
        ...levelsOf(GOOD, 'E2', '2026-03-01').slice(1),
      ],
    });
    const finding = one(found(site, 'E2'), 'floating product');
    expect(finding).toMatchObject({ severity: 'caution', who: ['W-5'] });
    expect(finding.says).toContain('0.36 ft floated there in E1');
  });

  test('levels of push points are left out together, with what they would do to the arrow', () => {
    const site = siteOfWells([
      ...GOOD,
      {
        id: 'P-1',
        easting: 1200,
        northing: 5250,
        mark: '102.00',
        depth: '4.86',
        kind: 'direct push',
      },
      {
        id: 'P-2',
        easting: 1400,
        northing: 5300,
        mark: '102.00',
        depth: '5.60',
        kind: 'direct push',
        status: 'recovering',
      },
    ]);
    const finding = one(found(site), 'temporary push levels');
    expect(finding).toMatchObject({ severity: 'note', who: ['P-1', 'P-2'] });
    expect(finding.says).toMatch(
      /With the 1 static one the direction would be 120°; without them it is 120°/,
    );
  });

  test('a push level that was put into the plane stays under a caution', () => {
    const site = siteOfWells([
      ...GOOD,
      {
        id: 'P-1',
        easting: 1200,
        northing: 5250,
        mark: '102.00',
        depth: '4.86',
        kind: 'direct push',
        use: 'yes',
        why: 'Recovery shown',
      },
    ]);
    expect(one(found(site), 'temporary push point counts').says).toContain('Recovery shown');
  });

  test('a reading left out by hand keeps its reason; without one it is a caution', () => {
    const told = found(siteOfWells(but('W-5', { use: 'no', why: 'Casing struck' })));
    expect(one(told, 'left out by hand')).toMatchObject({ severity: 'note' });
    expect(one(told, 'left out by hand').says).toContain('Casing struck');
    const untold = found(siteOfWells(but('W-5', { use: 'no' })));
    expect(one(untold, 'left out by hand').severity).toBe('caution');
  });

  test('a well that could not be read a second time keeps its reading, and the second try is told', () => {
    const lines = levelsOf(GOOD, 'E1', '2025-09-01');
    const again = 'W-5,E1,W-5-MP,2025-09-01T11:20,,,,obstructed,,';
    const all = found(siteOfWells(GOOD, { water_levels: [...lines, again] }));
    expect(ofRule(all, 'level not usable')).toEqual([]);
    expect(one(all, 'could not be read once').says).toBe(
      'W-5 could not be read at 2025-09-01 11:20; its reading of 2025-09-01 09:30 stands.',
    );
  });
  test('a well of which nobody said whether it was at rest counts, and is told of', () => {
    const all = found(siteOfWells(but('W-5', { status: 'not known' })));
    expect(all.map(({ rule }) => rule)).toEqual(['state of the water not known']);
    expect(one(all, 'state of the water not known')).toMatchObject({
      severity: 'note',
      who: ['W-5'],
    });
  });
  test('an obstructed well, and one without coordinates, are not lost from sight', () => {
    expect(
      one(found(siteOfWells(but('W-5', { depth: '', status: 'obstructed' }))), 'level not usable')
        .says,
    ).toContain('obstructed');
    const site = siteOfWells(GOOD, {
      locations: (linesOf(GOOD).locations ?? []).map((line) =>
        line.replace('W-5,1320,5100', 'W-5,,'),
      ),
    });
    expect(one(found(site), 'level not usable').severity).toBe('caution');
  });
});

test('the same wells without one of them are as good', () => {
  expect(rules(without('W-5'))).toEqual([]);
});

// Common practice, no source: levels at a tidal site compare only within one state of the tide.
describe('a tide window set for the event', () => {
  const tidal = (wells: readonly AWell[]) => ({
    events: [
      'id,title,first_day,last_day,tide_from,tide_to',
      'E1,Round,2025-09-01,2025-09-01,2025-09-01T09:00,2025-09-01T09:50',
    ],
    water_levels: levelsOf(wells, 'E1', '2025-09-01'),
  });

  test('a level read an hour after it is named, with both ends of the window', () => {
    const wells = but('W-3', { time: '2025-09-01T10:55' });
    const { who, says, severity } = one(
      found(siteOfWells(wells, tidal(wells))),
      'outside the tide window',
    );
    expect(severity).toBe('caution');
    expect(who).toEqual(['W-3']);
    expect(says).toContain('2025-09-01 09:00 to 2025-09-01 09:50');
  });

  test('all within it: the arrow is still said to be of the moment only', () => {
    const all = found(siteOfWells(GOOD, tidal(GOOD)));
    expect(ofRule(all, 'outside the tide window')).toEqual([]);
    expect(one(all, 'instantaneous only').says).toContain('filtered mean');
  });

  test('without a window nothing is said of a tide', () => {
    const all = found(siteOfWells(GOOD));
    expect(ofRule(all, 'instantaneous only')).toEqual([]);
  });
});

// Datums differ by feet from place to place (NOAA National Geodetic Survey; from memory).
describe('mixed vertical datums', () => {
  const marks = (datumOf: (id: string) => string) => ({
    measuring_points: [
      'id,screen,from_day,description,elevation,accuracy,datum',
      ...GOOD.map(
        ({ id, mark }) =>
          `${id}-MP,${id},2025-08-02,Notch on casing,${mark ?? ''},0.01,${datumOf(id)}`,
      ),
    ],
  });

  test('a mark in NGVD 29 on a site in NAVD 88 is serious while its head counts', () => {
    const site = siteOfWells(
      GOOD,
      marks((id) => (id === 'W-6' ? 'NGVD 29' : '')),
    );
    const { severity, who, says } = one(found(site), 'mixed datums');
    expect(severity).toBe('serious');
    expect(who).toEqual(['W-6']);
    expect(says).toContain('in NGVD 29, the site in NAVD 88');
  });

  test('the same datum written another way is the same datum', () => {
    const site = siteOfWells(
      GOOD,
      marks(() => 'navd88'),
    );
    expect(ofRule(found(site), 'mixed datums')).toEqual([]);
  });
});
