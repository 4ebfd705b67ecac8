import { fail, type Result } from '../../result';
import type { DataPackage } from '../data-package';
import type { Decision } from '../schema';
import { addRows } from './add-rows';

/** Something a person decided; a decision without a reason is refused. */
export type Decide = {
  readonly kind: 'decide';
  readonly what: Decision['what'];
  readonly on: string;
  readonly reason: string;
  readonly who: string;
  /** Local time, as 2026-05-31T14:05. */
  readonly when: string;
};

export function decide(
  site: DataPackage,
  { what, on, reason, who, when }: Decide,
): Result<DataPackage, 'no-reason' | 'nothing-to-add'> {
  if (reason.trim() === '') return fail('no-reason');
  const row = { what, on, reason: reason.trim(), who, when };
  return addRows(site, { kind: 'add-rows', table: 'decisions', rows: [row] });
}
