/**
 * What is drawn of a row is made once, so that it is the same thing as long as
 * the row is, and a layer whose rows have not changed is not drawn again. What
 * comes after the row must not change while the row lives.
 */
export function once<Row extends object, Rest extends unknown[], Made>(
  make: (row: Row, ...rest: Rest) => Made,
) {
  const made = new WeakMap<Row, Made>();
  return (row: Row, ...rest: Rest): Made => {
    const before = made.get(row);
    if (before !== undefined) return before;
    const now = make(row, ...rest);
    made.set(row, now);
    return now;
  };
}
