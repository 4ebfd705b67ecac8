const SVG = 'http://www.w3.org/2000/svg';

/** What a style sheet may say of a drawing, as attributes an SVG file has of its own. */
const LOOKS = [
  'fill',
  'fill-opacity',
  'fill-rule',
  'stroke',
  'stroke-width',
  'stroke-dasharray',
  'stroke-linecap',
  'stroke-linejoin',
  'stroke-opacity',
  'opacity',
  'font-family',
  'font-size',
  'font-style',
  'font-weight',
  'text-anchor',
  'paint-order',
] as const;

/**
 * A drawing that stands by itself: a copy in which everything the page's style
 * sheets say is an attribute, without classes, marks of the framework and what
 * is only there to be pressed.
 */
export function standingDrawing(drawn: SVGSVGElement): SVGSVGElement {
  const copy = drawn.cloneNode(true) as SVGSVGElement;
  const pairs: [Element, Element][] = [[drawn, copy]];
  const drop: Element[] = [];
  for (let i = 0; i < pairs.length; i++) {
    const [from, to] = pairs[i] as [Element, Element];
    [...from.children].forEach((child, k) => pairs.push([child, to.children[k] as Element]));
    const style = getComputedStyle(from);
    if (style.display === 'none' || isOnlyPressed(from, style)) drop.push(to);
    // A picture or a clip inside takes no words and no colours.
    if (!['image', 'defs', 'clipPath'].includes(from.tagName))
      for (const look of LOOKS) {
        const value = style.getPropertyValue(look);
        if (value !== '') to.setAttribute(look, look === 'fill' ? plainFill(value) : value);
      }
    // A shape in a drawing has its size from the page's letters.
    if (from.tagName === 'svg' && from !== drawn)
      for (const side of ['width', 'height'] as const)
        if (/^[\d.]+px$/.test(style[side])) to.setAttribute(side, style[side].slice(0, -2));
    for (const name of ['class', 'style', 'tabindex', 'onclick', 'data-who'])
      to.removeAttribute(name);
  }
  for (const element of drop) element.remove();
  const remarks = document.createTreeWalker(copy, NodeFilter.SHOW_COMMENT);
  const found: Node[] = [];
  while (remarks.nextNode()) found.push(remarks.currentNode);
  for (const remark of found) remark.parentNode?.removeChild(remark);
  copy.setAttribute('xmlns', SVG);
  return copy;
}

/** A pattern is named in full by the browser; a file knows it by its own name. */
const plainFill = (value: string) => {
  const named = /url\("?[^"#]*#([^")]+)"?\)/.exec(value)?.[1];
  return named === undefined ? value : `url(#${named})`;
};

const isOnlyPressed = (element: Element, { fill, stroke }: CSSStyleDeclaration) =>
  element.tagName === 'rect' && fill === 'rgba(0, 0, 0, 0)' && stroke === 'none';
