import {
  draftOf,
  settingsOf,
  type DraftProblem,
  type SettingsDraft,
} from '../../domain/site/settings-draft';
import { onePerSite } from '../one-per-site.svelte';
import type { OpenSite } from '../open-site.svelte';
import { gridWords } from './grids';

/** The settings of a site while they are being written. */
export class SettingsView {
  open = $state(false);
  problems: readonly DraftProblem[] = $state.raw([]);
  trouble = $state('');

  draft: SettingsDraft;
  readonly grid = $derived.by(() => gridWords(this.draft.grid));
  readonly #site: OpenSite;

  constructor(site: OpenSite) {
    this.#site = site;
    this.draft = $state.raw(draftOf(site.package.settings));
  }

  begin = () => {
    this.draft = draftOf(this.#site.package.settings);
    this.problems = [];
    this.trouble = '';
    this.open = true;
  };

  change(change: Partial<SettingsDraft>) {
    this.draft = { ...this.draft, ...change };
  }

  keep = (event?: Event) => {
    event?.preventDefault();
    this.trouble = '';
    const read = settingsOf(this.draft);
    this.problems = read.ok ? [] : read.problem;
    if (!read.ok) return;
    if (!this.grid.ok) {
      this.trouble = this.grid.problem;
      return;
    }
    const edit = { kind: 'change-settings', settings: read.value } as const;
    const isNew = Object.values(this.#site.package.tables).every(({ size }) => size === 0);
    const made = this.#site.edit('Change the settings of the site', edit);
    if (made.ok) {
      this.open = false;
      // A site with nothing in it is laid out first.
      if (isNew) this.#site.way = 'lay-out';
    } else this.trouble = 'Another window has this site: here it can only be read.';
  };
}

/** The settings of a site; the same view each time it is asked for. */
export const settingsViewOf = onePerSite((site) => new SettingsView(site));
