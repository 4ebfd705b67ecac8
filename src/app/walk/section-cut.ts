import { worstByScreen } from '../../domain/lab/worst-by-screen';
import { metres, type Metres } from '../../domain/units';
import type { Cut } from '../../domain/walk/stop';
import { headUnder, sectionLines, sectionOf, type Section } from '../../domain/water/section';
import type { Answers } from '../answers-for';

/** A section as it is drawn, with the name of its line and the half width of its corridor. */
export type SectionCut = {
  readonly name: string;
  readonly corridor: Metres;
  readonly made: Section;
};

/** What a section is made of; marks are all it needs of the results. */
type SectionOf = Omit<Answers, 'results'> & {
  readonly results: Parameters<typeof worstByScreen>[0];
};

/** Fifty feet or fifteen metres to either side: common practice, no source. */
export const usualCorridor = ({ settings: { grid } }: Answers['site']) =>
  metres(grid.unit === 'm' ? 15 : 50, grid.unit);

/** The section along a line, the first of the site where none is named; null where there is no such line, or nothing to carry onto it. */
export function sectionFor(
  { site, shown, heads, flow, results }: SectionOf,
  cut?: Cut,
): SectionCut | null {
  const lines = sectionLines(site);
  const drawn = lines.find(({ feature }) => feature.id === cut?.line) ?? lines[0];
  const line = Array.isArray(cut?.line) ? (cut.line as [number, number][]) : drawn?.line;
  if (!line || line.length < 2) return null;
  const corridor = cut ? metres(cut.corridor) : usualCorridor(site);
  const verdicts = worstByScreen(shown.verdicts ? results : []);
  const made = sectionOf(site, line, corridor, heads, headUnder(site, flow), verdicts);
  const name = Array.isArray(cut?.line)
    ? 'along the line kept'
    : (drawn?.feature.name ?? drawn?.feature.id);
  return made && { name: name ?? '', corridor, made };
}
