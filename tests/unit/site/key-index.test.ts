import fc from 'fast-check';
import { expect, test } from 'vitest';
import { hashOf, joinedHash, KeyIndex } from '../../../src/domain/site/key-index';

test('a key is found by its row whatever else has its hash, however many there are', () => {
  fc.assert(
    fc.property(fc.array(fc.string({ maxLength: 3 }), { maxLength: 3000 }), (keys) => {
      const index = new KeyIndex(0);
      const first = new Map<string, number>();
      // Few hashes for many keys: most places are taken by another.
      const hash = (key: string) => hashOf(key) % 7;
      keys.forEach((key, row) => {
        const found = index.find(hash(key), (other) => keys[other] === key);
        expect(found).toBe(first.get(key) ?? -1);
        if (found >= 0) return;
        index.add(hash(key), row);
        first.set(key, row);
      });
    }),
    { numRuns: 30 },
  );
});

test('the order of the parts of a key counts', () => {
  const [a, b] = [hashOf('DP-1'), hashOf('DP-2')];
  expect(joinedHash(joinedHash(0, a), b)).not.toBe(joinedHash(joinedHash(0, b), a));
});
