import type { At } from '../../domain/site/cell-block';

/** The name of a cell's element, by which the grid says which cell is in hand. */
export const cellId = ({ row, column }: At) => `cell-${row}-${column}`;

/** How far a key moves the cell in hand: rows down and columns right; null for any other key. */
export function stepFor(
  { key, shiftKey, ctrlKey, metaKey }: KeyboardEvent,
  rows: number,
  columns: number,
  page: number,
): readonly [down: number, right: number] | null {
  const far = ctrlKey || metaKey;
  switch (key) {
    case 'ArrowDown':
      return [far ? rows : 1, 0];
    case 'ArrowUp':
      return [far ? -rows - 1 : -1, 0];
    case 'ArrowRight':
      return [0, far ? columns : 1];
    case 'ArrowLeft':
      return [0, far ? -columns : -1];
    case 'PageDown':
      return [page, 0];
    case 'PageUp':
      return [-page, 0];
    case 'Home':
      return [far ? -rows - 1 : 0, -columns];
    case 'End':
      return [far ? rows : 0, columns];
    case 'Enter':
      return [shiftKey ? -1 : 1, 0];
    default:
      return null;
  }
}
