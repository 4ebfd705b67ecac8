import { groupBy } from '../../domain/group';
import type { Spot } from './box-layout';
import type { Box } from './place-labels';

/** Side of a square, px. */
const SIDE = 48;

const squareOf = (px: number) => Math.floor(px / SIDE);

/** Points of a screen by squares: whether one of those about a box is so, without looking at the others. */
export function pointSquares(points: readonly Spot[]) {
  const columns = new Map(
    [...groupBy(points, ([x]) => squareOf(x))].map(([column, here]) => [
      column,
      groupBy(here, ([, y]) => squareOf(y)),
    ]),
  );
  /** @param room  how far about the box a point may lie, px */
  return (box: Box, room: number, isSo: (point: Spot) => boolean): boolean => {
    const [top, bottom] = [squareOf(box.top - room), squareOf(box.bottom + room)];
    for (let c = squareOf(box.left - room); c <= squareOf(box.right + room); c++) {
      const column = columns.get(c);
      for (let r = top; column && r <= bottom; r++) if (column.get(r)?.some(isSo)) return true;
    }
    return false;
  };
}
