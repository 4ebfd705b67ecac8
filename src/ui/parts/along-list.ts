/**
 * Where a key goes from a field with a list under it: a place in the list from 0,
 * −1 back to the field; null where the key does not move. From the field `at` is −1.
 */
export function alongList(key: string, at: number, size: number): number | null {
  if (size === 0) return null;
  switch (key) {
    case 'ArrowDown':
      return Math.min(at + 1, size - 1);
    case 'ArrowUp':
      return at < 0 ? null : at - 1;
    case 'End':
      return at < 0 ? null : size - 1;
    case 'Home':
      return at < 0 ? null : 0;
    default:
      return null;
  }
}
