import type { Result } from '../../result';
import type { DataPackage } from '../data-package';
import { addRows, type AddRows } from './add-rows';
import { addTable, type AddTable } from './add-table';
import { changeSettings, type ChangeSettings } from './change-settings';
import { decide, type Decide } from './decide';
import { placePictures, type PlacePictures } from './place-pictures';
import { removeRows, type RemoveRows } from './remove-rows';
import { together, type Together } from './together';
import { writeCells, type WriteCells } from './write-cells';

/** Everything that can be done to a site, as plain data: listed, replayed, kept in the journal. */
export type Edit =
  WriteCells | AddRows | AddTable | RemoveRows | ChangeSettings | Decide | PlacePictures | Together;

/** Why an edit makes no sense now. */
export type EditProblem = 'no-such-row' | 'nothing-to-add' | 'no-reason';

/** The site with an edit made; or why not, and the site is as it was. */
export function apply(site: DataPackage, edit: Edit): Result<DataPackage, EditProblem> {
  switch (edit.kind) {
    case 'write-cells':
      return writeCells(site, edit);
    case 'add-rows':
      return addRows(site, edit);
    case 'add-table':
      return addTable(site, edit);
    case 'remove-rows':
      return removeRows(site, edit);
    case 'change-settings':
      return changeSettings(site, edit);
    case 'decide':
      return decide(site, edit);
    case 'place-pictures':
      return placePictures(site, edit);
    case 'together':
      return together(site, edit);
  }
}
