import { fail, ok, type Result } from '../../domain/result';
import { canPickFolder, openFolder, pickFolder, type FolderSite } from './folder-place.svelte';
import type { FolderPlace } from './folder-place.svelte';
import type { RowsRead } from '../open-in-steps';
import type { Keeping } from './keeping.svelte';
import type { SiteKeeper } from './site-keeper.svelte';
import { folderWords } from './words';

/** Folders of this device that sites are opened from and saved to in place. */
export class FolderDesk {
  readonly canPick = canPickFolder();
  /** The folder of the open site; null where it has none. */
  place: FolderPlace | null = $state.raw(null);
  /** What came of the last save, in a sentence. */
  said = $state('');
  /** Whether files of the folder were changed by someone else and would be written over. */
  mayReplace = $state(false);
  readonly #keeping: Keeping;

  constructor(keeping: Keeping) {
    this.#keeping = keeping;
  }

  /** Look up the folder remembered for a site. */
  async follow(keeper: SiteKeeper | null): Promise<void> {
    this.place = null;
    this.said = '';
    this.mayReplace = false;
    if (keeper) this.place = await this.#keeping.folderOf(keeper);
  }

  /** A site in a folder the person chooses; null where they choose none. */
  async pick(report: (rows: RowsRead) => void): Promise<Result<FolderSite | null, string>> {
    try {
      const folder = await pickFolder();
      if (!folder) return ok(null);
      report({ done: 0, of: 0 });
      return await openFolder(folder, report);
    } catch (error) {
      return fail(`The folder is not opened: ${whyNot(error)}.`);
    }
  }

  /** Save from now on into the folder a site was opened from. */
  async use(keeper: SiteKeeper, { folder, digests }: FolderSite): Promise<void> {
    this.place = await this.#keeping.useFolder(keeper, folder, digests);
  }

  /** Save the site into its folder, or into one chosen now. Call it from a click. */
  async save(keeper: SiteKeeper, replace = false): Promise<void> {
    this.said = '';
    try {
      if (!this.place) {
        const folder = await pickFolder();
        if (!folder) return;
        this.place = await this.#keeping.useFolder(keeper, folder);
      }
      const saved = await this.place.save(keeper, replace);
      this.mayReplace = !saved.ok && saved.problem.kind === 'changed-there';
      this.said = saved.ok ? `Saved in the folder ${this.place.name}.` : folderWords(saved.problem);
    } catch (error) {
      this.said = folderWords({ kind: 'not-written', said: whyNot(error) });
    }
  }
}

const whyNot = (error: unknown) =>
  error instanceof Error && error.message !== '' ? error.message : 'the browser refused';
