/** Rows a table is drawn whole up to; of a longer one only those in view are. */
export const MOST_WHOLE = 60;

/** Height of a row of a longer table, px. */
export const ROW = 64;

/** Rows drawn beyond the view at either end. */
const BEYOND = 4;

/** What a scrolling part of the page shows, px from its top. */
export type Scrolled = { readonly top: number; readonly height: number };

/** The rows to draw, from the first up to but without the last. */
export function rowsInView(
  count: number,
  { top, height }: Scrolled,
): { readonly first: number; readonly last: number } {
  if (count <= MOST_WHOLE) return { first: 0, last: count };
  const first = Math.min(Math.floor(top / ROW) - BEYOND, count - 1);
  return {
    first: Math.max(0, first),
    last: Math.min(count, Math.ceil((top + height) / ROW) + BEYOND),
  };
}
