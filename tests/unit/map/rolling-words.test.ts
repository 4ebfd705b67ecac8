import { describe, expect, test } from 'vitest';
import { numbersDiffer, rolledWords } from '../../../src/map/scene/rolling-words';
import type { Scene, TextItem } from '../../../src/map/scene/scene';

const words = (who: string, text: string, more: Partial<TextItem> = {}): TextItem => ({
  kind: 'text',
  layer: 'posted-heads',
  who,
  at: [0, 0],
  text,
  sides: ['se'],
  away: 10,
  size: 14,
  face: 'semibold',
  colour: 'water',
  priority: 0,
  mark: 'level, well',
  ...more,
});
const march: Scene = [words('MW-1', '960.00'), words('MW-2', '958.45'), words('flow', '350° ± 2.0°\ngradient 0.00400', { layer: 'captions' })]; // prettier-ignore
const may: Scene = [words('MW-1', '961.00'), words('MW-2', '958.45'), words('flow', '010° ± 3.0°\ngradient 0.00500', { layer: 'captions' }), words('MW-7', '950.00')]; // prettier-ignore
const texts = (scene: Scene) => scene.map((item) => (item.kind === 'text' ? item.text : ''));

describe('heads on the map from one event to another', () => {
  test('are half way at half of the time, with the digits they end with', () => {
    expect(texts(rolledWords(march, may, 0.5))).toEqual([
      '960.50',
      '958.45',
      '000° ± 2.5°\ngradient 0.00450',
      '950.00',
    ]);
  });

  test('are the very items of the event once they are there, and those that do not change always', () => {
    expect(rolledWords(march, may, 1)).toBe(may);
    expect(rolledWords(march, may, 0.5)[1]).toBe(may[1]);
  });

  test('roll only where a number on both is another one', () => {
    expect(numbersDiffer(march, may)).toBe(true);
    expect(numbersDiffer(march, march)).toBe(false);
    expect(numbersDiffer([], may)).toBe(false);
    expect(numbersDiffer(march, [words('MW-9', '1.00')])).toBe(false);
  });

  test('a reading that is not a number is not rolled', () => {
    const dry = [words('MW-1', 'dry')];
    expect(texts(rolledWords(dry, [words('MW-1', '960.00')], 0.5))).toEqual(['960.00']);
  });

  test('a head that no longer counts is another mark, and does not roll into it', () => {
    const out = [words('MW-1', '(960.00)', { mark: 'level, left out' })];
    expect(texts(rolledWords(march, out, 0.5))).toEqual(['(960.00)']);
  });
});
