import { groupBy } from '../group';
import {
  delineationsOf,
  nextPushes,
  openSides,
  sideSentence,
  wayOf,
  type AnalyteDelineation,
} from '../lab/site-delineation';
import { COMPASS_SIDES, FLOW_SIDES, type Side } from '../lab/delineation';
import type { Site } from '../site/site';
import { length, significant } from '../show';
import { metres } from '../units';
import { flowOf } from '../water/flow';
import { judgedAgainst, type JudgedResult } from '../lab/site-results';
import { valueOf } from '../lab/reading';
import { resultText } from '../lab/verdict-words';
import { verdictWork } from '../lab/verdict-work';
import type { Verdict } from '../lab/verdict';
import { worseResultFirst } from '../lab/worst';
import { bare } from './ground-stops';
import { levelBeside } from './level-words';
import {
  counted,
  listed,
  said,
  type Material,
  type Part,
  type Sentence,
  type Telling,
} from './stop';
import { windowAround } from './window';

const EXCEEDS: readonly Verdict[] = ['exceeds', 'exceeds-estimated'];
const OPEN: readonly Verdict[] = ['cannot-tell', 'rejected', 'not-comparable', 'no-result'];

const isOne = (of: readonly Verdict[]) => (result: JudgedResult) =>
  of.includes(result.judged.outcome.verdict);
const pointsOf = (results: readonly JudgedResult[]) => [
  ...new Set(results.flatMap(({ location }) => location?.id ?? [])),
];

/** Analytes named on a wall before "and so many more". */
const NAMED = 3;

/** What exceeds which level, the analyte at most points first, and what cannot be told. */
export function whatExceeds({ site, of }: Material): Telling {
  const results = judgedAgainst(site, of.levelSet, { event: of.event, fieldSamples: true });
  const over = results.filter(isOne(EXCEEDS));
  const analytes = [...groupBy(over, ({ row }) => row.analyte)].toSorted(
    ([, a], [, b]) => pointsOf(b).length - pointsOf(a).length,
  );
  const sampled = pointsOf(results);
  const open = results.filter(isOne(OPEN));
  const view = {
    shown: { ...bare(of), verdicts: true },
    points: 'sampled',
    contours: false,
    window: windowAround(sampled.flatMap((id) => site.locations.get(id) ?? [])),
  } as const;
  if (of.levelSet === null || results.length === 0)
    return {
      title: 'What exceeds a level cannot be said',
      sentences: [
        said(
          of.levelSet === null
            ? 'No set of screening levels is in the site.'
            : 'No field sample of this event has a result.',
        ),
      ],
      notes: '',
      view,
    };
  const rest = analytes.slice(NAMED).map(([analyte]) => analyte);
  return {
    title:
      analytes.length > 0
        ? `${counted(analytes.length, 'compound exceeds', 'compounds exceed')} a screening level`
        : 'Nothing measured exceeds a screening level',
    sentences: [
      ...analytes.slice(0, NAMED).map(([analyte, here]) => overSentence(analyte, here, sampled)),
      ...(rest.length > 0 ? [said(`So does: ${listed(rest)}.`)] : []),
      ...(open.length > 0
        ? [
            said(
              `${counted(open.length, 'result')} at ${counted(pointsOf(open).length, 'point')} cannot be told: a limit exceeds its level, or the result is of no use.`,
            ),
          ]
        : []),
      said(`Levels: ${of.levelSet}. Levels change and states differ.`),
    ],
    notes: analytes
      .map(([analyte, here]) => `${analyte}: ${pointsOf(here).join(', ')}`)
      .concat(open.length > 0 ? [`Cannot be told at: ${pointsOf(open).join(', ')}`] : [])
      .join('\n'),
    view,
  };
}

function overSentence(
  analyte: string,
  here: readonly JudgedResult[],
  sampled: readonly string[],
): Sentence {
  const worstFirst = here.toSorted((a, b) => worseRatio(a, b));
  const [worst] = worstFirst;
  const level = worst?.judged.match.level;
  const work = worst ? verdictWork(worst.judged) : null;
  const text = worst ? resultText(worst.reading, valueOf(worst.reading)) : '';
  const most: Part = work ? { text, work } : text;
  // Laboratories and levels write in units of their own: the ratio is what a room can follow.
  const times =
    work && work.answer.value >= 1 ? ` (${significant(work.answer.value, 2)} times its level)` : '';
  const over = level && worst ? levelBeside(level, worst.reading) : 'its level';
  return said(`${analyte} exceeds ${over} ${whereOver(worstFirst, sampled)}, `, most, `${times}.`);
}

/** "at 1 of 8 points: PZ-7", "at MW-3 and PZ-7 (2 of 8 points); most at PZ-7"; the points by name while they are few. */
function whereOver(worstFirst: readonly JudgedResult[], sampled: readonly string[]): string {
  const all = counted(sampled.length, 'point');
  const most = worstFirst[0]?.location?.id ?? 'a point not known';
  const points = pointsOf(worstFirst);
  if (points.length < 2) return `at ${points.length} of ${all}: ${most}`;
  return points.length > NAMED
    ? `at ${points.length} of ${all}; most at ${most}`
    : `at ${listed(points)} (${points.length} of ${all}); most at ${most}`;
}

/** The largest times its level first, estimated or not. */
const worseRatio = (a: JudgedResult, b: JudgedResult) => {
  const [x, y] = [verdictWork(a.judged), verdictWork(b.judged)];
  return x && y ? y.answer.value - x.answer.value : worseResultFirst(a.judged, b.judged);
};

/** What comes next: the points that are planned, and what each is to find out. */
export function whatNext({ site, of, flow }: Material): Telling {
  const planned = [...site.locations.values()].filter(({ status }) => status === 'planned');
  const doubts = [
    ...(flow?.resolved === false ? ['the direction of flow is not resolved'] : []),
    ...(flow?.isPlane === false ? ['one plane does not tell the water surface'] : []),
    ...(site.settings.validated ? [] : ['the results are not validated']),
  ];
  return {
    title:
      planned.length > 0
        ? `Next: ${counted(planned.length, 'point')} planned`
        : 'No further point is planned',
    sentences: [
      ...planned
        .slice(0, 4)
        .map(({ id, purpose }) => said(`${id}: ${purpose ?? 'no purpose is written for it'}.`)),
      ...(planned.length > 4 ? [said(`And ${planned.length - 4} more.`)] : []),
      said(
        doubts.length > 0
          ? `Still open: ${listed(doubts)}.`
          : 'Before any push: utilities cleared on the ground, by those whose task it is.',
      ),
    ],
    notes: 'A drawn line only knows what was drawn: clearance comes before any push.',
    view: {
      shown: { ...bare(of), arrow: true, verdicts: true },
      points: 'all',
      contours: false,
      window: null,
    },
  };
}

/** How far a point may lie and still close a side, out and below, as on the sheet. Common practice, no source. */
const WITHIN = metres(30);
const BELOW = metres(6);

const reachOf = ({ grid }: Site) => ({
  within: WITHIN,
  below: BELOW,
  combinedFactor: grid.combinedFactor ?? 1,
});

/** The sides of every point that exceeds in an event, one answer an analyte. */
export function sidesTold(
  site: Site,
  { event, levelSet }: Pick<Material['of'], 'event' | 'levelSet'>,
  heads: Material['heads'],
): AnalyteDelineation[] {
  if (event === null) return [];
  const results = judgedAgainst(site, levelSet, { event, fieldSamples: true });
  return delineationsOf(
    site,
    results,
    (zone) => wayOf(flowOf(site, event, zone, heads)),
    reachOf(site),
  );
}

/** A side as a room hears it: "side-gradient, left" is "left of the flow". */
function sideWords(side: Side): string {
  if (side === 'side-gradient, left') return 'left of the flow';
  if (side === 'side-gradient, right') return 'right of the flow';
  return COMPASS_SIDES.some((one) => one === side) ? `to the ${side}` : side;
}

/** Sides of a point as few words: "on every side and below", "on every side but up-gradient". */
export function sidesWords(sides: readonly Side[]): string {
  const around: readonly Side[] = [...new Set(sides)].filter((side) => side !== 'below');
  const names: readonly Side[] = around.some((side) => COMPASS_SIDES.some((one) => one === side))
    ? COMPASS_SIDES
    : FLOW_SIDES;
  const shut = names.filter((side) => !around.includes(side));
  const below = sides.includes('below') ? ['below'] : [];
  if (shut.length > 1) return listed([...around.map(sideWords), ...below]);
  const but = shut.map((side) => ` but ${sideWords(side)}`);
  return below.length > 0 && shut.length > 0
    ? `below, and on every side${but[0]}`
    : listed([`on every side${but[0] ?? ''}`, ...below]);
}

/** Sides in the order they are told: the way the water goes first, down last. */
const TOLD: readonly Side[] = [...FLOW_SIDES, ...COMPASS_SIDES, 'below'];

/** Which points are open where: by name while few are open alike, else how many on which side. */
function openWhere(one: AnalyteDelineation): string {
  const sides = openSides(one);
  const points = [...groupBy(sides, ({ location }) => location)].map(([location, here]) => ({
    location,
    where: sidesWords(here.map(({ side }) => side)),
  }));
  const alike = [...groupBy(points, ({ where }) => where)]
    .toSorted(([, a], [, b]) => b.length - a.length)
    .map(([where, here]) => `${where} at ${listed(here.map(({ location }) => location))}`);
  if (alike.length < 3) return alike.join('; ');
  const around = points.flatMap(({ location, where }) =>
    /^on every side(?! but)/.test(where) ? location : [],
  );
  const counts = [...groupBy(sides, ({ side }) => side)]
    .toSorted(([a], [b]) => TOLD.indexOf(a) - TOLD.indexOf(b))
    .flatMap(([side, here]): [string, readonly string[]][] => {
      const names = [...new Set(here.map(({ location }) => location))].filter(
        (location) => side === 'below' || !around.includes(location),
      );
      return names.length > 0 ? [[sideWords(side), names]] : [];
    });
  const told = [...(around.length > 0 ? [['on every side', around] as const] : []), ...counts].map(
    ([where, names]) => `${where} at ${names.length > 2 ? names.length : names.join(' and ')}`,
  );
  return `at ${counted(points.length, 'point')}: ${told.join(', ')}`;
}

/** What is delineated and what is open: the sides of every point that exceeds, and below it. */
export function whatIsDelineated({ site, of, heads }: Material): Telling | null {
  const { event, levelSet } = of;
  if (event === null) return null;
  const results = judgedAgainst(site, levelSet, { event, fieldSamples: true });
  const { verticalUnit, grid } = site.settings;
  const reach = reachOf(site);
  const units = { vertical: verticalUnit, grid: grid.unit };
  const found = sidesTold(site, of, heads);
  if (found.length === 0) return null;
  const open = found.filter((one) => openSides(one).length > 0);
  const pushes = nextPushes(found);
  const shut = found.filter((one) => !open.includes(one)).map(({ analyte }) => analyte);
  return {
    title: open.length > 0 ? 'What is still open' : 'Delineated on every side',
    sentences: [
      ...[...groupBy(open.slice(0, NAMED), openWhere)].map(([where, here]) =>
        said(
          `${listed(here.map(({ analyte }) => analyte))} ${here.length > 1 ? 'are' : 'is'} open ${where}.`,
        ),
      ),
      ...(open.length > NAMED
        ? [said(`Open too: ${listed(open.slice(NAMED).map(({ analyte }) => analyte))}.`)]
        : []),
      ...(shut.length > 0 ? [said(`Delineated: ${listed(shut)}.`)] : []),
      said(
        `A side counts as delineated where a point within ${length(reach.within, verticalUnit, 0)}, or ${length(reach.below, verticalUnit, 0)} below, does not exceed: in this event alone.`,
      ),
    ],
    notes: pushes
      .map(
        ({ answer, analytes }) => `${sideSentence(answer, reach, units)} (${analytes.join(', ')})`,
      )
      .join('\n'),
    view: {
      shown: { ...bare(of), verdicts: true },
      points: 'sampled',
      contours: false,
      sides: true,
      window: windowAround(
        pointsOf(results).flatMap((id) => site.locations.get(id) ?? []),
        pushes.flatMap(({ answer: { next, side } }) =>
          next && side !== 'below' ? [[next.easting, next.northing] as const] : [],
        ),
      ),
    },
  };
}
