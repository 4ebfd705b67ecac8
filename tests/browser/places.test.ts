/** Local grids, pictures, backdrops and drawings, brought in by a person with a mouse in a real browser. */
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { openGrid } from '../../src/io/projection/open-grid';
import { pmtiles, png, vectorTile } from '../unit/formats/drawn-files';
import { openApp } from './harness';

const menu = async (page: Page, item: string | RegExp) => {
  await page.locator('summary', { hasText: /^Open, save$/ }).click();
  await page.getByRole('banner').getByRole('button', { name: item }).click();
};
const PLACES = 'Its pictures, backdrop and control points…';

/** Share of the map's middle that is nearly of a colour. */
async function shareOf(page: Page, [r, g, b]: readonly [number, number, number]): Promise<number> {
  const shot = await page.locator('[data-window]').first().screenshot();
  return page.evaluate(
    async ({ picture, r, g, b }) => {
      const bytes = Uint8Array.from(atob(picture), (letter) => letter.charCodeAt(0));
      const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
      const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d')!;
      context.drawImage(bitmap, 0, 0);
      const { data } = context.getImageData(0, 0, bitmap.width, bitmap.height);
      let near = 0;
      for (let i = 0; i < data.length; i += 4)
        if (Math.hypot(data[i]! - r, data[i + 1]! - g, data[i + 2]! - b) < 40) near++;
      return near / (data.length / 4);
    },
    { picture: shot.toString('base64'), r, g, b },
  );
}

const GREEN = [60, 160, 90] as const;
const file = (name: string, mimeType: string, buffer: Buffer) => ({ name, mimeType, buffer });

test('a plant grid is laid on a State Plane zone by four control points, one of them typed wrong and seen', async () => {
  const app = await openApp({ size: 'tablet', path: '?site=osier-bend' });
  const { page } = app;
  await menu(page, 'Its settings and grid…');
  await page.getByRole('button', { name: 'A local grid laid on another' }).click();
  await page.getByLabel('Name of the local grid').fill('Plant grid');
  await page.getByLabel('Its unit', { exact: true }).selectOption('us-ft');
  await page.getByRole('button', { name: 'Add a control point' }).click();
  // A square of 1,000 ft turned a quarter clockwise: plant north points east. C-4 is 3 ft off in easting.
  const marks = [
    [0, 0, 300000, 1600000],
    [0, 1000, 301000, 1600000],
    [1000, 1000, 301000, 1599000],
    [1000, 0, 300003, 1599000],
  ];
  for (const [i, [e, n, east, north]] of marks.entries()) {
    const of = `of C-${i + 1}`;
    await page.getByLabel(`local easting, ftUS ${of}`).fill(String(e));
    await page.getByLabel(`local northing, ftUS ${of}`).fill(String(n));
    await page.getByLabel(`known easting, ftUS ${of}`).fill(String(east));
    await page.getByLabel(`known northing, ftUS ${of}`).fill(String(north));
  }
  // By hand, as in the unit test of the fit: a quarter of the 3 ft goes into the shift and a quarter
  // into turn and scale each; the mark that is wrong keeps half of it, 1.50 ft.
  await page.getByText(/the largest residual is 1\.50 ftUS, at C-4/).waitFor();
  await page.getByText(/Its north lies (89|90)\.\d{4}° clockwise of grid north/).waitFor();
  expect(await app.axe()).toEqual([]);
  await app.picture('places-local-grid');
  await page.getByLabel('known easting, ftUS of C-4').fill('300000');
  await page.getByText(/the largest residual is 0\.00 ftUS/).waitFor();
  await page.getByRole('button', { name: 'Use this local grid' }).click();
  await page.getByRole('button', { name: 'Keep these settings' }).click();
  await expect.poll(() => page.locator('header p').first().innerText()).toContain('Plant grid');
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await expect.poll(() => page.locator('header p').first().innerText()).toContain('Indiana East');
});

test('a site plan is placed by three marks, lies under the points, is undone, saved and opened again', async () => {
  const app = await openApp({ path: '?site=osier-bend' });
  const { page } = app;
  await app.drawn();
  await menu(page, PLACES);
  const input = page.getByLabel('A picture: PNG, JPEG or WebP');
  const script = '<svg xmlns="http://www.w3.org/2000/svg" onload="document.title=\'run\'"/>';
  await input.setInputFiles(file('plan.png', 'image/png', Buffer.from(script)));
  await page.getByText(/SVG images can carry scripts and are not taken/).waitFor();
  const plan = png(400, 300, () => GREEN);
  await input.setInputFiles(file('Plan of the yard.png', 'image/png', plan));

  // Marks at the corners of the picture, known at three places about the points.
  const boxes = await page.getByRole('region', { name: 'The picture' }).boundingBox();
  const press = (right: number, down: number) =>
    page.mouse.click(boxes!.x + 1 + right, boxes!.y + 1 + down);
  const ids = ['A', 'B', 'C'];
  const points = await page
    .getByLabel('or a point of the site')
    .locator('option')
    .evaluateAll((all) => all.map((one) => (one as HTMLOptionElement).value).filter(Boolean));
  const chosen = [points[0]!, points[Math.floor(points.length / 2)]!, points.at(-1)!];
  for (const [i, [right, down]] of [
    [40, 40],
    [360, 60],
    [200, 260],
  ].entries()) {
    await press(right!, down!);
    await expect
      .poll(() => page.getByLabel(`Dots right of mark ${ids[i]}`).inputValue())
      .toBe(String(right));
    await page.getByLabel('or a point of the site').selectOption(chosen[i]!);
  }
  await page.getByText(/Standard error of a coordinate .* ftUS; the largest residual is/).waitFor();
  await expect.poll(() => page.getByText(/^left: [\d.]+ ftUS$/).count()).toBe(3);
  expect(await app.axe()).toEqual([]);
  await app.picture('places-picture');

  // The third mark's place again, by a press on the map.
  await page.getByRole('button', { name: 'Press its place on the map' }).click();
  await page.getByText(/Press the place of mark C on the map/).waitFor();
  await app.picture('places-picking');
  const window = (await page.locator('[data-window]').first().boundingBox())!;
  await page.mouse.click(window.x + window.width / 2, window.y + window.height * 0.8);
  await page.getByRole('button', { name: 'Keep it here' }).click();
  await page.getByText('400 × 300 dots, 3 marks').waitFor();
  await page.getByLabel('How strong Plan of the yard is, percent').fill('100');
  await page.getByRole('button', { name: 'Back to the map' }).click();
  await expect.poll(() => shareOf(page, GREEN)).toBeGreaterThan(0.02);
  await app.picture('places-under-the-points');

  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await expect.poll(() => shareOf(page, GREEN)).toBe(0);
  await page.getByRole('button', { name: 'Redo', exact: true }).click();
  await page.getByRole('button', { name: 'Redo', exact: true }).click();

  await page.locator('summary', { hasText: /^Open, save$/ }).click();
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save this site as a zip' }).click(),
  ]);
  const at = join(mkdtempSync(join(tmpdir(), 'saved-')), 'yard.zip');
  await download.saveAs(at);
  const zip = readFileSync(at);
  const files = unzipSync(new Uint8Array(zip));
  const path = Object.keys(files).find((each) => each.startsWith('images/'))!;
  expect(path).toMatch(/^images\/plan-of-the-yard\.[0-9a-f]{12}\.png$/);
  expect(Buffer.from(files[path]!)).toEqual(plan);

  // Kept in the browser as well, and out of the zip again.
  await page.getByText('Saved', { exact: true }).waitFor();
  await page.goto(new URL('.', page.url()).href);
  await expect.poll(() => shareOf(page, GREEN)).toBeGreaterThan(0.02);
  await page.locator('summary', { hasText: /^Open, save$/ }).click();
  await page
    .getByLabel('Open a zip of a site')
    .setInputFiles(file('yard.zip', 'application/zip', zip));
  await expect.poll(() => shareOf(page, GREEN)).toBeGreaterThan(0.02);
});

test('a local archive of tiles lies under the map and nothing is fetched; control points find the other foot', async () => {
  const app = await openApp({ size: 'tablet', path: '?site=osier-bend' });
  const { page } = app;
  await app.drawn();
  await menu(page, PLACES);
  await page
    .getByLabel('A local archive of tiles (PMTiles), from this device')
    .setInputFiles(file('yard.pmtiles', 'application/octet-stream', pmtiles(png(16, 16, () => GREEN)))); // prettier-ignore
  await page.getByText('Under the map: yard.pmtiles').waitFor();
  await page.getByLabel('How strong it is, percent').fill('100');
  expect(await app.axe()).toEqual([]);
  await app.picture('places');

  // The same metres in the other foot: 2 parts per million less (85 FR 62698).
  const [head = '', ...rows] = readFileSync(
    new URL('../../demo-sites/osier-bend/locations.csv', import.meta.url),
    'utf8',
  ).split('\n');
  const at = (name: string) => head.split(',').indexOf(name);
  const row = rows.find((each) => each.startsWith('MW-1,'))!.split(',');
  const otherFoot = (text: string) => ((Number(text) * 0.3048) / (1200 / 3937)).toFixed(3);
  await page.getByLabel('Point of the site').selectOption('MW-1');
  await page.getByLabel('Known easting').fill(otherFoot(row[at('easting')]!));
  await page.getByLabel('Known northing').fill(otherFoot(row[at('northing')]!));
  await page.getByRole('button', { name: 'Compare' }).click();
  await page
    .getByRole('status')
    .getByText(/off by 2 parts per million, 3\.8 ftUS here.*international feet/)
    .waitFor();
  await page.getByRole('button', { name: 'Back to the map' }).click();
  await page.getByText('Backdrop: yard.pmtiles').waitFor();
  await app.drawn();
  // The green, made less strong in colour so that the site stands out.
  await expect.poll(() => shareOf(page, [82, 138, 97])).toBeGreaterThan(0.2);
  await app.picture('places-backdrop');

  // Tiles of shapes, drawn in the app's own colours: water, named so by its layer, is a wash of blue.
  await menu(page, PLACES);
  const shapes = pmtiles(vectorTile('water'), {
    tileType: 1,
    metadata: { vector_layers: [{ id: 'water' }] },
  });
  await page
    .getByLabel('A local archive of tiles (PMTiles), from this device')
    .setInputFiles(file('shapes.pmtiles', 'application/octet-stream', shapes));
  await page.getByRole('button', { name: 'Back to the map' }).click();
  await page.getByText('Backdrop: shapes.pmtiles').waitFor();
  await expect.poll(() => shareOf(page, [211, 227, 240])).toBeGreaterThan(0.4);
  await app.picture('places-backdrop-of-shapes');
});

test('tiles of an address are asked for on a page of its own, after a button, and from no other server', async () => {
  const app = await openApp({
    path: 'with-address.html?site=osier-bend',
    mayComplain: true,
    before: async (page) => {
      await page.route('https://tiles.example/**', (route) =>
        route.fulfill({
          contentType: 'image/png',
          headers: { 'access-control-allow-origin': '*' },
          body: png(16, 16, () => GREEN),
        }),
      );
    },
  });
  const { page } = app;
  await app.drawn();
  await menu(page, PLACES);
  await page.getByText(/The server whose address you give learns where your site is/).waitFor();
  const address = page.getByLabel(/^Address of tiles/);
  await address.fill('https://tiles.example/{z}/{x}.png');
  await page.getByRole('button', { name: 'Ask this server' }).click();
  await page.getByText(/It has \{z\}, \{x\} and \{y\}/).waitFor();
  expect(app.foreignRequests()).toEqual([]);
  await address.fill('https://tiles.example/{z}/{x}/{y}.png');
  await page.getByRole('button', { name: 'Ask this server' }).click();
  expect(await app.axe()).toEqual([]);
  await app.picture('places-address');
  await page.getByRole('button', { name: 'Back to the map' }).click();
  await page
    .getByText('tiles.example is asked for tiles and learns where this map looks.')
    .waitFor();
  await expect.poll(() => shareOf(page, [150, 184, 158])).toBeGreaterThan(0.2);
  const hosts = new Set(app.foreignRequests().map((each) => new URL(each).host));
  expect([...hosts]).toEqual(['tiles.example']);
  expect(app.complaints).toEqual([]);
});

test('GeoJSON, KML, GPX and a zipped shapefile come in by the mouse, every row of them accounted for', async () => {
  const app = await openApp({ path: '?site=osier-bend' });
  const { page } = app;
  const grid = openGrid({ code: 'EPSG:2965', projection: null, unit: 'us-ft' });
  if (!grid.ok) throw new Error();
  const place = (east: number, north: number) => grid.value.toLngLat(east, north)!;
  const feature = (name: string, geometry: object, properties: object) => ({
    type: 'Feature',
    properties: { name, ...properties },
    geometry,
  });
  const geojson = {
    type: 'FeatureCollection',
    features: [
      feature('GJ-1', { type: 'Point', coordinates: place(488900, 1822100) }, { kind: 'direct push', status: 'planned' }), // prettier-ignore
      feature('GJ-2', { type: 'Point', coordinates: place(489000, 1822150) }, { kind: 'direct push', status: 'planned' }), // prettier-ignore
      feature('Shed', { type: 'Polygon', coordinates: [[place(488900, 1822000), place(488950, 1822000), place(488950, 1822040), place(488900, 1822000)]] }, { kind: 'building' }), // prettier-ignore
    ],
  };
  const kml = `<kml xmlns="http://www.opengis.net/kml/2.2"><Document>
    <Placemark><name>KM-1</name><ExtendedData><Data name="kind"><value>direct push</value></Data><Data name="status"><value>planned</value></Data></ExtendedData>
    <Point><coordinates>${place(488950, 1822050).join()}</coordinates></Point></Placemark>
    <Placemark><name>nowhere</name></Placemark></Document></kml>`;
  const [lng, lat] = place(489050, 1822050);
  const gpx = `<gpx version="1.1" creator="hand" xmlns="http://www.topografix.com/GPX/1/1"><wpt lat="${lat}" lon="${lng}"><name>GP-1</name></wpt></gpx>`;
  const shapefile = readFileSync(new URL('../fixtures/files/points.zip', import.meta.url));
  await menu(page, /Take files into its tables/);
  await page
    .getByLabel('Files', { exact: true })
    .setInputFiles([
      file('points.geojson', 'application/geo+json', Buffer.from(JSON.stringify(geojson))),
      file('points.kml', 'application/vnd.google-earth.kml+xml', Buffer.from(kml)),
      file('points.gpx', 'application/gpx+xml', Buffer.from(gpx)),
      file('points.zip', 'application/zip', shapefile),
    ]);
  const take = async (name: string, account: string) => {
    await page.getByRole('heading', { name: new RegExp(`^Take in ${name}`) }).waitFor();
    await page.getByRole('row', { name: `Rows ${account}` }).waitFor();
    await page.getByRole('button', { name: 'Take it in' }).click();
  };
  await take('points.geojson, points', '2 2 2 0 0 0 0');
  await page.getByText(/expected a point, line or area/i).first().waitFor(); // prettier-ignore
  await take('points.kml', '2 1 1 0 0 0 1 0');
  await page.getByRole('heading', { name: 'Take in points.gpx' }).waitFor();
  await page.getByLabel('What is GP-1?').selectOption('direct push, planned');
  await take('points.gpx', '1 1 1 0 0 0 0');
  // A shapefile in the survey feet of California: two of its points are read, the third has no
  // place, and the two that are land far from the site.
  await page.getByRole('heading', { name: /^Take in points.shp/ }).waitFor();
  await page.getByLabel(/^What are DP-1/).selectOption('direct push, planned');
  await page.getByText(/DP-1 stands [\d,]+ km from the middle of the points/).waitFor();
  expect(await page.getByLabel('Its coordinates are in').inputValue()).toBe('grid');
  await page.getByRole('row', { name: /^Rows 3 2 2 0 0 0 1 0/ }).waitFor();
  await app.picture('places-far');
  await page.getByRole('button', { name: 'Leave this file out' }).click();
  // Locations come first, whatever the order of the files.
  await take('points.geojson, lines and areas', '1 1 1 0 0 0 0');
  await page.getByText(/lines and areas: Added 1 in features/).waitFor();
  await page.getByRole('button', { name: 'Back to the map' }).click();
  await page.getByRole('button', { name: 'Tables', exact: true }).click();
  const before = (name: string) =>
    readFileSync(new URL(`../../demo-sites/osier-bend/${name}.csv`, import.meta.url), 'utf8')
      .trimEnd()
      .split('\n').length - 1;
  const option = (table: string) => page.locator(`option[value="${table}"]`).first();
  await expect
    .poll(() => option('locations').innerText())
    .toBe(`Locations (${before('locations') + 4})`);
  await expect.poll(() => option('features').innerText()).toContain(`(${before('features') + 1})`);
});

test('points come in from a grid on the older datum, moved and with its accuracy said, and from a plant grid', async () => {
  const app = await openApp({ path: '?site=osier-bend' });
  const { page } = app;
  const csv = (rows: readonly string[]) =>
    Buffer.from(['Point,Easting,Northing,Kind,Status', ...rows].join('\n'));
  await menu(page, /Take files into its tables/);
  await page
    .getByLabel('Files', { exact: true })
    .setInputFiles([
      file('old-datum.csv', 'text/csv', csv(['OD-1,366100.00,1002000.00,direct push,planned'])),
      file(
        'plant.csv',
        'text/csv',
        csv(['PG-1,0,0,direct push,planned', 'PG-2,0,100,direct push,planned']),
      ),
    ]);
  await page.getByRole('heading', { name: 'Take in old-datum.csv' }).waitFor();
  await page.getByLabel('Its coordinates are in').selectOption('grid');
  await page.getByLabel('Grid by name, number or region').fill('26773');
  await page
    .getByRole('button', { name: /^NAD27 \/ Indiana East/ })
    .first()
    .click();
  await page
    .getByText(/turned from NAD27 \/ Indiana East into NAD83 .* stated accuracy 10 m/)
    .waitFor();
  await page.getByRole('button', { name: 'Take it in' }).click();

  // A plant grid whose north points east: 100 ft to its north is 100 ft east.
  await page.getByRole('heading', { name: 'Take in plant.csv' }).waitFor();
  await page.getByLabel('Its coordinates are in').selectOption('grid');
  await page.getByRole('button', { name: 'A local grid laid on another' }).click();
  await page.getByLabel('Its unit', { exact: true }).selectOption('us-ft');
  await page.getByLabel('It is laid by').selectOption('origin');
  const origin = {
    'local easting': 0,
    'local northing': 0,
    'known easting': 488900,
    'known northing': 1822100,
  };
  for (const [says, value] of Object.entries(origin))
    await page.getByLabel(new RegExp(`^${says}, ftUS of`)).fill(String(value));
  await page.getByLabel(/^Azimuth of its north/).fill('90');
  await app.picture('places-plant-grid');
  await page.getByRole('button', { name: 'Use this local grid' }).click();
  await page.getByText(/turned from Local grid into NAD83/).waitFor();
  await page.getByRole('button', { name: 'Take it in' }).click();
  await page.getByText('plant.csv: Added 2 in locations.').waitFor();
  await page.getByRole('button', { name: 'Back to the map' }).click();

  await menu(page, /Save its tables and drawings/);
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: /^Locations/ }).click(),
  ]);
  const saved = join(mkdtempSync(join(tmpdir(), 'saved-')), 'locations.csv');
  await download.saveAs(saved);
  const lines = readFileSync(saved, 'utf8').split('\n');
  const place = (id: string) => lines.find((each) => each.startsWith(`${id},`))!.split(',', 3).slice(1).map(Number); // prettier-ignore
  expect(place('PG-1')).toEqual([488900, 1822100]);
  expect(place('PG-2')).toEqual([489000, 1822100]);
  // The same place by the published mean shift, whose arithmetic is tested against PROJ.
  const older = openGrid({ code: 'EPSG:26773', projection: null, unit: 'us-ft' });
  const site = openGrid({ code: 'EPSG:2965', projection: null, unit: 'us-ft' });
  if (!older.ok || !site.ok) throw new Error();
  const [east, north] = site.value.fromLngLat(...older.value.toLngLat(366100, 1002000)!)!;
  expect(Math.abs(place('OD-1')[0]! - east)).toBeLessThan(0.001);
  expect(Math.abs(place('OD-1')[1]! - north)).toBeLessThan(0.001);
});
