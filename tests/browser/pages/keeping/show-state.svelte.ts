import type { SiteKeeper } from '../../../../src/app/keeping/site-keeper.svelte';

let stop: (() => void) | null = null;

/** Shows the keeper's words on the page, as they change. */
export function showState(keeper: SiteKeeper): void {
  stop?.();
  stop = $effect.root(() => {
    $effect(() => {
      const state = document.getElementById('state');
      if (!state) return;
      state.textContent = keeper.words;
      state.dataset.state = keeper.state;
    });
  });
}
