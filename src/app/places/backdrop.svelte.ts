import type { DatumNote } from '../../domain/grid';
import { fail, ok, type Result } from '../../domain/result';
import type { OpenSite } from '../open-site.svelte';
import type { TileArchive } from '../../io/formats/tiles';

export type { TileArchive };

/** What lies under the map beside the site's own: a local archive, or the tiles of an address. */
export type Backdrop =
  | { readonly kind: 'archive'; readonly archive: TileArchive }
  | { readonly kind: 'address'; readonly template: string };

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

/** The backdrop of a site while it is open: never kept with the site, never fetched unasked. */
export class BackdropView {
  backdrop: Backdrop | null = $state.raw(null);
  trouble = $state('');
  /** 0 to 1 */
  opacity = $state(0.6);

  /** The server that is asked, for the caution beside it; null while none is. */
  readonly server = $derived(
    this.backdrop?.kind === 'address' ? new URL(this.backdrop.template).host : null,
  );

  async openFile(file: File): Promise<void> {
    const { openTiles } = await import('../../io/formats/tiles');
    const opened = await openTiles(file.name, file);
    this.trouble = opened.ok ? '' : opened.problem;
    if (opened.ok) this.backdrop = { kind: 'archive', archive: opened.value };
  }

  /** Ask an address from now on. Only on the page that may. */
  ask(text: string): Result<null, string> {
    const problem = mayAsk() ? templateProblem(text) : 'This page asks no other server.';
    if (problem !== null) return fail(problem);
    this.trouble = '';
    this.backdrop = { kind: 'address', template: text.trim() };
    return ok(null);
  }

  takeAway = () => (this.backdrop = null);
}

const views = new WeakMap<OpenSite, BackdropView>();

/** The backdrop of a site; the same each time it is asked for. */
export function backdropOf(site: OpenSite): BackdropView {
  const before = views.get(site);
  if (before) return before;
  const made = new BackdropView();
  views.set(site, made);
  return made;
}
