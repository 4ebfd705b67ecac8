import fc from 'fast-check';
import { expect, test } from 'vitest';
import { unbroken } from '../../../src/domain/walk/unbroken';

test('no line ends within the name of a point, nor between a number and its unit', () => {
  expect(unbroken('most at PZ-7, 37 ug/L')).toBe('most at PZ-\u20607, 37\u00a0ug/L');
  expect(unbroken('10 to 12 ft in 100 ft (0.005 mg/L), 95 %')).toBe(
    '10 to 12\u00a0ft in 100\u00a0ft (0.005\u00a0mg/L), 95\u00a0%',
  );
});

test('where a line may end without harm it still may', () => {
  expect(unbroken('8 heads of 9 more; up-gradient')).toBe('8 heads of 9 more; up-gradient');
});

test('the words themselves stay what they are', () => {
  fc.assert(
    fc.property(
      fc.string(),
      (text) => unbroken(text).replaceAll('\u2060', '').replaceAll('\u00a0', ' ') === text.replaceAll('\u2060', '').replaceAll('\u00a0', ' '), // prettier-ignore
    ),
  );
});
