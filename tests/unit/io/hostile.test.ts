import { expect, test } from 'vitest';
import { openHostile } from '../../faults/hostile';

test('files made to do harm are refused in words, or come in as the text they are', async () => {
  const { tried, held, faults } = await openHostile(5, true);
  expect(faults).toEqual([]);
  expect(held).toHaveLength(tried);
  expect(tried).toBeGreaterThan(15);
}, 60_000);
