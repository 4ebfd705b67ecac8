import { picture, type PictureName } from './images';

const made = new Map<PictureName, HTMLCanvasElement>();

/** A picture to be drawn many times over, made once; null where the name is none of ours. */
export function pictureCanvas(name: PictureName): HTMLCanvasElement | null {
  const before = made.get(name);
  if (before) return before;
  const asked = picture(name);
  if (!asked) return null;
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [asked.data.width, asked.data.height];
  canvas.getContext('2d')?.putImageData(asked.data, 0, 0);
  made.set(name, canvas);
  return canvas;
}
