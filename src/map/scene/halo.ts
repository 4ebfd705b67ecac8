import { HALO } from '../look/look';
import type { TextItem } from './scene';

/** Around words that stand on a line, in their size: it must not show between letters, where it is taken for a point. */
const ON_A_LINE = 0.25;

/** px of paper left free around words. */
export const haloOf = ({ sides, size }: TextItem): number =>
  size * (sides.every((side) => side === 'centre') ? ON_A_LINE : HALO);
