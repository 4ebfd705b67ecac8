import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { normalDeviates, randomFrom } from '../../../src/domain/water/random';
import { headsAt } from '../../../src/domain/findings/history';
import { METRES_PER, metres } from '../../../src/domain/units';
import { flowOf } from '../../../src/domain/water/flow';
import { misfitOf } from '../../../src/domain/findings/planes/misfit';
import { exchangedDigits } from '../../../src/domain/findings/planes/likely-error';
import {
  but,
  found,
  GOOD,
  levelsOf,
  linesOf,
  ofRule,
  one,
  siteOfWells,
  type AWell,
} from './a-site';

const TWO_EVENTS = [
  'id,title,first_day,last_day',
  'E1,First,2025-09-01,2025-09-01',
  'E2,Second,2026-03-01,2026-03-01',
];

/** A first event as given, and a second half a foot lower everywhere but for what is said. */
const twoEvents = (first: readonly AWell[], second: readonly AWell[]) =>
  siteOfWells(GOOD, {
    events: TWO_EVENTS,
    water_levels: [
      ...levelsOf(first, 'E1', '2025-09-01'),
      ...levelsOf(second, 'E2', '2026-03-01').slice(1),
    ],
  });

const lower = (wells: readonly AWell[], by = 0.5) =>
  wells.map((well) => ({ ...well, depth: (Number(well.depth) + by).toFixed(2) }));

describe('a residual that stands out', () => {
  // The mistake of a public review: a one-foot typing error in a wellhead elevation made one
  // well look like another aquifer, and the gradient was rejected until it was surveyed again.
  test('a mark mistyped by a foot is named, with the foot', () => {
    const finding = one(found(siteOfWells(but('W-5', { mark: '103.39' }))), 'residual stands out');
    expect(finding).toMatchObject({ severity: 'serious', who: ['W-5'] });
    expect(finding.says).toContain('That is a foot, in the mark or in the depth');
    expect(finding.says).toContain('above the plane of the other 7 wells');
    expect(finding.says).toContain('externally studentised residual');
    expect(finding.says).toContain('Without it the others lie on one plane');
    expect(finding.cells.map((c) => c.kind === 'cell' && c.table)).toEqual([
      'water_levels',
      'measuring_points',
    ]);
  });

  test.each([
    ['ten feet low', { mark: '92.39' }, 'That is ten feet'],
    ['two digits of the depth exchanged', { depth: '0.60' }, '0.60 may be 6.00'],
    ['two digits of the mark exchanged', { mark: '103.29' }, '103.29 may be 102.39'],
    ['metres among feet', { depth: '1.83' }, '1.83 may be metres in a column of feet: 6.00 ft'],
    ['read from the ground, not from the mark', { depth: '3.81' }, 'That is its stick-up'],
    ['three feet, one digit', { depth: '9.00' }, 'That is 3 feet, one digit'],
  ])('%s', (_, change, words) => {
    const finding = one(found(siteOfWells(but('W-5', change))), 'residual stands out');
    expect(finding.who).toEqual(['W-5']);
    expect(finding.says).toContain(words);
  });

  test('0.37 ft off is named, and no slip is made up for it', () => {
    const finding = one(found(siteOfWells(but('W-5', { depth: '6.37' }))), 'residual stands out');
    expect(finding.says).not.toMatch(/That is|may be/);
  });

  test('off alike at two events from one mark: the mark, and not the reading', () => {
    const marks = (linesOf(GOOD).measuring_points ?? []).map((line) =>
      line.replace('102.39', '103.39'),
    );
    const site = siteOfWells(GOOD, {
      events: TWO_EVENTS,
      measuring_points: marks,
      water_levels: [
        ...levelsOf(GOOD, 'E1', '2025-09-01'),
        ...levelsOf(lower(GOOD), 'E2', '2026-03-01').slice(1),
      ],
    });
    expect(one(found(site, 'E2'), 'residual stands out').says).toContain(
      'off by as much in E1: the mark, then, and not the reading',
    );
    const once = twoEvents(GOOD, lower(but('W-5', { depth: '7.00' })));
    expect(one(found(once, 'E2'), 'residual stands out').says).not.toContain('the mark, then');
  });

  test('in metres a foot is a foot, and a metre a metre', () => {
    const inMetres = GOOD.map((well) => ({
      ...well,
      easting: well.easting * 0.3048,
      northing: well.northing * 0.3048,
      ground: '30.54',
      mark: (Number(well.mark) * 0.3048).toFixed(4),
      depth: (Number(well.depth) * 0.3048).toFixed(4),
      tip: '6.3',
    }));
    const metric = (wells: readonly AWell[]) =>
      siteOfWells(wells, {}, { verticalUnit: 'm', grid: { name: 'Local', code: null, projection: null, unit: 'm' } }); // prettier-ignore
    const says = (off: number) =>
      one(
        found(metric(but('W-5', { depth: (Number('1.8288') + off).toFixed(4) }, inMetres))),
        'residual stands out',
      ).says;
    expect(says(0.3048)).toContain('That is a foot');
    expect(says(1)).toContain('That is a metre');
  });

  test('two mistakes at once: the larger is named first, then the other', () => {
    const wells = but('W-5', { mark: '104.39' }, but('W-2', { mark: '101.60' }));
    const named = ofRule(found(siteOfWells(wells)), 'residual stands out');
    expect(named.map(({ who }) => who[0]).sort()).toEqual(['W-2', 'W-5']);
  });
});

describe('who can be blamed', () => {
  const five = GOOD.filter(({ id }) => !['W-2', 'W-4', 'W-6'].includes(id)); // W-1 W-3 W-5 W-7 W-8
  const four = five.filter(({ id }) => id !== 'W-5');

  test('with four wells no culprit can be named, and the finding says so', () => {
    const finding = one(
      found(siteOfWells(but('W-8', { mark: '103.71' }, four))),
      'misfit without a culprit',
    );
    expect(finding.severity).toBe('serious');
    expect(finding.who).toEqual(['W-1', 'W-3', 'W-7', 'W-8']);
    expect(finding.says).toContain('With 4 wells no culprit can be named: 6 are needed.');
  });

  test('with five wells none is named, but where the others would agree is said', () => {
    const finding = one(
      found(siteOfWells(but('W-5', { mark: '103.39' }, five))),
      'misfit without a culprit',
    );
    expect(finding.says).toContain('With 5 wells no culprit can be named: 6 are needed.');
    expect(finding.says).toContain('Only without W-5 would the others lie on one');
  });

  test('with six one is named', () => {
    const six = but(
      'W-5',
      { mark: '103.39' },
      GOOD.filter(({ id }) => !['W-2', 'W-4'].includes(id)),
    );
    expect(one(found(siteOfWells(six)), 'residual stands out').who).toEqual(['W-5']);
  });

  test('a curved surface is no plane and nobody’s mistake', () => {
    const curved = GOOD.map((well) => {
      const bend =
        ((well.easting - 1300) / 300) ** 2 * 0.3 - ((well.northing - 5200) / 200) ** 2 * 0.2;
      return { ...well, depth: (Number(well.depth) - bend).toFixed(2) };
    });
    const all = found(siteOfWells(curved));
    const finding = one(all, 'not a plane');
    expect(finding.severity).toBe('caution');
    expect(finding.says).toContain('do not lie on one plane');
    expect(ofRule(all, 'direction not resolved')).toEqual([]);
  });

  test('not resolved is another thing: heads on a plane too flat for their errors', () => {
    const flat = GOOD.map((well) => ({
      ...well,
      depth: (Number(well.mark) - 96 - (Number(well.id.slice(2)) % 3) * 0.01).toFixed(2),
    }));
    const all = found(siteOfWells(flat));
    expect(one(all, 'direction not resolved').says).toContain('cannot be told');
    expect(ofRule(all, 'not a plane')).toEqual([]);
  });

  test('readings written in each other’s rows are both named, and nothing else', () => {
    const wells = but('W-2', { depth: '6.48' }, but('W-3', { depth: '5.48' }));
    const all = found(siteOfWells(wells));
    const finding = one(all, 'readings exchanged');
    expect(finding).toMatchObject({ severity: 'serious', who: ['W-2', 'W-3'] });
    expect(finding.says).toContain('one head is 1.00 ft too high');
    expect(ofRule(all, 'residual stands out')).toEqual([]);
  });

  /**
   * Five hundred rounds of eight wells whose heads are a plane and the stated
   * error, 0.015 ft, and nothing else: one well is named at 95 % in no more
   * than about 5 %, and as a serious finding in no more than about one in a
   * thousand. Binomial limits at four standard errors.
   */
  test('of honest rounds few have a well named, and hardly any as serious', () => {
    const normal = normalDeviates(randomFrom(20260601));
    const site = siteOfWells(GOOD);
    const gauged = headsAt(site, 'E1');
    let [named, plainly] = [0, 0];
    for (let round = 0; round < 500; round++) {
      const heads = gauged.map((one, i) => {
        const well = GOOD[i] as AWell;
        const plane = 97 - 0.0035 * (well.easting - 1300) + 0.002 * (well.northing - 5200);
        const value = metres(plane + (one.sigma / METRES_PER.ft) * normal(), 'ft');
        return { ...one, head: one.head && { ...one.head, value } };
      });
      const misfit = misfitOf(site, flowOf(site, 'E1', 'sand', heads));
      if (misfit.kind === 'named') named++;
      if (misfit.kind === 'named' && (misfit.outliers[0]?.probability ?? 1) < 0.001) plainly++;
    }
    // Each of two tests at 5 %, partly alike: at most 10 %, 50 ± 4·6.7.
    expect(named).toBeLessThanOrEqual(77);
    expect(named).toBeGreaterThan(5);
    expect(plainly).toBeLessThanOrEqual(6);
  });
});

describe('a change out of line with the other wells', () => {
  test('all fell by half a foot and one rose: it is named, and the plane of changes with it', () => {
    const site = twoEvents(GOOD, but('W-5', { depth: '5.50' }, lower(GOOD)));
    const finding = one(found(site, 'E2'), 'change out of line');
    expect(finding).toMatchObject({ severity: 'caution', who: ['W-5'] });
    expect(finding.says).toContain('changed by +0.50 ft since E1');
    expect(ofRule(found(site, 'E1'), 'change out of line')).toEqual([]);
  });

  test('with four wells the range of the other three is the measure', () => {
    const four = GOOD.filter(({ id }) => ['W-1', 'W-3', 'W-7', 'W-8'].includes(id));
    const second = but('W-8', { depth: '6.90' }, lower(four));
    const site = twoEvents(four, second);
    const finding = one(found(site, 'E2'), 'change out of line');
    expect(finding.who).toEqual(['W-8']);
    expect(finding.says).toContain('the other 3 wells changed by −0.50 ft to −0.50 ft');
  });

  test('two of four exchanged draw the changes apart, and exchanged again together: both are named', () => {
    const four = GOOD.filter(({ id }) => ['W-1', 'W-3', 'W-7', 'W-8'].includes(id));
    const second = lower(four).map((well, i) => ({
      ...well,
      depth: (Number(well.depth) + 0.03 * i).toFixed(2),
    }));
    const depth = (id: string) => second.find((well) => well.id === id)?.depth ?? '';
    const wrong = but('W-3', { depth: depth('W-7') }, but('W-7', { depth: depth('W-3') }, second));
    const finding = one(found(twoEvents(four, wrong), 'E2'), 'readings exchanged');
    expect(finding).toMatchObject({ severity: 'caution', who: ['W-3', 'W-7'] });
    expect(finding.says).toContain('in E2 or in E1');
    expect(ofRule(found(twoEvents(four, second), 'E2'), 'readings exchanged')).toEqual([]);
  });

  test('a plane that turned is not out of line', () => {
    const turned = GOOD.map((well) => ({
      ...well,
      depth: (Number(well.depth) + 0.001 * (well.northing - 5200)).toFixed(2),
    }));
    expect(ofRule(found(twoEvents(GOOD, turned), 'E2'), 'change out of line')).toEqual([]);
  });
});

describe('wells that stand badly', () => {
  const line: readonly AWell[] = GOOD.map((well, i) => ({
    ...well,
    easting: 1000 + 100 * i,
    northing: 5000 + (i % 2) * 4,
    depth: (Number(well.mark) - 97 + 0.4 * i).toFixed(2),
  }));

  test('nearly in a line: the fall across is hardly measured', () => {
    const finding = one(found(siteOfWells(line)), 'thin set of wells');
    expect(finding.severity).toBe('caution');
    expect(finding.says).toContain('nearly in a line');
  });

  test('three wells make a plane whatever their heads are', () => {
    const three = GOOD.slice(0, 3).map((well, i) => ({ ...well, northing: 5400 - 200 * (i % 2) }));
    expect(one(found(siteOfWells(three)), 'thin set of wells')).toMatchObject({ severity: 'note' });
  });

  test('one well off the line carries the whole direction', () => {
    const off = but('W-8', { northing: 5400 }, line);
    const finding = one(found(siteOfWells(off)), 'one well drives the answer');
    expect(finding).toMatchObject({ severity: 'caution', who: ['W-8'] });
    expect(finding.says).toContain('Without it the other wells are nearly in a line');
  });

  test('eight wells all round: none drives the answer', () => {
    expect(ofRule(found(siteOfWells(GOOD)), 'one well drives the answer')).toEqual([]);
  });
});

describe('nests', () => {
  const ports = ['W-5', 'W-5B', 'W-5C'].map((id, i) => ({
    ...(GOOD[4] as AWell),
    id,
    depth: (6 + 0.01 * i).toFixed(2),
  }));

  test('three screens at one place count three times in one plane: a nest', () => {
    const site = siteOfWells([...GOOD.filter(({ id }) => id !== 'W-5'), ...ports]);
    const finding = one(found(site), 'nest in one plane');
    expect(finding).toMatchObject({ severity: 'caution', who: ['W-5', 'W-5B', 'W-5C'] });
    expect(finding.says).toContain('one place weighs 3 times');
    expect(finding.says).not.toContain('not explained');
  });

  // A public review letter: a difference of 0.59 ft inside a nest, unexplained.
  test('0.59 ft between two of them in one zone is not explained', () => {
    const [first, second] = ports as [AWell, AWell];
    const site = siteOfWells([
      ...GOOD.filter(({ id }) => id !== 'W-5'),
      first,
      { ...second, depth: '6.59' },
    ]);
    expect(one(found(site), 'nest in one plane').says).toContain(
      'difference of 0.59 ft in one zone is not explained',
    );
  });

  // Basis: i = (h shallow − h deep)/(z shallow − z deep), positive downward; ground 101.20, middles
  // 20 and 40 ft down, heads 91.85 and 91.47: 0.019 downward, σ 0.0007 at 0.01 ft (computed
  // independently). Here a head is good to 0.015 ft, so that 1.96 σ is 0.0021.
  test('across zones the vertical gradient is 0.019, downward', () => {
    const shallow = { id: 'N-1', easting: 1200, northing: 5250, ground: '101.20', mark: '103.20', depth: '11.35', tip: '22.8' }; // prettier-ignore
    const deep = { ...shallow, id: 'N-2', depth: '11.73', tip: '42.8', zone: 'gravel' };
    const finding = one(found(siteOfWells([shallow, deep])), 'vertical gradients');
    expect(finding.severity).toBe('note');
    expect(finding.says).toContain('N-1 to N-2 0.0190 ± 0.0021');
  });
});

describe('zones', () => {
  const deep: readonly AWell[] = GOOD.map((well) => ({
    ...well,
    id: `${well.id}D`,
    easting: well.easting + 40,
    tip: '45.3',
    zone: 'gravel',
  }));

  test('a screen named for a zone it does not reach is serious where it counts', () => {
    const site = siteOfWells([...but('W-5', { zone: 'gravel' }), ...deep]);
    const finding = one(found(site), 'zone in doubt');
    expect(finding).toMatchObject({ severity: 'serious', who: ['W-5'] });
    expect(finding.says).toContain('among those of sand');
  });

  test('a screen deeper than the others of its zone is not, while no other zone is there', () => {
    expect(ofRule(found(siteOfWells(but('W-5', { tip: '45.3' }))), 'zone in doubt')).toEqual([]);
    expect(ofRule(found(siteOfWells([...GOOD, ...deep])), 'zone in doubt')).toEqual([]);
  });
});

describe('what a finding does not depend on', () => {
  const wrong = but('W-5', { mark: '103.39' }, but('W-2', { zone: '' }));
  const names = (wells: readonly AWell[]) =>
    found(siteOfWells(wells))
      .map(({ about, severity }) => `${severity} ${about}`)
      .sort();

  test('the order of the rows', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray([...wrong], { minLength: wrong.length }), (wells) => {
        expect(names(wells)).toEqual(names(wrong));
      }),
      { numRuns: 20 },
    );
  });

  test('where the grid has its origin, and which way it is turned', () => {
    const place = fc.record({
      east: fc.integer({ min: 0, max: 3_000_000 }),
      north: fc.integer({ min: 0, max: 14_000_000 }),
      turned: fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
    });
    fc.assert(
      fc.property(place, ({ east, north, turned }) => {
        const moved = wrong.map((well) => ({
          ...well,
          easting: east + well.easting * Math.cos(turned) - well.northing * Math.sin(turned),
          northing: north + well.easting * Math.sin(turned) + well.northing * Math.cos(turned),
        }));
        const near = moved.every(({ easting, northing }) => easting > 1e4 && northing > 1e4);
        fc.pre(near); // a zero among large numbers is doubtful by itself
        expect(names(moved)).toEqual(names(wrong));
      }),
      { numRuns: 20 },
    );
  });
});

test('digits exchanged: each two neighbours, where that changes the number', () => {
  expect(exchangedDigits('13.36')).toEqual(['31.36', '13.63']);
  expect(exchangedDigits('11.1')).toEqual([]);
});
