import type { GridDefinition } from '../../domain/site/settings';
import type { LengthUnit } from '../../domain/units';
import { lengthUnitNamed } from './heading';

/** A unit as a line above the headings names it, with the words it stands in. */
export type UnitInTitle = { readonly unit: LengthUnit; readonly words: string };

/** Vertical datums, and other words elevations are announced by (common practice, no source). */
const VERTICAL =
  /\b(?:NAVD ?\d{2}|NGVD ?\d{2}|IGLD ?\d{2,4}|EGM ?\d{2,4}|MSL|AHD|NAP|AMSL|vertical(?: datum)?|elevations?)\b[\s:,;(=/-]{0,3}(?:in )?((?:US |international )?(?:survey )?[a-z]+)/gi;

/** The unit of elevations the lines above the headings name; null where they name none, or two. */
export function elevationUnitIn(titles: readonly string[]): UnitInTitle | null {
  const found = titles.flatMap((title) =>
    [...title.matchAll(VERTICAL)].flatMap(([words, named = '']): UnitInTitle[] => {
      const unit = lengthUnitNamed(named);
      return unit === null ? [] : [{ unit, words: words.trim() }];
    }),
  );
  const [first] = found;
  return first && found.every(({ unit }) => unit === first.unit) ? first : null;
}

/** Words a line above the headings names a grid by. */
const NAMES_GRID = /\b(?:NAD ?\d{2,4}|WGS ?\d{2}|ETRS ?\d{2}|OSGB|UTM|state plane|zone)\b/i;

const wordsOf = (text: string) =>
  text
    .toLowerCase()
    .replace(/\b([a-z]+)\s?(\d+)\b/g, '$1$2')
    .split(/[^a-z0-9]+/)
    .filter(Boolean);

/** What the lines above the headings say of the grid beside the site's own, as a sentence; null where they name none. */
export function gridInTitles(
  titles: readonly string[],
  { name }: Pick<GridDefinition, 'name'>,
): string | null {
  const title = titles.find((each) => NAMES_GRID.test(each));
  if (title === undefined) return null;
  const said = new Set(wordsOf(title));
  // The unit in brackets is written in too many ways to be looked for.
  const names = wordsOf(name.replace(/\([^)]*\)/g, ''));
  const isSame = names.length > 0 && names.every((word) => said.has(word));
  return isSame
    ? `“${title}”, above the headings, agrees with the site’s grid, ${name}.`
    : `“${title}”, above the headings, is not how the site’s grid is called, ${name}: see that they are the same.`;
}
