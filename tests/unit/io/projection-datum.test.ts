import proj4 from 'proj4';
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Grid } from '../../../src/domain/grid';
import { isLengthUnit, metres, type LengthUnit } from '../../../src/domain/units';
import { DATUMS_OF_STRINGS } from '../../../src/io/projection/figure';
import { openGrid } from '../../../src/io/projection/open-grid';
import { allSystems, findSystem } from '../../../src/io/projection/systems';

const fixture = (path: string) =>
  readFileSync(new URL(`../../fixtures/${path}`, import.meta.url), 'utf8');
const unitOf = (definition: string): LengthUnit => {
  const unit = /\+units=(\S+)/.exec(definition)?.[1] ?? '';
  if (!isLengthUnit(unit)) throw new Error(definition);
  return unit;
};
const opened = (code: string | null, projection: string | null, unit: LengthUnit): Grid => {
  const grid = openGrid({ code, projection, unit });
  if (!grid.ok) throw new Error(JSON.stringify(grid.problem));
  return grid.value;
};
const byString = (definition: string) => opened(null, definition, unitOf(definition));
const byCode = (code: string) => opened(code, null, findSystem(code)?.unit ?? 'm');
const apart = (grid: Grid, a: readonly number[], b: readonly number[]) =>
  metres(Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!), grid.unit);

describe('WGS 84 to the grid through explicit parameters, against PROJ', () => {
  type Point = { epsg: number; definition: string; lon: number; lat: number; E: number; N: number };
  const { points } = JSON.parse(fixture('oracles/a3_helmert.json')) as { points: Point[] };

  test('all 72 points of 24 systems within 0.01 m, there and back', () => {
    expect(points).toHaveLength(72);
    for (const { definition, lon, lat, E, N } of points) {
      const grid = byString(definition);
      expect(apart(grid, grid.fromLngLat(lon, lat)!, [E, N]), definition).toBeLessThan(0.01);
      const [lng, latitude] = grid.toLngLat(E, N)!;
      expect(Math.hypot(lng - lon, latitude - lat), definition).toBeLessThan(1e-7); // 0.01 m
    }
  });

  // The reference set picks a shift for each point; a grid opened by code has one.
  test.each(
    [...new Set(points.map((p) => p.epsg))].filter((epsg) => ![26714, 32018].includes(epsg)),
  )('EPSG:%d opened by code moves by one of the shifts of the reference set, to 0.01 m', (epsg) => {
    const grid = byCode(`EPSG:${epsg}`);
    const off = points
      .filter((p) => p.epsg === epsg)
      .map((p) => apart(grid, grid.fromLngLat(p.lon, p.lat)!, [p.E, p.N]));
    expect(Math.min(...off)).toBeLessThan(0.01);
  });

  test('NAD27 / UTM 14N runs from Texas to the Arctic: by code it takes the mean of the contiguous States, 2 m from that of the West there', () => {
    const grid = byCode('EPSG:26714');
    expect(grid.datum).toMatchObject({ shifted: true, accuracy: 10 });
    expect(grid.datum.note).toContain('EPSG:1173');
    const texas = points.find((p) => p.epsg === 26714 && p.lat < 45)!;
    expect(apart(grid, grid.fromLngLat(texas.lon, texas.lat)!, [texas.E, texas.N])).toBeLessThan(2);
  });

  test('each published shift, through the EPSG operation by code in cct, within 1 mm', () => {
    const lines = fixture('projections/shift-points.csv').trim().split('\n').slice(2);
    expect(lines.length).toBeGreaterThan(30);
    for (const line of lines) {
      const [operation, lon = NaN, lat = NaN, lonWgs84 = NaN, latWgs84 = NaN] = line
        .split(',')
        .map(Number);
      const system = allSystems().find((s) => s.shift?.operation === `EPSG:${operation}`);
      expect(system, line).toBeDefined();
      const grid = byCode(system!.code);
      const at = grid.fromOwnLngLat(lon, lat)!;
      const [lng, latitude] = grid.toLngLat(...at)!;
      expect(Math.hypot(lng - lonWgs84, latitude - latWgs84), line).toBeLessThan(1e-8);
    }
  });

  test('German Gauss-Krüger by code is within its stated 3 m of the answer through the national grid file', () => {
    type Ntv2 = { epsg: number; lon: number; lat: number; E: number; N: number };
    const ntv2 = (JSON.parse(fixture('oracles/a3_ntv2.json')) as { points: Ntv2[] }).points;
    const german = ntv2.filter((p) => p.epsg === 31467);
    expect(german).toHaveLength(4);
    const grid = byCode('EPSG:31467');
    expect(grid.datum.accuracy).toBe(3);
    for (const p of german)
      expect(apart(grid, grid.fromLngLat(p.lon, p.lat)!, [p.E, p.N])).toBeLessThan(3);
  });
});

describe('no datum is passed over in silence', () => {
  type Shifted = {
    epsg: number;
    name: string;
    plain_proj_string: string;
    unit_to_metre: number;
    points: {
      lon_wgs84: number;
      lat_wgs84: number;
      best_available: [number, number];
      no_shift: [number, number];
      no_shift_minus_best_m: number;
    }[];
  };
  const { crs } = JSON.parse(fixture('oracles/a2_datum_shift.json')) as { crs: Shifted[] };

  test.each(crs.filter(({ epsg }) => epsg !== 32018))(
    'EPSG:$epsg $name by code: within three times its stated accuracy of the best PROJ has',
    ({ epsg, points }) => {
      const grid = byCode(`EPSG:${epsg}`);
      const { accuracy, note } = grid.datum;
      expect(accuracy).toBeGreaterThan(0);
      expect(note).toContain(`stated accuracy ${accuracy} m`);
      for (const p of points) {
        const at = grid.fromLngLat(p.lon_wgs84, p.lat_wgs84)!;
        expect(apart(grid, at, p.best_available)).toBeLessThan(3 * accuracy!);
      }
    },
  );

  test.each(crs)(
    'EPSG:$epsg $name as a bare string: moved towards the best PROJ has, or the note says by how much it may be off',
    ({ plain_proj_string, points }) => {
      const grid = byString(plain_proj_string);
      for (const p of points) {
        const at = grid.fromLngLat(p.lon_wgs84, p.lat_wgs84)!;
        const off = apart(grid, at, p.best_available);
        if (p.no_shift_minus_best_m < 2) {
          expect(off).toBeLessThan(2);
          expect(grid.datum.note).toMatch(
            /agree[s]? with it within about 2 m|agree within about 2 m/,
          );
        } else if (grid.datum.shifted) expect(off).toBeLessThan(0.75 * p.no_shift_minus_best_m);
        else expect(grid.datum.note).toMatch(/unshifted.*may be off by hundreds of metres/);
      }
    },
  );

  test('NAD27 as a string is moved by the mean shift, which says its accuracy and where it holds', () => {
    const { datum } = byString('+proj=utm +zone=15 +datum=NAD27 +units=m');
    expect(datum).toMatchObject({ name: 'NAD27', shifted: true, accuracy: 10 });
    expect(datum.note).toMatch(
      /needs grid-shift files.*mean shift for the contiguous United States \(EPSG:1173\), stated accuracy 10 m there; elsewhere/,
    );
    expect(byString('+proj=utm +zone=6 +datum=NAD27 +units=m').datum.note).toContain(
      'mainland Alaska',
    );
    const mexico = byString('+proj=utm +zone=60 +datum=NAD27 +units=m').datum;
    expect(mexico.shifted).toBe(false);
    expect(mexico.note).toContain('no mean shift is known');
  });

  test('NAD27 asked for by its grid files is not taken as unshifted either', () => {
    const { datum } = byString(
      '+proj=utm +zone=15 +ellps=clrk66 +nadgrids=@conus,@alaska +units=m',
    );
    expect(datum).toMatchObject({ name: 'NAD27', shifted: true, accuracy: 10 });
  });

  test('a grid file that is not there is named', () => {
    const { datum } = byString(
      '+proj=tmerc +lon_0=9 +x_0=3500000 +ellps=bessel +nadgrids=BETA2007.gsb +units=m',
    );
    expect(datum.shifted).toBe(false);
    expect(datum.note).toMatch(/BETA2007\.gsb, which this app does not carry.*hundreds of metres/);
  });

  test('“no shift” claimed on an old ellipsoid is doubted', () => {
    const { datum } = byString('+proj=utm +zone=15 +ellps=clrk66 +towgs84=0,0,0 +units=m');
    expect(datum.note).toMatch(/unlikely on the ellipsoid clrk66.*hundreds of metres/);
  });

  test('the site’s own arithmetic stays on the grid’s own datum', () => {
    const [nad27, nad83] = [byCode('EPSG:26715'), byCode('EPSG:26915')];
    const at = [450_000, 4_400_000] as const;
    const [own, shown] = [nad27.toOwnLngLat(...at)!, nad27.toLngLat(...at)!];
    expect(Math.hypot(own[0] - shown[0], own[1] - shown[1])).toBeGreaterThan(1e-5);
    expect(nad27.fromOwnLngLat(...own)![0]).toBeCloseTo(at[0], 6);
    expect(nad83.toOwnLngLat(...at)).toEqual(nad83.toLngLat(...at));
  });

  test('what a +datum= word means is what proj4 has for it, and NAD27 means no numbers at all', () => {
    for (const [name, { towgs84, ellipsoid }] of DATUMS_OF_STRINGS) {
      // proj4 keeps the text of its table here, as a property its types leave out.
      const reference = new proj4.Proj(`+proj=longlat +datum=${name}`) as unknown as {
        ellps: string;
        datum_params: string[] | null;
      };
      expect(reference.datum_params?.map(Number) ?? null).toEqual(towgs84);
      expect(reference.ellps).toBe(ellipsoid);
    }
  });
});
