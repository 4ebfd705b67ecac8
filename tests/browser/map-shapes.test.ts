import { afterAll, beforeAll, expect, test } from 'vitest';
import { openApp, type OpenedPage } from './harness';
import type {} from './pages/map/for-tests';
import { servePage, type ServedPage } from './pages/serve-page';

let served: ServedPage;
beforeAll(async () => {
  served = await servePage('map');
});
afterAll(() => served?.close());

const open = async (): Promise<OpenedPage> => {
  const app = await openApp({ address: served.address });
  await app.drawn();
  return app;
};

/** Side a shape is drawn at on the map, px. */
const SIZE = 16;

test('no two shapes can be taken for one another in grey, at the size they have on the map', async () => {
  const { page } = await open();
  const apart = await page.evaluate((size) => {
    const { symbolNames, symbolPicture } = window.forTests;
    // Shapes that are met at the same places; the others are met alone.
    const names = symbolNames.filter(
      (name) => /,|^verdict/.test(name) && !name.startsWith('level'),
    );
    const greys = names.map((name) => {
      const { data } = symbolPicture(name, size, '#000000', '#ffffff');
      // As much ink as each px of the screen has, paper where nothing is drawn.
      return Array.from({ length: data.width * data.height }, (_, i) => {
        const [r = 0, alpha = 0] = [data.data[4 * i], data.data[4 * i + 3]];
        return (255 - r) * (alpha / 255);
      });
    });
    return names.flatMap((one, i) =>
      names.slice(i + 1).map((other, k) => {
        const [a, b] = [greys[i] ?? [], greys[i + 1 + k] ?? []];
        const different = a.reduce((sum, ink, at) => sum + Math.abs(ink - (b[at] ?? 0)), 0);
        return { pair: `${one} / ${other}`, share: different / (255 * size * size * 4) };
      }),
    );
  }, SIZE);
  expect(apart.length).toBe((34 * 33) / 2);
  const nearest = apart.toSorted((a, b) => a.share - b.share)[0];
  // At least a twentieth of the box is inked otherwise: 13 px of 256.
  expect(nearest?.share, nearest?.pair).toBeGreaterThan(0.05);
});

test('a cannot-tell has three times the ink of a non-detect', async () => {
  const { page } = await open();
  const [asks, clear] = await page.evaluate((size) => {
    return (['verdict cannot-tell', 'verdict not-detected'] as const).map((name) => {
      const { data } = window.forTests.symbolPicture(name, size, '#000000', '#ffffff');
      let ink = 0;
      for (let i = 0; i < data.data.length; i += 4)
        ink += ((255 - (data.data[i] ?? 0)) * (data.data[i + 3] ?? 0)) / 255;
      return ink;
    });
  }, SIZE);
  expect((asks ?? 0) / (clear ?? 1)).toBeGreaterThan(3);
});

test('words are as wide as the placing of labels takes them to be, within a hundredth', async () => {
  const { page } = await open();
  const ratios = await page.evaluate(async () => {
    const faces = [
      ['regular', '400 100px "Source Sans 3"'],
      ['semibold', '600 100px "Source Sans 3"'],
      ['italic', 'italic 400 100px "Source Sans 3"'],
    ] as const;
    const context = document.createElement('canvas').getContext('2d');
    if (!context) throw new Error('no canvas');
    context.fontKerning = 'none';
    const measured = [];
    for (const [face, font] of faces) {
      await document.fonts.load(font);
      context.font = font;
      for (const words of [
        '958.98',
        '(1,822,400.0)',
        'MW-12',
        'Tansy Run',
        '112° ± 6° grid',
        'A–A′',
      ])
        measured.push({
          words: `${words}, ${face}`,
          ratio: window.forTests.textWidth(words, 100, face) / context.measureText(words).width,
        });
    }
    return measured;
  });
  for (const { words, ratio } of ratios) expect(Math.abs(ratio - 1), words).toBeLessThan(0.01);
});
