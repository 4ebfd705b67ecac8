import { FAMILY } from '../../map/look/look';
import { lettersFor } from './letters';

/** Something of this page as a page that stands by itself: its styles and letters in it, nothing to press or fetch. */
export function standingPage(of: HTMLElement, title: string): string {
  const copy = of.cloneNode(true) as HTMLElement;
  for (const pressed of copy.querySelectorAll('button')) {
    const words = document.createElement('span');
    words.textContent = pressed.textContent;
    pressed.replaceWith(words);
  }
  for (const reached of copy.querySelectorAll('[tabindex]')) reached.removeAttribute('tabindex');
  const rules = [...document.styleSheets]
    .flatMap((sheet) => [...sheet.cssRules])
    .filter((rule) => !(rule instanceof CSSFontFaceRule) && !(rule instanceof CSSImportRule))
    .map(({ cssText }) => cssText);
  const faces = lettersFor(copy.textContent ?? '').map(
    ({ address, weight, style, range }) =>
      `@font-face{font-family:'${FAMILY}';font-style:${style};font-weight:${weight === 'bold' ? 600 : 400};src:url(${address}) format('woff');unicode-range:${range}}`,
  );
  // A shorthand that names a variable comes out of a rule's text empty.
  const { fontSize, lineHeight, fontFamily } = getComputedStyle(document.body);
  const letters = `body{font:${fontSize}/${lineHeight} ${fontFamily}}`;
  const text = new XMLSerializer();
  const name = document.createElement('title');
  name.textContent = title;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:">
<meta name="viewport" content="width=device-width, initial-scale=1">
${text.serializeToString(name)}
<style>${[...faces, ...rules, letters].join('\n').replaceAll('</', '<\\/')}</style>
</head>
<body>${text.serializeToString(copy)}</body>
</html>
`;
}
