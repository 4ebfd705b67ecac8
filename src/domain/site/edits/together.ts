import { ok, type Result } from '../../result';
import type { DataPackage } from '../data-package';
import { apply, type Edit, type EditProblem } from './apply';

/** Several edits as one step: all of them or none. An import is one of these. */
export type Together = { readonly kind: 'together'; readonly edits: readonly Edit[] };

export function together(site: DataPackage, { edits }: Together): Result<DataPackage, EditProblem> {
  return edits.reduce<Result<DataPackage, EditProblem>>(
    (made, edit) => (made.ok ? apply(made.value, edit) : made),
    ok(site),
  );
}
