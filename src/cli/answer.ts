import { printWork } from '../domain/print-work';
import { unitsOf } from '../domain/site/settings';
import type { Site } from '../domain/site/site';
import { sourceName } from '../domain/site/source-name';
import type { Work } from '../domain/work';

/** What a command says: as a table to read, and as JSON. */
export type Answer = { readonly text: string; readonly json: unknown };

/** A work and all that is behind it, indented. */
export function workText(site: Site, work: Work, indent = '  '): string {
  const printed = printWork(work, unitsOf(site.settings));
  const lines = [
    printed.title,
    `${printed.formula}`,
    `  = ${printed.substituted}`,
    `  = ${printed.answer} ${printed.unit}`.trimEnd(),
    ...printed.terms.flatMap((term) => [
      `  ${term.symbol} = ${term.number} ${term.unit}`.trimEnd() +
        `  ${term.name}; ${sourceName(site, term.from)}`,
      ...(term.conversion === null ? [] : [`    ${term.conversion}`]),
    ]),
  ];
  const behind = work.terms.flatMap(({ from }) =>
    from.kind === 'work' ? [workText(site, from.work, '  ')] : [],
  );
  return [...lines, ...behind].join('\n').replaceAll(/^/gm, indent);
}
