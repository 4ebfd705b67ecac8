/** A node of well-known text: NAME["text", 1.5, OTHER[…]]. */
export type Node = { readonly name: string; readonly parts: readonly (string | number | Node)[] };

const LONGEST = 20_000;
const DEEPEST = 12;

/**
 * Coordinate systems as well-known text of the first kind (OGC 01-009, 2001,
 * clause 7); null where it is not that, or too long or deep to be.
 */
export function parsed(text: string): Node | null {
  let at = 0;
  const skip = () => {
    while (/\s/.test(text[at] ?? '')) at++;
  };
  const node = (depth: number): Node | null => {
    skip();
    const name = /^[A-Za-z_][A-Za-z_0-9]*/.exec(text.slice(at, at + 60))?.[0];
    if (name === undefined || depth > DEEPEST) return null;
    at += name.length;
    skip();
    const close = text[at] === '[' ? ']' : text[at] === '(' ? ')' : null;
    if (close === null) return { name: name.toUpperCase(), parts: [] };
    at++;
    const parts: (string | number | Node)[] = [];
    for (;;) {
      skip();
      if (text[at] === '"') {
        const end = text.indexOf('"', at + 1);
        if (end < 0) return null;
        parts.push(text.slice(at + 1, end));
        at = end + 1;
      } else {
        const number = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d{1,3})?/.exec(
          text.slice(at, at + 60),
        );
        if (number) {
          parts.push(Number(number[0]));
          at += number[0].length;
        } else {
          const inner = node(depth + 1);
          if (!inner) return null;
          parts.push(inner);
        }
      }
      skip();
      if (text[at] === ',') at++;
      else if (text[at] === close) {
        at++;
        return { name: name.toUpperCase(), parts };
      } else return null;
    }
  };
  return text.length > LONGEST ? null : node(0);
}

/** The parts of a node that are nodes of a name, in order. */
export const nodesOf = ({ parts }: Node, name: string) =>
  parts.filter((part): part is Node => typeof part === 'object' && part.name === name);

/** The first of them. */
export const nodeOf = (node: Node | undefined, name: string) =>
  node ? nodesOf(node, name)[0] : undefined;

/** The text a node begins with: mostly its name; blank where it has none. */
export const textOf = (node: Node | undefined) => {
  const [first] = node?.parts ?? [];
  return typeof first === 'string' ? first : '';
};

/** The number at a place of a node's parts, from 0; null where there is none. */
export const numberOf = (node: Node | undefined, place = 1): number | null => {
  const part = node?.parts[place];
  return typeof part === 'number' && Number.isFinite(part) ? part : null;
};
