import fc from 'fast-check';
import { expect, test } from 'vitest';
import { unbroken, unbrokenTitle } from '../../../src/domain/walk/unbroken';

test('no line ends within the name of a point, nor between a number and its unit', () => {
  expect(unbroken('most at PZ-7, 37 ug/L')).toBe('most at PZ-\u20607, 37\u00a0ug/L');
  expect(unbroken('10 to 12 ft in 100 ft (0.005 mg/L), 95 %')).toBe(
    '10 to 12\u00a0ft in 100\u00a0ft (0.005\u00a0mg/L), 95\u00a0%',
  );
});

test('no line of a title ends between a number and what it counts', () => {
  expect(unbrokenTitle('Next: 1 point planned, 7 sides open')).toBe(
    'Next: 1\u00a0point planned, 7\u00a0sides open',
  );
  expect(unbrokenTitle('28 points pushed')).toBe('28\u00a0points pushed');
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
