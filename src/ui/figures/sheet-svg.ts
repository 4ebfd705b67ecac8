import { FAMILY } from '../../map/look/look';
import { lettersFor } from './letters';
import { standingDrawing } from './standing-drawing';

/** A sheet as an SVG file: real words, its letters in it, nothing to be fetched. */
export function sheetSvg(drawn: SVGSVGElement): string {
  const copy = standingDrawing(drawn);
  const faces = lettersFor(copy.textContent ?? '').map(
    ({ address, weight, style, range }) =>
      `@font-face{font-family:'${FAMILY}';font-style:${style};font-weight:${weight === 'bold' ? 600 : 400};src:url(${address}) format('woff');unicode-range:${range}}`,
  );
  const style = document.createElementNS('http://www.w3.org/2000/svg', 'style');
  style.textContent = faces.join('\n');
  const text = new XMLSerializer().serializeToString(copy);
  // Put in as text: this page's own policy lets no style stand in it.
  const put = new XMLSerializer().serializeToString(style);
  const end = text.indexOf('>') + 1;
  return `<?xml version="1.0" encoding="UTF-8"?>\n${text.slice(0, end)}${put}${text.slice(end)}`;
}
