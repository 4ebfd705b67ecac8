import { fontFile } from '../../app/walk/sheet-files';
import { jsPDF } from 'jspdf';
import { svg2pdf } from 'svg2pdf.js';
import { fail, ok, type Result } from '../../domain/result';
import { FAMILY } from '../../map/look/look';
import { bytesOfAddress, LETTERS, lettersMissing, runsOf } from './letters';
import { standingDrawing } from './standing-drawing';

const SVG = 'http://www.w3.org/2000/svg';

/** Sheets and their sizes in millimetres. */
export type SheetPage = {
  readonly drawn: SVGSVGElement;
  readonly width: number;
  readonly height: number;
};

/**
 * Sheets as one PDF of lines and words: every page of the sheet's own size, so
 * that no printer's window stands between it and its scale, its letters in it.
 */
export async function sheetPdf(
  pages: readonly SheetPage[],
  title: string,
): Promise<Result<Uint8Array<ArrayBuffer>, string>> {
  const missing = lettersMissing(pages.map(({ drawn }) => drawn.textContent ?? '').join(''));
  if (missing.length > 0)
    return fail(`The letters of the sheet do not hold: ${missing.join(' ')}. Print it instead.`);
  const size = ({ width, height }: SheetPage): [number, number] => [
    (width / 25.4) * 72,
    (height / 25.4) * 72,
  ];
  const [first] = pages;
  if (!first) return fail('There is no sheet.');
  const made = new jsPDF({
    unit: 'pt',
    format: size(first),
    compress: true,
    orientation: lie(first),
  });
  made.setProperties({ title, creator: 'Downgradient' });
  for (const { address, family, weight, style } of LETTERS) {
    const font = fontFile(bytesOfAddress(address));
    if (!font.ok) return font;
    const name = `${family}-${weight}-${style}.ttf`.replaceAll(' ', '');
    made.addFileToVFS(name, binary(font.value));
    made.addFont(name, family, weight === 'bold' ? 'bold' : style);
  }
  paperNotRead(made);
  for (const [i, page] of pages.entries()) {
    if (i > 0) made.addPage(size(page), lie(page));
    const copy = forPdf(standingDrawing(page.drawn));
    // It is measured by the browser on its way, so it must stand in the page.
    copy.setAttribute('class', 'unseen');
    document.body.append(copy);
    const [width, height] = size(page);
    await svg2pdf(copy, made, { x: 0, y: 0, width, height }).finally(() => copy.remove());
  }
  return ok(new Uint8Array(made.output('arraybuffer')));
}

/**
 * The paper round words is words of their own to a PDF: marked as standing for
 * no text (ISO 32000-1, 14.9.4), so that nothing is read or copied twice.
 */
function paperNotRead(made: jsPDF): void {
  // The writer's own list of operators, which its types leave out.
  const { write } = made.internal as unknown as { write: (operator: string) => void };
  const text = made.text.bind(made);
  made.text = (...given: Parameters<typeof text>) => {
    const isPaper = given[3]?.renderingMode === 'stroke';
    if (isPaper) write('/Span <</ActualText ()>> BDC');
    const answer = text(...given);
    if (isPaper) write('EMC');
    return answer;
  };
}

const lie = ({ width, height }: SheetPage) => (width > height ? 'landscape' : 'portrait');

function binary(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += 0x8000)
    text += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return text;
}

/**
 * What this PDF writer does not know, done for it: the paper round words is put
 * under them as strokes of its own, weights are two, and each run of words names
 * the family that holds its letters.
 */
function forPdf(drawn: SVGSVGElement): SVGSVGElement {
  // Patterns keep to the page's own points, of which a px is three quarters.
  for (const pattern of drawn.querySelectorAll('pattern'))
    pattern.setAttribute('patternTransform', 'scale(0.75)');
  for (const one of [drawn, ...drawn.querySelectorAll('[font-weight]')]) {
    const bold = Number(one.getAttribute('font-weight')) >= 600;
    one.setAttribute('font-weight', bold ? 'bold' : 'normal');
    one.setAttribute('font-family', FAMILY);
  }
  for (const words of drawn.querySelectorAll('text, tspan'))
    words.setAttribute('font-family', runsOf(words.textContent ?? '')[0]?.family ?? FAMILY);
  for (const leaf of [...drawn.querySelectorAll('text, tspan')]) {
    if (leaf.children.length > 0) continue;
    const runs = runsOf(leaf.textContent ?? '');
    if (runs.length < 2) continue;
    leaf.textContent = '';
    for (const { family, text } of runs) {
      const part = document.createElementNS(SVG, 'tspan');
      part.setAttribute('font-family', family);
      part.textContent = text;
      leaf.append(part);
    }
  }
  for (const words of [...drawn.querySelectorAll('text')]) {
    if (!words.getAttribute('paint-order')?.startsWith('stroke')) continue;
    if ((words.getAttribute('stroke') ?? 'none') === 'none') continue;
    const under = words.cloneNode(true) as Element;
    for (const one of [under, ...under.querySelectorAll('tspan')]) one.setAttribute('fill', 'none');
    for (const one of [words, ...words.querySelectorAll('tspan')])
      one.setAttribute('stroke', 'none');
    words.before(under);
  }
  return drawn;
}
