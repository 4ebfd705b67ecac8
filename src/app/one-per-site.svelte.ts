import type { OpenSite } from './open-site.svelte';

/**
 * One of something for each open site, made when it is first asked for. It
 * outlives whatever part of the page asks first: what is worked out in it goes
 * on following the site while another part stands in that one's place.
 */
export function onePerSite<Made>(make: (site: OpenSite) => Made): (site: OpenSite) => Made {
  const all = new WeakMap<OpenSite, { readonly made: Made }>();
  return (site) => {
    const before = all.get(site);
    if (before) return before.made;
    let fresh: { readonly made: Made } | undefined;
    $effect.root(() => {
      fresh = { made: make(site) };
    });
    const { made } = fresh as unknown as { readonly made: Made };
    all.set(site, { made });
    return made;
  };
}
