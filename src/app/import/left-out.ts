import type { PreviewShown } from './importing';

/** What became of a file a person leaves out; rows the site has already are still there. */
export function leftOutSaid(account: PreviewShown['account'] | null): string {
  if (account === null) return 'Left out: nothing was taken from it.';
  const { rows, same } = account;
  const all = `${rows} ${rows === 1 ? 'row' : 'rows'}`;
  return same === 0
    ? `Left out: none of its ${all} was taken.`
    : `Left out: nothing was taken from it. The site already has ${same === rows ? `all of its ${all}` : `${same} of its ${all}`}.`;
}
