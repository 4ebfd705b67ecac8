import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { metres, type LengthUnit } from '../../../src/domain/units';
import { openGrid } from '../../../src/io/projection/open-grid';
import { openLocalGrid } from '../../../src/io/projection/open-local-grid';
import { gridProblemSentence } from '../../../src/io/projection/problem';

const open = (projection: string | null, unit: LengthUnit = 'm', code: string | null = null) =>
  openGrid({ code, projection, unit });
const sentence = (
  projection: string | null,
  unit: LengthUnit = 'm',
  code: string | null = null,
) => {
  const grid = open(projection, unit, code);
  return grid.ok ? 'opened' : gridProblemSentence(grid.problem);
};

describe('refused, with a sentence', () => {
  test.each([
    [
      'longitude and latitude by code',
      null,
      'EPSG:4326',
      'longitude and latitude: a degree is no distance',
    ],
    [
      'NAD83 longitude and latitude',
      null,
      'EPSG:4269',
      'EPSG:4269 (NAD83) is longitude and latitude',
    ],
    [
      'longitude and latitude by string',
      '+proj=longlat +datum=WGS84',
      null,
      '+proj=longlat is longitude',
    ],
    ['earth-centred', null, 'EPSG:4978', 'earth-centred'],
    ['earth-centred by string', '+proj=geocent +datum=WGS84', null, 'earth-centred'],
    [
      'Web Mercator by code',
      null,
      'EPSG:3857',
      'EPSG:3857 is Web Mercator: at 38° north its distances are 27 % too long',
    ],
    ['Web Mercator by an old code', null, '900913', 'Web Mercator'],
    [
      'Web Mercator by string',
      '+proj=merc +a=6378137 +b=6378137 +lat_ts=0 +lon_0=0 +nadgrids=@null +units=m',
      null,
      'Web Mercator',
    ],
    ['Web Mercator by its short name', '+proj=webmerc +datum=WGS84', null, 'Web Mercator'],
    ['nothing', null, null, 'No grid is given'],
    ['blanks', '  ', '', 'No grid is given'],
    ['a code not carried', null, 'EPSG:2100', '“EPSG:2100” is not in the list'],
    ['a word', 'Indiana East', null, 'neither an EPSG code nor a projection string'],
    ['well-known text without a code', 'PROJCS["Site grid",GEOGCS["x"]]', null, 'well-known text'],
    [
      'a projection for world maps',
      '+proj=robin +units=m',
      null,
      'The projection “robin” is not one',
    ],
    [
      'a misspelt parameter',
      '+proj=tmerc +lat0=37 +units=m',
      null,
      '“+lat0”, which this app does not know',
    ],
    ['a parameter twice', '+proj=tmerc +lon_0=9 +lon_0=12', null, 'gives “+lon_0” twice'],
    [
      'degrees and minutes that would be read as degrees',
      "+proj=tmerc +lat_0=39d20'N",
      null,
      "“+lat_0” can’t be “39d20'N”",
    ],
    ['UTM without a zone', '+proj=utm +ellps=GRS80', null, '“+zone” can’t be “”'],
    ['UTM zone 61', '+proj=utm +zone=61', null, '“+zone” can’t be “61”'],
    ['a scale of nothing', '+proj=tmerc +k=0', null, '“+k” can’t be “0”'],
    [
      'an unknown ellipsoid, which would become WGS 84',
      '+proj=tmerc +ellps=clarke66',
      null,
      '“+ellps” can’t be “clarke66”',
    ],
    [
      'an unknown datum, which would become WGS 84',
      '+proj=tmerc +datum=NAD1927',
      null,
      '“+datum” can’t be “NAD1927”',
    ],
    ['an unknown meridian', '+proj=tmerc +pm=warsaw', null, '“+pm” can’t be “warsaw”'],
    ['a shift of four numbers', '+proj=tmerc +towgs84=1,2,3,4', null, '“+towgs84” can’t be'],
    ['axes west and south', '+proj=tmerc +lon_0=21 +axis=wsu', null, 'easting then northing'],
    ['kilometres', '+proj=tmerc +units=km', null, 'The projection is in “km”'],
    ['links', '+proj=tmerc +to_meter=0.201168', null, 'The projection is in “0.201168”'],
    [
      'Krovak with a false origin, which proj4 leaves out',
      '+proj=krovak +ellps=bessel +x_0=5000000',
      null,
      '“+x_0” can’t be “5000000”',
    ],
    [
      'a cone with no parallel',
      '+proj=lcc +lat_0=0 +lon_0=9',
      null,
      'gives no coordinates at its own origin',
    ],
    ['a prototype', '+proj=tmerc +__proto__=x', null, '“+__proto__”'],
  ])('%s', (_, projection, code, words) => {
    expect(sentence(projection, 'm', code)).toContain(words);
  });

  test('a grid in survey feet for a site in metres, with the zone that is in metres', () => {
    expect(sentence(null, 'm', 'EPSG:2965')).toBe(
      'NAD83 / Indiana East (ftUS), EPSG:2965, is in US survey feet, but the site says metres. The same zone in metres is EPSG:26973.',
    );
    expect(sentence(null, 'ft', 'EPSG:2965')).toMatch(
      /the site says international feet\. Change one of them\.$/,
    );
    expect(sentence('+proj=utm +zone=15 +units=us-ft')).toContain(
      'is in US survey feet, but the site says metres',
    );
  });

  test('a code and a string that are not the same grid', () => {
    const south =
      '+proj=lcc +lat_0=27.8333333333333 +lon_0=-99 +lat_1=30.2833333333333 +lat_2=28.3833333333333 +x_0=600000 +y_0=3999999.9998984 +datum=NAD83 +units=us-ft';
    expect(sentence(south, 'us-ft', 'EPSG:2278')).toBe('opened');
    expect(sentence(south.replace('x_0=600000', 'x_0=700000'), 'us-ft', 'EPSG:2278')).toContain(
      'The projection string given with EPSG:2278 is not that system',
    );
  });
});

describe('taken', () => {
  test.each([
    'EPSG:2278',
    'epsg:2278',
    '2278',
    'urn:ogc:def:crs:EPSG::2278',
    'urn:ogc:def:crs:EPSG:10.076:2278',
  ])('the code %s', (code) => {
    const grid = open(null, 'us-ft', code);
    expect(grid.ok && grid.value.name).toBe('NAD83 / Texas South Central (ftUS)');
  });

  test('well-known text that ends in its code', () => {
    const text =
      'PROJCS["NAD83 / UTM zone 15N",GEOGCS["NAD83",AUTHORITY["EPSG","4269"]],AUTHORITY["EPSG","26915"]]';
    const grid = open(text);
    expect(grid.ok && grid.value.name).toBe('NAD83 / UTM zone 15N');
  });

  test('a code not carried, with its string', () => {
    const grid = open(
      '+proj=tmerc +lat_0=0 +lon_0=24 +k=0.9996 +x_0=500000 +datum=GGRS87 +units=m',
      'm',
      'EPSG:2100',
    );
    expect(grid.ok && grid.value.datum).toMatchObject({ name: 'GGRS87', shifted: true });
  });

  test('a string without a unit is in the unit the site says', () => {
    const definition =
      '+proj=tmerc +lat_0=37.5 +lon_0=-85.6666666666667 +k=0.999966666666667 +x_0=100000 +y_0=250000 +ellps=GRS80';
    const [bare, feet] = [open(definition, 'us-ft'), open(`${definition} +units=us-ft`, 'us-ft')];
    expect(bare.ok && bare.value.fromLngLat(-86, 40)).toEqual(
      feet.ok && feet.value.fromLngLat(-86, 40),
    );
  });

  test('a sphere, with a caution', () => {
    const grid = open('+proj=lcc +lat_1=33 +lat_2=45 +lat_0=39 +lon_0=-96 +R=6370000');
    expect(grid.ok && grid.value.factsAt(0, 0, metres(0)).caution).toContain('on a sphere');
  });

  test('a Mercator far from its parallel, with a caution', () => {
    const grid = open('+proj=merc +lon_0=0 +ellps=GRS80');
    expect(grid.ok && grid.value.factsAt(0, 5_000_000, metres(0)).caution).toMatch(
      /stretches distances by \+\d/,
    );
  });
});

test('whatever is typed, a grid or a sentence comes back', () => {
  const word = fc.constantFrom('+proj=', '+proj=tmerc', '+proj=omerc', '+proj=lcc', '+lat_1=', '+lat_0=90', '+lon_0=1e400', '+k=1e-300', '+x_0=-1e300', '+ellps=GRS80', '+a=1', '+rf=2', '+towgs84=', '+nadgrids=@null', '+alpha=90', '[', '4326', '+south'); // prettier-ignore
  fc.assert(
    fc.property(fc.array(fc.oneof(word, fc.string()), { maxLength: 8 }), (words) => {
      const grid = open(words.join(' '));
      if (!grid.ok) {
        expect(gridProblemSentence(grid.problem)).toMatch(/\.$/);
        return;
      }
      const facts = grid.value.factsAt(1000, 2000, metres(10));
      for (const value of [facts.convergence, facts.pointScale, facts.combinedFactor])
        if (value !== null) expect(Number.isFinite(value)).toBe(true);
    }),
    { numRuns: 2000 },
  );
});

describe('a plant grid', () => {
  const opened = open(null, 'us-ft', 'EPSG:2278');
  if (!opened.ok) throw new Error();
  const state = opened.value;
  const [e, n] = state.fromLngLat(-95.3, 29.77)!;
  const tie = {
    local: { east: metres(5000, 'ft'), north: metres(5000, 'ft') },
    grid: { east: metres(e, 'us-ft'), north: metres(n, 'us-ft') },
    rotation: 12.5 as never,
    scale: 1,
  };
  const plant = openLocalGrid('Plant grid', 'ft', { tie, on: state });

  test('lies where it is tied, in its own unit', () => {
    const [lng, lat] = plant.toLngLat(5000, 5000)!;
    expect(lng).toBeCloseTo(-95.3, 10);
    expect(lat).toBeCloseTo(29.77, 10);
    const [x, y] = plant.fromLngLat(...plant.toLngLat(5123.4, 4876.5)!)!;
    expect(x).toBeCloseTo(5123.4, 6);
    expect(y).toBeCloseTo(4876.5, 6);
  });

  test('1,000 ft along plant north is 1,000 ft at azimuth 12.5° on the other grid', () => {
    const there = state.fromLngLat(...plant.toLngLat(5000, 6000)!)!;
    const apart = metres(Math.hypot(there[0] - e, there[1] - n), 'us-ft');
    expect(apart).toBeCloseTo(304.8, 6);
    expect((Math.atan2(there[0] - e, there[1] - n) * 180) / Math.PI).toBeCloseTo(12.5, 7);
  });

  test('takes the convergence and the combined factor of the other grid', () => {
    const [facts, on] = [plant.factsAt(5000, 5000, metres(20)), state.factsAt(e, n, metres(20))];
    expect(facts.convergence).toBeCloseTo(on.convergence! + 12.5, 9);
    expect(facts.combinedFactor).toBeCloseTo(on.combinedFactor!, 12);
    expect(facts.unit).toBe('ft');
  });

  test('tied to nothing has no place on earth and no true north', () => {
    const loose = openLocalGrid('Plant grid', 'ft', null);
    expect(loose.toLngLat(1, 2)).toBeNull();
    expect(loose.covers(1, 2)).toBeNull();
    expect(loose.factsAt(1, 2, metres(0))).toMatchObject({
      convergence: null,
      combinedFactor: null,
      conformal: true,
    });
  });
});
