import { groupBy } from '../../domain/group';
import { reportedText } from '../../domain/lab/cross-tab';
import { boxAt } from '../../domain/lab/lab-settings';
import { byLocation, type JudgedResult } from '../../domain/lab/site-results';
import type { Verdict } from '../../domain/lab/verdict';
import { worstBy, worseResultFirst } from '../../domain/lab/worst';
import type { Site } from '../../domain/site/site';
import type { Spot } from './box-layout';
import { placeOf } from './from-locations';
import type { Place } from './scene';
import { textWidth } from './text-width';

/** One line of a box: the name of a screen or sample, or a result. */
export type BoxLine =
  | { readonly kind: 'screen'; readonly text: string }
  | { readonly kind: 'result'; readonly verdict: Verdict; readonly text: string };

/** What the results of one point say, as lines for a box beside it. */
export type ResultBox = {
  /** The location's id, also its heading. */
  readonly who: string;
  readonly at: Place;
  readonly lines: readonly BoxLine[];
  /** The results among the lines, worst first. */
  readonly worst: readonly BoxLine[];
  /** Results that are not among the lines. */
  readonly more: number;
};

/** Results in a box at most. */
export const MOST_RESULTS = 8;

/**
 * A box for each point with results, the worst point first. In it the worst
 * result of each analyte and sample, at most `MOST_RESULTS`, by screen where
 * there are several, the shallowest first, and by sample where one has several.
 */
export function resultBoxes(site: Site, results: readonly JudgedResult[]): ResultBox[] {
  const boxes = [...byLocation(results)].flatMap(([id, here]) => {
    const location = site.locations.get(id);
    const at = location ? placeOf(location) : null;
    if (!at) return [];
    const bySame = new Map(here.map((result) => [result.judged, result]));
    const worst = [
      ...worstBy(
        here.map(({ judged }) => judged),
        (judged) => `${bySame.get(judged)?.row.sample}|${judged.reading.key}`,
      ).values(),
    ].toSorted(worseResultFirst);
    const [first] = worst;
    if (!first) return [];
    const kept = worst.slice(0, MOST_RESULTS).flatMap((judged) => bySame.get(judged) ?? []);
    return [{ first, box: resultBox(id, at, kept, worst.length - kept.length) }];
  });
  return boxes.toSorted((a, b) => worseResultFirst(a.first, b.first)).map(({ box }) => box);
}

/** The box of one point from its worst results, the worst first, and how many more there are. */
export function resultBox(
  who: string,
  at: Place,
  results: readonly JudgedResult[],
  more: number,
): ResultBox {
  const lineFor = new Map(results.map((result) => [result, lineOf(result)] as const));
  const groups = bySampleOf(results);
  const lines = groups.flatMap(({ name, of }): BoxLine[] => [
    ...(groups.length > 1 ? [{ kind: 'screen', text: name ?? who } as const] : []),
    ...of.flatMap((result) => lineFor.get(result) ?? []),
  ]);
  return { who, at, lines, worst: [...lineFor.values()], more };
}

/** Results of a point by screen, the shallowest first, and by sample under both names where a screen has several. */
function bySampleOf(results: readonly JudgedResult[]) {
  const screens = [...groupBy(results, ({ screen }) => screen)].toSorted(
    ([a], [b]) => (a?.tip_depth?.value ?? 0) - (b?.tip_depth?.value ?? 0),
  );
  return screens.flatMap(([screen, here]) => {
    const name = screen?.id ?? null;
    const samples = [...groupBy(here, ({ row }) => row.sample)];
    return samples.length > 1
      ? samples.map(([sample, of]) => ({ name: [name, sample].filter(Boolean).join(', '), of }))
      : [{ name, of: here }];
  });
}

function lineOf(result: JudgedResult): BoxLine {
  const { row, judged } = result;
  const letters = [row.lab_qualifier, row.validation_qualifier].flatMap(
    (written) => written?.trim() || [],
  );
  const text = [row.analyte, reportedText(result), ...letters].join(' ');
  return { kind: 'result', verdict: judged.outcome.verdict, text };
}

/** How a box is set: px. */
export type BoxType = {
  readonly size: number;
  readonly leading: number;
  readonly padding: number;
  /** Room for the mark before a result. */
  readonly mark: number;
};

export const SCREEN_BOX: BoxType = { size: 12, leading: 15, padding: 5, mark: 15 };
/** 6 pt on a sheet at 96 px to the inch. */
export const SHEET_BOX: BoxType = { size: 8, leading: 9, padding: 2, mark: 10 };

/** Results in the shorter forms of a box, for where there is little room. */
const SHORTER = [4, 2, 1];

/** A box in its forms: whole, then with fewer and fewer of its worst results and the rest counted. */
export function formsOf(box: ResultBox): readonly ResultBox[] {
  const shorter = SHORTER.filter((most) => most < box.worst.length);
  return [box, ...shorter.map((most) => shortened(box, most))];
}

function shortened(box: ResultBox, most: number): ResultBox {
  const worst = new Set(box.worst.slice(0, most));
  const kept = box.lines.filter((line) => line.kind === 'screen' || worst.has(line));
  // A screen's name stands only over its results.
  const lines = kept.filter(({ kind }, i) => kind === 'result' || kept[i + 1]?.kind === 'result');
  return { ...box, lines, more: box.more + box.worst.length - worst.size };
}

export const moreText = (more: number) => (more === 1 ? 'and 1 more' : `and ${more} more`);

/** Width and height of a box as set, px. */
export function boxSize(
  { who, lines, more }: Pick<ResultBox, 'who' | 'lines' | 'more'>,
  { size, leading, padding, mark }: BoxType,
): readonly [width: number, height: number] {
  const widths = lines.map(({ kind, text }) =>
    kind === 'result' ? mark + textWidth(text, size, 'regular') : textWidth(text, size, 'semibold'),
  );
  const last = more > 0 ? [textWidth(moreText(more), size, 'regular')] : [];
  const width = Math.max(textWidth(who, size, 'semibold'), ...widths, ...last);
  return [
    Math.ceil(width + 2 * padding + 2),
    Math.ceil((lines.length + 1 + last.length) * leading + 2 * padding),
  ];
}

/**
 * Where a person put a box, px from its point, for boxes set in a type: kept at the
 * size of the screen, and smaller on a sheet as its words are. Undefined where the
 * box finds its own place.
 */
export function heldBox(site: Site, who: string, { size }: BoxType): Spot | undefined {
  const at = boxAt(site.settings, who);
  const share = size / SCREEN_BOX.size;
  return at ? [at[0] * share, at[1] * share] : undefined;
}
