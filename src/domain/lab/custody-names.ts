/**
 * A sample's name as two people may write it. Capitals, spaces, dashes and the
 * noughts before a number don't tell names apart; the parts of a name do, so that
 * MW-1-1 is not MW-11.
 */
export const asSpelt = (name: string): string =>
  (
    name
      .normalize('NFKC')
      .toUpperCase()
      .match(/\p{L}+|\p{N}+/gu) ?? []
  )
    .map((part) => part.replace(/^0+(?=.)/, ''))
    .join(' ');

/**
 * Whether one slip of the keyboard makes one name of the other: a character
 * written wrong, left out, put in, or changed places with its neighbour
 * (F. J. Damerau, 1964, Communications of the ACM 7(3): 171–176, value from memory).
 */
export function isOneSlipApart(one: string, other: string): boolean {
  const [a, b] = [one.toUpperCase(), other.toUpperCase()];
  if (a === b || Math.abs(a.length - b.length) > 1) return false;
  let start = 0;
  while (start < a.length && a[start] === b[start]) start++;
  let end = 0;
  const most = Math.min(a.length, b.length) - start;
  while (end < most && a.at(-1 - end) === b.at(-1 - end)) end++;
  const [left, right] = [a.slice(start, a.length - end), b.slice(start, b.length - end)];
  if (left.length <= 1 && right.length <= 1) return true;
  return left.length === 2 && right.length === 2 && left[0] === right[1] && left[1] === right[0];
}
