import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { contrast } from '../../../src/map/look/contrast';
import { PALETTES, SHAPES_ON, WORDS_ON, type Theme } from '../../../src/map/look/look';
import { tokensCss } from '../../../src/map/look/tokens-css';

const themes = Object.keys(PALETTES) as Theme[];

// WCAG 2.2 states 21:1 for black on white as the greatest contrast there is; #767676 on
// white at 4.54:1 is the W3C's own example of the lightest grey that passes (technique G18 tools).
test.each([
  ['#000000', '#ffffff', 21],
  ['#767676', '#ffffff', 4.54],
  ['#ffffff', '#ffffff', 1],
])('contrast of %s on %s is %d', (words, ground, expected) => {
  expect(contrast(words, ground)).toBeCloseTo(expected, 2);
  expect(contrast(ground, words)).toBeCloseTo(expected, 2);
});

test.each(themes.flatMap((theme) => WORDS_ON.map((pair) => [theme, ...pair] as const)))(
  'in a %s room words in %s on %s reach AA',
  (theme, words, ground) => {
    const palette = PALETTES[theme];
    expect(contrast(palette[words], palette[ground])).toBeGreaterThanOrEqual(4.5);
  },
);

test.each(themes.flatMap((theme) => SHAPES_ON.map((pair) => [theme, ...pair] as const)))(
  'in a %s room an edge in %s on %s reaches 3:1',
  (theme, shape, ground) => {
    const palette = PALETTES[theme];
    expect(contrast(palette[shape], palette[ground])).toBeGreaterThanOrEqual(3);
  },
);

test.each(themes)('in a %s room sentences in ink reach AAA', (theme) => {
  const { ink, paper, panel } = PALETTES[theme];
  expect(contrast(ink, paper)).toBeGreaterThanOrEqual(7);
  expect(contrast(ink, panel)).toBeGreaterThanOrEqual(7);
});

test('the style sheet of the page says what the map draws with', () => {
  const sheet = new URL('../../../src/ui/look/tokens.css', import.meta.url);
  expect(readFileSync(sheet, 'utf8')).toBe(tokensCss());
});
