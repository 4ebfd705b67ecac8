import { takenFiles } from '../../io/keeping/taken-files';
import type { SiteKeeper } from './site-keeper.svelte';

/** A file of which rows were refused when it was taken in. */
export type RefusedRows = {
  readonly name: string;
  readonly refused: number;
  readonly rows: number;
};

/** Files taken into a site that did not come in whole; none for a site that keeps no journal. */
export const refusedRows = (keeper: SiteKeeper | null): readonly RefusedRows[] =>
  takenFiles(keeper?.whole.lines ?? []).flatMap(({ name, refused, rows }) =>
    refused > 0 ? [{ name, refused, rows }] : [],
  );
