import { afterAll, beforeAll, expect, test } from 'vitest';
import { VERDICTS } from '../../src/domain/lab/verdict';
import { PALETTES } from '../../src/map/look/look';
import { KINDS, STATUSES, verdictColour } from '../../src/map/scene/symbols';
import { lightness, seenAs, VISIONS, type Rgb, type Vision } from './colour-vision';
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

const hexRgb = (colour: string): Rgb => {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => parseInt(colour.slice(at, at + 2), 16));
  return [r, g, b];
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
  const names = KINDS.length * STATUSES.length + VERDICTS.length;
  expect(apart.length).toBe((names * (names - 1)) / 2);
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

/** The nine marks of verdicts in their own colours on paper, px by px, red green blue. */
async function verdictPictures(page: OpenedPage['page']) {
  const paper = PALETTES.bright.paper;
  const marks = VERDICTS.map(
    (verdict) => [`verdict ${verdict}`, PALETTES.bright[verdictColour(verdict)]] as const,
  );
  return page.evaluate(
    ({ marks, paper, size }) => {
      const ground = [1, 3, 5].map((at) => parseInt(paper.slice(at, at + 2), 16));
      return marks.map(([name, colour]) => {
        const { data } = window.forTests.symbolPicture(name, size, colour, paper);
        return Array.from({ length: data.width * data.height }, (_, i) => {
          const alpha = (data.data[4 * i + 3] ?? 0) / 255;
          return [0, 1, 2].map(
            (c) => (data.data[4 * i + c] ?? 0) * alpha + (ground[c] ?? 0) * (1 - alpha),
          ) as [number, number, number];
        });
      });
    },
    { marks, paper, size: SIZE },
  );
}

test('in grey and to eyes without one kind of cone no two verdicts are alike, told by lightness alone', async () => {
  const { page } = await open();
  const pictures = await verdictPictures(page);
  for (const vision of Object.keys(VISIONS) as Vision[]) {
    const seen = pictures.map((picture) => picture.map((px) => lightness(seenAs(vision, px))));
    const pairs = seen.flatMap((one, i) =>
      seen.slice(i + 1).map((other, k) => ({
        pair: `${vision}: ${VERDICTS[i] ?? ''} / ${VERDICTS[i + 1 + k] ?? ''}`,
        share: one.reduce((sum, px, at) => sum + Math.abs(px - (other[at] ?? 0)), 0) / one.length,
      })),
    );
    expect(pairs).toHaveLength((9 * 8) / 2);
    const nearest = pairs.toSorted((a, b) => a.share - b.share)[0];
    // Black on white all over would be 1.
    expect(nearest?.share, nearest?.pair).toBeGreaterThan(0.05);
    const paper = lightness(seenAs(vision, hexRgb(PALETTES.bright.paper)));
    for (const [i, picture] of seen.entries())
      expect(paper - Math.min(...picture), `${vision}: ${VERDICTS[i] ?? ''}`).toBeGreaterThan(0.45);
  }
});

test('the simulated colours are those of Chromium’s own emulation', async () => {
  const { page, context } = await open();
  const session = await context.newCDPSession(page);
  const colours = [PALETTES.bright.signal, PALETTES.bright.water, '#c08040'];
  // Styles are set by script: the page takes none from its text.
  await page.evaluate((colours) => {
    document.body.replaceChildren(
      ...colours.map((colour) => {
        const stripe = document.createElement('div');
        Object.assign(stripe.style, { background: colour, height: '40px' });
        return stripe;
      }),
    );
    Object.assign(document.body.style, { margin: '0', display: 'block' });
  }, colours);
  for (const vision of Object.keys(VISIONS) as Vision[]) {
    await session.send('Emulation.setEmulatedVisionDeficiency', { type: vision });
    const png = await page.screenshot({ clip: { x: 0, y: 0, width: 10, height: 120 } });
    const shown = await page.evaluate(async (bytes) => {
      const blob = new Blob([Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0))]);
      const bitmap = await createImageBitmap(blob);
      const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
      const drawing = canvas.getContext('2d', { willReadFrequently: true });
      if (!drawing) throw new Error('no canvas');
      drawing.drawImage(bitmap, 0, 0);
      return [20, 60, 100].map((y) => [...drawing.getImageData(5, y, 1, 1).data].slice(0, 3));
    }, png.toString('base64'));
    colours.forEach((colour, i) => {
      const ours = seenAs(vision, hexRgb(colour));
      shown[i]?.forEach((channel, c) =>
        expect(Math.abs(channel - (ours[c] ?? 0)), `${vision} ${colour}`).toBeLessThan(4),
      );
    });
  }
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
