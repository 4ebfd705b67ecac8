/**
 * Where the entries of a key stand, in rows as wide as there is room for: px
 * right and down of the first, in the order given.
 *
 * @param widths  px each takes, the room after it included
 */
export function keyRows(
  widths: readonly number[],
  room: number,
  leading: number,
): readonly (readonly [right: number, down: number])[] {
  let [right, down] = [0, 0];
  return widths.map((width) => {
    if (right > 0 && right + width > room) [right, down] = [0, down + leading];
    const here = [right, down] as const;
    right += width;
    return here;
  });
}
