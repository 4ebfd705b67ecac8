import { onePerSite } from '../one-per-site.svelte';

/** Who stands under what goes out on paper: typed once, for sheets and memo alike. Never part of the site. */
export class Signed {
  project = $state('');
  preparer = $state('');
  reviewer = $state('');
  revision = $state('');
}

export const signedOf = onePerSite(() => new Signed());

/** The lines of a title block that are the same on every sheet. */
export const SIGNED = ['project', 'preparer', 'reviewer', 'revision'] as const;
