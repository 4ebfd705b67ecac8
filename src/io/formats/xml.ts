import { parseXml, XmlElement, XmlText, type XmlNode } from '@rgrove/parse-xml';
import { fail, ok, type Result } from '../../domain/result';

/** An element of a document read, its names without their prefixes. */
export type Element = XmlElement;

/** Deeper than any drawing; the reader goes down one call a level. */
const DEEPEST = 200;

/** No drawing of a site comes near. */
const LONGEST = 64 * 2 ** 20;

/**
 * A document as its root element. Strict, without a DOM, and without entities of
 * the document's own: what it declares is not expanded, nothing is fetched.
 */
export function readXml(name: string, text: string): Result<Element, string> {
  if (text.length > LONGEST) return fail(`${name} is too long to be a drawing.`);
  if (depthOf(text) > DEEPEST) return fail(`${name} nests its elements too deeply.`);
  try {
    const { root } = parseXml(text.replace(/^\uFEFF/, ''));
    return root ? ok(root) : fail(`${name} is empty.`);
  } catch (error) {
    const why = error instanceof Error ? (error.message.split('\n')[0] ?? '') : '';
    return fail(`${name} is no well-formed XML${why ? `: ${why.slice(0, 160)}` : ''}.`);
  }
}

/** How deep tags stand in tags, at most, roughly: comments and quoted signs count too. */
function depthOf(text: string): number {
  let [depth, deepest, end] = [0, 0, -1];
  for (let at = text.indexOf('<'); at >= 0; at = text.indexOf('<', at + 1)) {
    const next = text.charCodeAt(at + 1);
    if (next === SLASH) depth = Math.max(0, depth - 1);
    else if (next !== QUESTION && next !== BANG) {
      if (end < at) end = text.indexOf('>', at);
      if (end < 0) return deepest;
      if (text.charCodeAt(end - 1) !== SLASH) deepest = Math.max(deepest, ++depth);
    }
    if (deepest > DEEPEST) return deepest;
  }
  return deepest;
}

const [SLASH, QUESTION, BANG] = [47, 63, 33];

/** "Placemark" of "kml:Placemark". */
export const localName = ({ name }: Element) => name.slice(name.indexOf(':') + 1);

const isElement = (node: XmlNode): node is XmlElement => node instanceof XmlElement;

/** Elements straight below, of a name where one is given. */
export const childrenOf = (element: Element, name?: string): Element[] =>
  element.children
    .filter(isElement)
    .filter((child) => name === undefined || localName(child) === name);

export const childOf = (element: Element, name: string): Element | null =>
  childrenOf(element, name)[0] ?? null;

/** The text straight in an element, trimmed: markup in it stays the text it is. */
export const textIn = (element: Element | null): string =>
  (element?.children ?? [])
    .filter((node): node is XmlText => node instanceof XmlText)
    .map(({ text }) => text)
    .join('')
    .trim();

/** The text of a child element; blank where there is none. */
export const childText = (element: Element, name: string): string => textIn(childOf(element, name));

/** A text as it can stand in an element or an attribute; signs no XML may hold are left out. */
export const escaped = (text: string): string =>
  text
    // XML 1.0 (fifth edition), production 2: these are no characters.
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '')
    .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
