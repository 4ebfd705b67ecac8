import { describe, expect, test } from 'vitest';
import { placedOn, placingSentence, type LocalGrid } from '../../../src/domain/local-placing';
import { NEW_SITE } from '../../../src/domain/site/settings-draft';
import { gridOf, siteOf } from '../../../src/io/open-site';
import { readSettings, writeSettings } from '../../../src/io/package/settings';
import { proposedAnswers } from '../../../src/io/import/ask';
import { proposeMapping } from '../../../src/io/import/match-columns';
import { preview } from '../../../src/io/import/preview';
import { openDefined } from '../../../src/io/projection/open-defined';
import { emptySite, sourceOf, targetOf } from '../import/target';

// NAD83 / Texas South Central, in survey feet: the projection of EPSG Guidance Note 7-2, method
// 9802, on the newer datum. West of 99° W grid north lies west of true north.
const TEXAS = {
  name: 'NAD83 / Texas South Central (ftUS)',
  code: 'EPSG:2278',
  projection: null,
  unit: 'us-ft',
} as const;

const byOrigin: LocalGrid = {
  on: TEXAS,
  placing: {
    by: 'origin',
    local: [5000, 5000],
    grid: [3_040_000, 13_712_000],
    rotation: 20,
    scale: 1,
  },
};

const plant = (local: LocalGrid) =>
  ({ name: 'Plant grid', code: null, projection: null, unit: 'us-ft', local }) as const;

const siteOn = (local: LocalGrid) => {
  const given = {
    settings: { ...NEW_SITE, grid: plant(local) },
    tables: {},
    paths: {},
    columnUnits: {},
    descriptor: {},
  };
  const { grid, problem } = gridOf(given);
  return { grid, problem, site: siteOf(given, grid, problem) };
};

describe('a plant grid by origin, rotation and scale', () => {
  test('100 ft along plant north lies 100 ft at azimuth 20° on the State Plane grid: by pencil', () => {
    const { grid } = siteOn(byOrigin);
    const state = openDefined(TEXAS);
    if (!state.ok) throw new Error(state.problem);
    const there = grid.toLngLat(5000, 5100)!;
    const [east, north] = state.value.fromLngLat(...there)!;
    expect(east).toBeCloseTo(3_040_000 + 34.202, 2); // 100 sin 20°
    expect(north).toBeCloseTo(13_712_000 + 93.969, 2); // 100 cos 20°
  });

  test('the site’s convergence is that of the State Plane grid and the turn together', () => {
    const { grid } = siteOn(byOrigin);
    const state = openDefined(TEXAS);
    if (!state.ok) throw new Error(state.problem);
    const elevation = NEW_SITE.elevation;
    const on = state.value.factsAt(3_040_000, 13_712_000, elevation);
    const own = grid.factsAt(5000, 5000, elevation);
    expect(own.convergence! - on.convergence!).toBeCloseTo(20, 9);
    expect(own.combinedFactor).toBeCloseTo(on.combinedFactor!, 9);
    // East of the central meridian 99° W, n·Δλ with n 0.48991 (basis: EPSG Guidance Note 7-2).
    const [lng] = state.value.toOwnLngLat(3_040_000, 13_712_000)!;
    expect(on.convergence).toBeCloseTo(0.4899126 * (lng + 99), 4);
  });

  test('a scale of nought is refused with a sentence', () => {
    const none = placedOn({ on: TEXAS, placing: { ...byOrigin.placing, scale: 0 } as never }, 'ft');
    expect(none.ok ? '' : placingSentence(none.problem)).toMatch(/scale is a number above 0/);
  });
});

describe('a plant grid by marks known on both', () => {
  const [sin, cos] = [Math.sin(Math.PI / 9), Math.cos(Math.PI / 9)];
  const known = (x: number, y: number) =>
    [3_040_000 + (x - 5000) * cos + (y - 5000) * sin, 13_712_000 + (y - 5000) * cos - (x - 5000) * sin] as const; // prettier-ignore
  const marks = [
    [5000, 5000],
    [5800, 5000],
    [5800, 5600],
    [5000, 5600],
  ].map(([x = 0, y = 0], i) => ({ name: `C-${i + 1}`, local: [x, y], grid: known(x, y) }) as const);
  const byControl: LocalGrid = { on: TEXAS, placing: { by: 'control', marks, scale: 'free' } };

  test('gives the same site as the origin and the turn it was made with', () => {
    const [a, b] = [siteOn(byOrigin).grid, siteOn(byControl).grid];
    const [one, other] = [a.toLngLat(5400, 5200)!, b.toLngLat(5400, 5200)!];
    expect(one[0]).toBeCloseTo(other[0], 9);
    expect(one[1]).toBeCloseTo(other[1], 9);
  });

  test('one mark is too few, and the coordinates are drawn all the same', () => {
    const { grid, problem } = siteOn({
      on: TEXAS,
      placing: { by: 'control', marks: marks.slice(0, 1), scale: 'free' },
    });
    expect(problem).toMatch(/Two control points or more are needed/);
    expect(grid.toLngLat(5000, 5000)).toBeNull();
  });

  test('stands in the descriptor and comes back as it was', () => {
    const settings = { ...NEW_SITE, grid: plant(byControl) };
    const written = JSON.parse(JSON.stringify({ title: 'Plant', downgradient: writeSettings(settings) })); // prettier-ignore
    const { settings: read, problems } = readSettings(written as Record<string, unknown>);
    expect(problems).toEqual([]);
    expect(read.grid).toEqual(settings.grid);
  });

  test('half a placing in the descriptor is named, and the grid counts as tied to nothing', () => {
    const written = writeSettings({ ...NEW_SITE, grid: plant(byControl) });
    const grid = { ...(written.grid as object), local: { on: TEXAS } };
    const { settings, problems } = readSettings({ downgradient: { ...written, grid } });
    expect(problems.map(({ column }) => column)).toEqual(['downgradient.grid.local']);
    expect(settings.grid.local).toBeUndefined();
  });
});

describe('a file in the plant grid, for a site on the State Plane zone', () => {
  test('its points land where the plant grid lies; 100 ft along plant north is 34.202 ft east, 93.969 ft north', () => {
    const target = targetOf(emptySite({ grid: TEXAS }));
    const source = sourceOf(
      'plant.csv',
      'id,easting,northing,kind,status',
      'MW-1,5000,5000,monitoring well,installed',
      'MW-2,5000,5100,monitoring well,installed',
    );
    const mapping = {
      ...proposeMapping(source).mapping,
      coordinates: { kind: 'grid', grid: plant(byOrigin) },
    } as const;
    const first = preview(source, mapping, {}, target);
    const { edit, account, said } = preview(source, mapping, proposedAnswers(first.asks), target);
    expect(account).toMatchObject({ rows: 2, taken: 2, refused: 0 });
    expect(said.join(' ')).toContain('turned from Plant grid into NAD83 / Texas South Central');
    const rows = edit?.edits.flatMap((each) => (each.kind === 'add-rows' ? each.rows : [])) ?? [];
    expect(rows.map(({ easting, northing }) => [easting, northing])).toEqual([
      ['3040000.000', '13712000.000'],
      ['3040034.202', '13712093.969'],
    ]);
  });
});
