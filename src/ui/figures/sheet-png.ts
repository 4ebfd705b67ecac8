import { withDensity } from '../../app/walk/sheet-files';
import { fail, ok, type Result } from '../../domain/result';
import { sheetSvg } from './sheet-svg';

/** A sheet as a picture, of so many dots to the inch; says its density, so that it prints at its size. */
export async function sheetPng(
  drawn: SVGSVGElement,
  { width, height }: { readonly width: number; readonly height: number },
  density: number,
): Promise<Result<Uint8Array<ArrayBuffer>, string>> {
  const picture = new Image();
  picture.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(sheetSvg(drawn))}`;
  const seen = await picture.decode().then(
    () => true,
    () => false,
  );
  const canvas = document.createElement('canvas');
  canvas.width = Math.round((width / 25.4) * density);
  canvas.height = Math.round((height / 25.4) * density);
  const pen = canvas.getContext('2d');
  if (!seen || !pen) return fail('The browser could not draw the sheet.');
  pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
  const made = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'));
  if (!made)
    return fail(
      `A picture of ${canvas.width} by ${canvas.height} dots is too large for this browser: choose fewer dots to the inch.`,
    );
  return ok(withDensity(new Uint8Array(await made.arrayBuffer()), density));
}
