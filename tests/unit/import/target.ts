import { readFileSync } from 'node:fs';
import { apply } from '../../../src/domain/site/edits/apply';
import type { DataPackage } from '../../../src/domain/site/data-package';
import type { Settings } from '../../../src/domain/site/settings';
import { proposedAnswers, type Answers } from '../../../src/io/import/ask';
import type { Target } from '../../../src/io/import/context';
import type { Mapping } from '../../../src/io/import/mapping';
import { proposeMapping } from '../../../src/io/import/match-columns';
import { preview, type Preview } from '../../../src/io/import/preview';
import { readDelimitedText } from '../../../src/io/import/read-delimited';
import type { SourceTable } from '../../../src/io/import/source-table';
import { gridOf, siteOf } from '../../../src/io/open-site';
import { settingsIn } from '../site-from';

/** A site with nothing in it, in feet on a local grid unless said otherwise. */
export const emptySite = (over: Partial<Settings> = {}): DataPackage => ({
  settings: settingsIn(over),
  tables: {},
  paths: {},
  columnUnits: {},
  descriptor: {},
});

/** A site opened for rows to be taken into. */
export function targetOf(site: DataPackage): Target {
  const { grid, problem } = gridOf(site);
  return { package: site, site: siteOf(site, grid, problem), grid };
}

/** Lines of a file, read; the test fails where they can't be. */
export function sourceOf(name: string, ...lines: readonly string[]): SourceTable {
  const read = readDelimitedText(name, lines.join('\n'));
  if (!read.ok) throw new Error(read.problem);
  return read.value;
}

export const bytesOfFile = (url: URL) => new Uint8Array(readFileSync(url));

export type Imported = {
  readonly preview: Preview;
  /** The site after the import; as it was where there was nothing to do. */
  readonly after: DataPackage;
};

/** Read a file into a site with the mapping proposed for it, the answers given, and whatever the evidence proposes. */
export function importInto(
  site: DataPackage,
  source: SourceTable,
  answers: Answers = {},
  mapping: Mapping = proposeMapping(source).mapping,
): Imported {
  const target = targetOf(site);
  // Answers bring questions of their own: until there are no more.
  let given = answers;
  for (let round = 0; round < 4; round++)
    given = {
      ...proposedAnswers(preview(source, mapping, given, target).asks),
      ...given,
      ...answers,
    };
  const last = preview(source, mapping, given, target);
  if (!last.edit) return { preview: last, after: site };
  const made = apply(site, last.edit);
  if (!made.ok) throw new Error(made.problem);
  return { preview: last, after: made.value };
}
