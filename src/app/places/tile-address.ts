import type { DatumNote } from '../../domain/grid';

/** Whether this page is the one that may ask another server; the usual page never can. */
export const mayAsk = (): boolean =>
  typeof document !== 'undefined' && document.documentElement.dataset.mayAsk === 'tiles';

/** The two pages, one beside the other. */
export const PAGES = { usual: './index.html', asking: './with-address.html' } as const;

/** What is wrong with an address of tiles; null where it can be asked. */
export function templateProblem(text: string): string | null {
  const address = text.trim();
  if (
    !/^https:\/\/[^\s/]+\/\S*$/i.test(address) &&
    !/^http:\/\/(?:localhost|127\.0\.0\.1)[:/]/i.test(address)
  )
    // prettier-ignore
    return 'It begins with https:// and names a server.';
  return ['{z}', '{x}', '{y}'].every((part) => address.includes(part))
    ? null
    : 'It has {z}, {x} and {y} where zoom, column and row of a tile go.';
}

/** How well a backdrop lies under positions of a grid, in a sentence: as its datum says, or shorter where that says only how well. */
export function liesWithin({ name, shifted, accuracy, note }: DatumNote): string {
  const stated = accuracy === null ? 'accuracy not stated' : `stated accuracy ${accuracy} m`;
  if (shifted) return `Positions on ${name ?? 'the grid'} are moved to WGS 84 for it, ${stated}.`;
  return accuracy === null ? note : `Positions lie on it as they are, ${stated}.`;
}

/** The server an address of tiles asks. */
export const serverOf = (template: string): string => new URL(template).host;
