import { fail, ok, type Result } from '../../domain/result';
import { onePerSite } from '../one-per-site.svelte';
import type { TileArchive } from '../../io/formats/tiles';
import { mayAsk, serverOf, templateProblem } from './tile-address';

export type { TileArchive };

/** What lies under the map beside the site's own: a local archive, or the tiles of an address. */
export type Backdrop =
  | { readonly kind: 'archive'; readonly archive: TileArchive }
  | { readonly kind: 'address'; readonly template: string };

/** The backdrop of a site while it is open: never kept with the site, never fetched unasked. */
export class BackdropView {
  backdrop: Backdrop | null = $state.raw(null);
  trouble = $state('');
  /** 0 to 1 */
  opacity = $state(0.6);

  /** The server that is asked, for the caution beside it; null while none is. */
  readonly server = $derived(
    this.backdrop?.kind === 'address' ? serverOf(this.backdrop.template) : null,
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

/** The backdrop of a site; the same each time it is asked for. */
export const backdropOf = onePerSite(() => new BackdropView());
