import { printWork } from '../domain/print-work';
import type { PrintUnits } from '../domain/show';
import type { Site } from '../domain/site/site';
import type { Source, Work } from '../domain/work';

/** What a command says: as a table to read, and as JSON. */
export type Answer = { readonly text: string; readonly json: unknown };

const unitsOf = ({ settings }: Site): PrintUnits => ({
  vertical: settings.verticalUnit,
  grid: settings.grid.unit,
});

const sourceText = (site: Site, source: Source): string => {
  switch (source.kind) {
    case 'cell':
      return `${site.files[source.table]}, row ${source.row}, ${source.column}`;
    case 'setting':
      return `site settings: ${source.name}`;
    case 'citation':
      return source.text;
    case 'work':
      return source.work.title;
  }
};

/** A work and all that is behind it, indented. */
export function workText(site: Site, work: Work, indent = '  '): string {
  const printed = printWork(work, unitsOf(site));
  const lines = [
    printed.title,
    `${printed.formula}`,
    `  = ${printed.substituted}`,
    `  = ${printed.answer} ${printed.unit}`.trimEnd(),
    ...printed.terms.flatMap((term) => [
      `  ${term.symbol} = ${term.number} ${term.unit}`.trimEnd() +
        `  ${term.name}; ${sourceText(site, term.from)}`,
      ...(term.conversion === null ? [] : [`    ${term.conversion}`]),
    ]),
  ];
  const behind = work.terms.flatMap(({ from }) =>
    from.kind === 'work' ? [workText(site, from.work, '  ')] : [],
  );
  return [...lines, ...behind].join('\n').replaceAll(/^/gm, indent);
}
