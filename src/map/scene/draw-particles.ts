import { plainness, type Particles } from '../../domain/walk/particles';
import type { Size } from '../camera';
import type { Extent } from './scene';

/** The part of a canvas that is drawn with. */
export type Pen = Pick<
  CanvasRenderingContext2D,
  'beginPath' | 'moveTo' | 'lineTo' | 'stroke' | 'clearRect' | 'globalAlpha'
>;

/** Where ground metres from the middle of the wells fall on the window. */
export type OnWindow = {
  readonly extent: Extent;
  readonly size: Size;
  /** The middle of the wells, metres in the grid. */
  readonly centre: readonly [east: number, north: number];
  /** Grid metres in a ground metre. */
  readonly factor: number;
  /** px of a mark. */
  readonly tail: number;
  /** Where words stand, in the grid: no mark is drawn there, since it would cross their digits. */
  readonly words?: readonly Extent[];
};

/** Steps of plainness: one stroke for all the marks of a step. */
const SHADES = 4;

/**
 * Marks drawn as short strokes, the point of each where it has come to, its tail
 * no longer than the way it has gone.
 */
export function drawParticles(
  pen: Pen,
  { count, x, y, age, life, gone, east, north }: Particles,
  { extent, size, centre, factor, tail, words = [] }: OnWindow,
): void {
  const scale = size[0] / (extent.east - extent.west);
  const [left, top] = [
    (centre[0] - extent.west) * scale,
    (extent.north - centre[1]) * (size[1] / (extent.north - extent.south)),
  ];
  const px = factor * scale;
  /** Either end of a mark, metres about the middle of the wells. */
  const isOnWords = (atX: number, atY: number) => {
    const [e, n] = [centre[0] + factor * atX, centre[1] + factor * atY];
    return words.some((box) => e > box.west && e < box.east && n > box.south && n < box.north);
  };
  const isHidden = (i: number) => {
    const [atX, atY] = [x[i] as number, y[i] as number];
    const back = Math.min(tail / px, gone[i] as number);
    return (
      isOnWords(atX, atY) ||
      isOnWords(atX - back * (east[i] as number), atY - back * (north[i] as number))
    );
  };
  pen.clearRect(0, 0, size[0], size[1]);
  for (let shade = 1; shade <= SHADES; shade++) {
    pen.globalAlpha = shade / SHADES;
    pen.beginPath();
    for (let i = 0; i < count; i++) {
      const plain = plainness(age[i] as number, life[i] as number);
      if (Math.ceil(plain * SHADES) !== shade || isHidden(i)) continue;
      const long = Math.min(tail, (gone[i] as number) * px);
      const atX = left + (x[i] as number) * px;
      const atY = top - (y[i] as number) * px;
      pen.moveTo(atX - long * (east[i] as number), atY + long * (north[i] as number));
      pen.lineTo(atX, atY);
    }
    pen.stroke();
  }
}
