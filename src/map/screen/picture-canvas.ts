import { picture, type PictureName } from './images';

const made = new Map<string, HTMLCanvasElement>();

/**
 * A picture as large and as turned as it is to be seen, made once, so that
 * drawing it thousands of times is copying; null where the name is none of ours.
 *
 * @param side    px of the screen itself
 * @param turned  degrees clockwise
 */
export function pictureCanvas(
  name: PictureName,
  side: number,
  turned: number,
): HTMLCanvasElement | null {
  const key = `${name} ${side} ${turned}`;
  const before = made.get(key);
  if (before) return before;
  const asked = picture(name);
  if (!asked) return null;
  const whole = document.createElement('canvas');
  [whole.width, whole.height] = [asked.data.width, asked.data.height];
  whole.getContext('2d')?.putImageData(asked.data, 0, 0);

  // Room for a corner that is turned outwards.
  const room = Math.ceil(side * (turned % 90 === 0 ? 1 : Math.SQRT2));
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [room, room];
  const context = canvas.getContext('2d');
  context?.translate(room / 2, room / 2);
  context?.rotate((turned * Math.PI) / 180);
  context?.drawImage(whole, -side / 2, -side / 2, side, side);
  made.set(key, canvas);
  return canvas;
}
