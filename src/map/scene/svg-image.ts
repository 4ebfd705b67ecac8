import { base64Of } from '../../domain/base64';
import type { ImageItem, Place } from './scene';
import type { SvgNode } from './svg-parts';

const addresses = new WeakMap<Uint8Array, string>();

/** The bytes of a picture as an address that holds them; the same text each time. */
function addressOf(bytes: Uint8Array, type: ImageItem['type']): string {
  const before = addresses.get(bytes);
  if (before !== undefined) return before;
  const made = `data:${type};base64,${base64Of(bytes)}`;
  addresses.set(bytes, made);
  return made;
}

/**
 * A picture on an SVG drawing. It is drawn into a square of one by one that is
 * turned and stretched onto its corners: top left, top right and bottom left
 * say all, the fourth follows.
 */
export function imageNode(
  { corners, bytes, type, opacity }: ImageItem,
  px: (place: Place) => readonly [x: number, y: number],
): SvgNode {
  const [topLeft, topRight, , bottomLeft] = corners;
  const [[x, y], [rx, ry], [dx, dy]] = [px(topLeft), px(topRight), px(bottomLeft)];
  const matrix = [rx - x, ry - y, dx - x, dy - y, x, y].map((n) => Number(n.toFixed(4)));
  return {
    tag: 'image',
    attributes: {
      href: addressOf(bytes, type),
      width: 1,
      height: 1,
      preserveAspectRatio: 'none',
      opacity,
      transform: `matrix(${matrix.join(' ')})`,
    },
  };
}
