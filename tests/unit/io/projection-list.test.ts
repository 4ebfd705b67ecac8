import { describe, expect, test } from 'vitest';
import {
  allSystems,
  findSystem,
  inUnit,
  openSearch,
  systemsCovering,
} from '../../../src/io/projection/systems';

const search = await openSearch();
const codes = (query: string) => search(query).map(({ system }) => system.code);

describe('the list of grids', () => {
  // State Plane zone numbers of 15 CFR 2001 / FIPS, value from memory.
  test.each([
    ['4204', 'Texas South Central'],
    ['1301', 'Indiana East'],
    ['0406', 'California zone 6'],
    ['3104', 'New York Long Island'],
    ['2111', 'Michigan North'],
    ['5001', 'Alaska zone 1'],
    ['1601', 'Kentucky North'],
    ['2600', 'Nebraska'],
  ])('State Plane zone %s is %s', (zone, name) => {
    const found = search(zone, 200).filter(({ system }) => system.zone === zone);
    expect(found.length).toBeGreaterThan(1);
    for (const { system } of found.filter((f) => f.system.datum !== 'NAD27'))
      expect(system.name).toContain(name);
  });

  // EPSG:2965 is NAD83 / Indiana East (ftUS) (EPSG dataset; the list's own number).
  test('a grid is found by the words a survey’s title has for it, the unit it names first', () => {
    for (const title of [
      'State Plane Indiana East NAD83 US survey feet',
      'Indiana State Plane East Zone, NAD 83, US Survey Feet / NAVD88 feet',
    ])
      expect(codes(title)[0], title).toBe('EPSG:2965');
    expect(search('State Plane Indiana East NAD83 meters')[0]?.system.unit).toBe('m');
  });

  test('has every State Plane 83 zone in metres, and in the foot its state adopted', () => {
    const nad83 = allSystems().filter((s) => s.datum === 'NAD83' && s.zone !== null);
    const zones = new Set(nad83.map((s) => s.zone));
    const metric = new Set(nad83.filter((s) => s.unit === 'm').map((s) => s.zone));
    expect(metric).toEqual(zones);
    // The first two digits are the State: 01 to 49 without 08 (the District of Columbia uses
    // Maryland's), 50 Alaska, 51 Hawaii, 52 Puerto Rico (value from memory).
    const states = [...zones].map((zone) => Number(zone?.slice(0, 2)));
    const expected = Array.from({ length: 52 }, (_, i) => i + 1).filter((n) => n !== 8);
    expect([...new Set(states)].sort((a, b) => a - b)).toEqual(expected);
    const foot = (zone: string) =>
      nad83.filter((s) => s.zone === zone && s.unit !== 'm').map((s) => s.unit);
    expect(foot('4204')).toEqual(['us-ft']);
    expect(foot('0202')).toEqual(['ft']); // Arizona adopted the international foot
    expect(foot('3900')).toEqual(['ft']); // and South Carolina
  });

  test('has UTM north and south on WGS 84 in all sixty zones', () => {
    for (let zone = 1; zone <= 60; zone++) {
      expect(findSystem(`EPSG:${32600 + zone}`)?.name).toBe(`WGS 84 / UTM zone ${zone}N`);
      expect(findSystem(`EPSG:${32700 + zone}`)?.name).toBe(`WGS 84 / UTM zone ${zone}S`);
    }
  });

  test('carries no code twice', () => {
    const all = allSystems().map((s) => s.code);
    expect(new Set(all).size).toBe(all.length);
  });

  test('knows the same zone in another unit', () => {
    expect(inUnit(findSystem('EPSG:2278')!, 'm')?.code).toBe('EPSG:32140');
    expect(inUnit(findSystem('EPSG:32140')!, 'us-ft')?.code).toBe('EPSG:2278');
    expect(inUnit(findSystem('EPSG:2278')!, 'ft')).toBeNull();
  });
});

describe('searching it', () => {
  test('by code, however written, the exact one first', () => {
    expect(codes('2278')[0]).toBe('EPSG:2278');
    expect(codes('EPSG:27700')[0]).toBe('EPSG:27700');
  });

  test('by name, in any case and order', () => {
    expect(codes('indiana east')).toContain('EPSG:2965');
    expect(codes('East Indiana NAD 83')).toContain('EPSG:26973');
    expect(codes('utm 15n nad83')).toContain('EPSG:26915');
    expect(codes('british national grid')).toEqual(['EPSG:27700']);
  });

  test('by county, state or country', () => {
    expect(codes('Hamilton Indiana ftUS')).toContain('EPSG:2965');
    expect(codes('harris texas')).toContain('EPSG:2278');
    expect(codes('Switzerland')).toContain('EPSG:2056');
    expect(codes('Québec')).toContain('EPSG:2950');
    expect(codes('quebec').length).toBeGreaterThan(0);
  });

  test('says where each is meant for', () => {
    expect(search('EPSG:2965')[0]?.place).toMatch(/^USA - Indiana - counties of Adams;/);
  });

  test('by latitude and longitude, in degrees or in degrees, minutes and seconds: the grids meant for the place', () => {
    const names = search('39°46′06″N 86°09′29″W').map(({ system }) => system.name);
    expect(names.slice(0, 12)).toContain('NAD83 / Indiana East (ftUS)');
    expect(names).toContain('NAD83 / UTM zone 16N');
    expect(names.some((name) => /Texas|Ohio/.test(name))).toBe(false);
    expect(search('39.76833 N, 86.15806 W').map(({ system }) => system.name)).toEqual(names);
    // As maps on a screen give it: plain decimals, latitude first.
    expect(search('39.76833, -86.15806').map(({ system }) => system.name)).toEqual(names);
    expect(search('39.76833 -86.15806').map(({ system }) => system.name)).toEqual(names);
    expect(search('139.7, 86.1')).toEqual([]);
  });

  test('nothing asked, nothing found; nonsense too', () => {
    expect(codes('  ')).toEqual([]);
    expect(codes('zzzz')).toEqual([]);
  });

  test('by place, the most local first', () => {
    const at = systemsCovering(-86.158, 39.768).map((s) => s.name);
    expect(
      at.some(
        (name) => name === 'NAD83 / Indiana East (ftUS)' || name === 'NAD83 / Indiana West (ftUS)',
      ),
    ).toBe(true);
    expect(at).toContain('NAD83 / UTM zone 16N');
    expect(at.indexOf('NAD83 / Indiana East (ftUS)')).toBeLessThan(
      at.indexOf('WGS 84 / UTM zone 16N'),
    );
    expect(systemsCovering(178.5, -17.9).map((s) => s.code)).toContain('EPSG:32760');
  });
});
