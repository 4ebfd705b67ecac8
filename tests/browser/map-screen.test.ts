import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openApp, type OpenOptions } from './harness';
import { servePage, type ServedPage } from './pages/serve-page';
import type {} from './pages/map/for-tests';

let served: ServedPage;
beforeAll(async () => {
  served = await servePage('map');
});
afterAll(() => served?.close());

const open = async (query = '', options: OpenOptions = {}) => {
  const app = await openApp({ ...options, address: served.address, path: query });
  await app.drawn();
  return app;
};

/** How many things of a layer are on the screen, by MapLibre's own account. */
const rendered = (page: Page, ...layers: string[]) =>
  page.evaluate(
    (ids) => window.forTests.map?.queryRenderedFeatures({ layers: ids }).length ?? 0,
    layers,
  );

/** Where a point of the site is on the page. */
const whereIs = async (page: Page, id: string) => {
  const [x, y] = await page.evaluate((name) => {
    const { map, points, toLngLat } = window.forTests;
    const point = points.find((one) => one.id === name);
    if (!map || !point) throw new Error(name);
    const [lng, lat] = toLngLat(...point.at);
    const at = map.project([lng, lat]);
    const { left, top } = map.getContainer().getBoundingClientRect();
    return [at.x + left, at.y + top] as const;
  }, id);
  return { x, y };
};

/** In a browser that has no WebGL to give. */
const withoutWebGl = async (page: Page) => {
  await page.addInitScript(() => {
    const given = Object.getOwnPropertyDescriptor(HTMLCanvasElement.prototype, 'getContext')
      ?.value as (this: HTMLCanvasElement, kind: string, ...more: unknown[]) => unknown;
    Object.defineProperty(HTMLCanvasElement.prototype, 'getContext', {
      value(this: HTMLCanvasElement, kind: string, ...more: unknown[]) {
        return kind.startsWith('webgl') ? null : given.call(this, kind, ...more);
      },
    });
  });
};

describe('on the screen', () => {
  test('points, heads and the arrow of flow are drawn, from the page’s own files alone', async () => {
    const { page, requests } = await open();
    // 46 locations; the window cuts none of them off.
    await expect.poll(() => rendered(page, 'points/icon')).toBe(46);
    await expect.poll(() => rendered(page, 'posted-heads/words')).toBeGreaterThan(15);
    await expect.poll(() => rendered(page, 'arrow/line')).toBeGreaterThan(0);
    await expect.poll(() => rendered(page, 'captions/words-always')).toBeGreaterThan(0);
    expect(requests.every((address) => /^(data|blob):|^http:\/\/127\.0\.0\.1:/.test(address))).toBe(
      true,
    );
  });

  test('the page says it is drawn only when it is', async () => {
    const { page } = await open();
    await page.evaluate(() => {
      const said: (string | undefined)[] = [];
      Object.assign(window, { said });
      const { documentElement: root } = document;
      new MutationObserver(() => {
        if (root.dataset.drawn !== said.at(-1)) said.push(root.dataset.drawn);
      }).observe(root, { attributeFilter: ['data-drawn'] });
    });
    const said = () => page.evaluate(() => (window as unknown as { said: string[] }).said);
    await page.evaluate(() => window.forTests.look(0.4));
    await expect.poll(said).toEqual(['no', 'yes']);
    await page.evaluate(() => window.forTests.clear());
    await expect.poll(said).toEqual(['no', 'yes', 'no', 'yes']);
    const layers = await page.evaluate(() =>
      window.forTests.map?.queryRenderedFeatures().map(({ layer }) => layer.id.split('/')[0]),
    );
    expect(new Set(layers)).toEqual(new Set(['graticule']));
  });

  test.each([
    ['tied to a State Plane grid', ''],
    ['tied to a UTM grid', '?site=quellmoor&event=2026-05&zone=sand'],
    ['tied to nothing', '?untied'],
  ])('in a grid %s, grid north is up and grid east to the right', async (_, query) => {
    const { page } = await open(query);
    const [middle, north, east] = await page.evaluate(() => {
      const { map, points, seen, toLngLat } = window.forTests;
      if (!map || !seen || !points[0]) throw new Error('no map');
      const [e, n] = points[0].at;
      return [
        [e, n],
        [e, n + 20],
        [e + 20, n],
      ].map(([x = 0, y = 0]) => {
        const [lng, lat] = toLngLat(x, y);
        const at = map.project([lng, lat]);
        return [at.x, at.y] as const;
      });
    });
    if (!middle || !north || !east) throw new Error('nothing projected');
    expect(Math.abs(north[0] - middle[0])).toBeLessThan(0.1);
    expect(north[1]).toBeLessThan(middle[1] - 5);
    expect(Math.abs(east[1] - middle[1])).toBeLessThan(0.1);
    expect(east[0]).toBeGreaterThan(middle[0] + 5);
  });

  test('the pointer’s coordinates are those of the point under it, in the site’s unit', async () => {
    const { page } = await open();
    const { x, y } = await whereIs(page, 'MW-2'); // E 489,030.0 N 1,822,400.0 in its table
    await page.mouse.move(x, y);
    const said = await page.locator('p', { hasText: ' E' }).innerText();
    const [east = 0, north = 0] =
      said.match(/[\d,]+\.\d/g)?.map((n) => Number(n.replaceAll(',', ''))) ?? [];
    expect(Math.abs(east - 489_030)).toBeLessThan(1);
    expect(Math.abs(north - 1_822_400)).toBeLessThan(1);
    expect(said).toMatch(/ftUS$/);
  });

  test('where there is no direction there is no arrow', async () => {
    const { page } = await open('?site=quellmoor&event=2025-10&zone=sand');
    await expect.poll(() => rendered(page, 'points/icon')).toBeGreaterThan(5);
    const layers = await page.evaluate(() =>
      window.forTests.map?.getStyle().layers.map(({ id }) => id),
    );
    expect(layers?.filter((id) => /^(arrow|fan)\//.test(id))).toEqual([]);
  });
});

describe('choosing a point', () => {
  test('by a click on it, or near it, and nothing by a click on paper', async () => {
    const { page } = await open();
    const selected = page.locator('#selected');
    const { x, y } = await whereIs(page, 'MW-2');
    await page.mouse.click(x + 6, y - 5);
    await expect.poll(() => selected.textContent()).toBe('MW-2');
    await page.mouse.click(x - 60, y - 20);
    await expect.poll(() => selected.textContent()).toBe('');
  });

  test('with the keyboard alone: type its name, press Enter', async () => {
    const { page } = await open();
    const list = page.getByRole('listbox', { name: 'Points on the map' });
    for (let i = 0; i < 12 && !(await list.evaluate((el) => el === document.activeElement)); i++)
      await page.keyboard.press('Tab');
    await page.keyboard.type('mw6');
    await expect.poll(() => rendered(page, 'selection/icon')).toBe(1);
    await page.getByText('monitoring well, installed').last().waitFor();
    await page.keyboard.press('Enter');
    await expect.poll(() => page.locator('#selected').textContent()).toBe('MW-6');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await expect.poll(() => page.locator('#selected').textContent()).toBe('PZ-1D');
  });

  test('a screen reader is told every point, what it is, and which is chosen', async () => {
    const { page } = await open();
    const options = page.getByRole('option');
    await expect.poll(() => options.count()).toBe(46);
    await expect
      .poll(() => options.first().textContent())
      .toContain('DP-01, direct push, decommissioned');
    const { x, y } = await whereIs(page, 'MW-2');
    await page.mouse.click(x, y);
    await expect
      .poll(() => page.locator('[role=option][aria-selected=true]').textContent())
      .toContain('MW-2');
  });
});

describe('the view', () => {
  test('comes nearer, goes farther, and back to the whole site, by buttons', async () => {
    const { page, drawn } = await open();
    const width = () =>
      page.evaluate(() => (window.forTests.seen?.east ?? 0) - (window.forTests.seen?.west ?? 0));
    const before = await width();
    await page.getByRole('button', { name: 'Nearer' }).click();
    await expect.poll(async () => (await width()) / before).toBeCloseTo(0.5, 2);
    await page.getByRole('button', { name: 'Farther' }).click();
    await expect.poll(async () => (await width()) / before).toBeCloseTo(1, 2);
    await page.getByRole('button', { name: 'Farther' }).click();
    await page.getByRole('button', { name: 'Whole site' }).click();
    await expect.poll(async () => (await width()) / before).toBeCloseTo(1, 2);
    await drawn();
  });

  test('the scale bar is as long as it says', async () => {
    const { page } = await open('?untied');
    const name = await page.getByRole('img', { name: /^Scale bar/ }).getAttribute('aria-label');
    const feet = Number(/([\d,]+) ft/.exec(name ?? '')?.[1]?.replaceAll(',', ''));
    const bar = await page.locator('svg[aria-label^="Scale bar"] .full').boundingBox();
    const [one, other] = [await whereIs(page, 'MW-1'), await whereIs(page, 'MW-2')];
    // MW-1 and MW-2 are 450 ft apart from west to east.
    const perFoot = (other.x - one.x) / 450;
    expect((2 * (bar?.width ?? 0)) / perFoot / feet).toBeCloseTo(1, 1);
  });
});

describe('without WebGL', () => {
  test('the map says so, and shows the same points, which can be chosen', async () => {
    const { page } = await open('', { before: withoutWebGl });
    await page.getByText('This browser gives the map no WebGL').waitFor();
    const drawing = page.getByRole('img', { name: 'Site map' });
    await expect.poll(() => drawing.locator('g[data-who="MW-2"][transform]').count()).toBe(1);
    await drawing.locator('g[data-who="MW-2"][transform]').click();
    await expect.poll(() => page.locator('#selected').textContent()).toBe('MW-2');
  });

  test('a point stands where it stands with it, within two px', async () => {
    const withGl = await open();
    const without = await open('', { before: withoutWebGl });
    const there = await whereIs(withGl.page, 'MW-6');
    const box = await without.page.locator('g[data-who="MW-6"][transform]').boundingBox();
    if (!box) throw new Error('MW-6 is not drawn');
    expect(Math.abs(box.x + box.width / 2 - there.x)).toBeLessThan(2);
    expect(Math.abs(box.y + box.height / 2 - there.y)).toBeLessThan(2);
  });

  test('lost on the way, it is drawn without; and with it again when it is back', async () => {
    const { page, drawn } = await open('', { mayComplain: true });
    await page.evaluate(() => {
      const lose = window.forTests.map
        ?.getCanvas()
        .getContext('webgl2')
        ?.getExtension('WEBGL_lose_context');
      if (!lose) throw new Error('cannot lose it');
      lose.loseContext();
      Object.assign(window, { restore: () => lose.restoreContext() });
    });
    await page.getByText('This browser gives the map no WebGL').waitFor();
    await expect.poll(() => page.locator('g[data-who="MW-2"][transform]').count()).toBe(1);
    await page.evaluate(() => (window as unknown as { restore: () => void }).restore());
    await page.getByText('This browser gives the map no WebGL').waitFor({ state: 'detached' });
    await drawn();
    await expect.poll(() => rendered(page, 'points/icon')).toBe(46);
  });
});

describe('axe finds nothing', () => {
  test.each(['', '?show=verdicts&theme=dark&legend', '?show=three&magnify=1.6'])(
    'on %s',
    async (query) => {
      const { axe } = await open(query);
      expect(await axe()).toEqual([]);
    },
  );

  test('nor without WebGL', async () => {
    const { axe } = await open('?legend', { before: withoutWebGl });
    expect(await axe()).toEqual([]);
  });
});
