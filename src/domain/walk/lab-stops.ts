import { duplicateOverSaid, samplesApartSaid } from '../findings/lab/exceedance-words';
import { groupBy } from '../group';
import { duplicatesOver, type DuplicateOver } from '../lab/duplicates-over';
import { samplesApart } from '../lab/samples-apart';
import { length, significant } from '../show';
import { judgedAgainst, type JudgedResult } from '../lab/site-results';
import { valueOf } from '../lab/reading';
import { resultText } from '../lab/verdict-words';
import { verdictWork } from '../lab/verdict-work';
import { isOver, type Verdict } from '../lab/verdict';
import { worseResultFirst } from '../lab/worst';
import type { Location } from '../site/schema';
import type { Site } from '../site/site';
import { bare, wasPushed } from './ground-stops';
import { levelBeside } from './level-words';
import { pushEvent } from './push-event';
import {
  counted,
  days,
  listed,
  said,
  type Material,
  type Part,
  type Sentence,
  type Telling,
} from './stop';
import { windowAround } from './window';

const OPEN: readonly Verdict[] = ['cannot-tell', 'rejected', 'not-comparable', 'no-result'];

const isOne = (of: readonly Verdict[]) => (result: JudgedResult) =>
  of.includes(result.judged.outcome.verdict);
const pointsOf = (results: readonly JudgedResult[]) => [
  ...new Set(results.flatMap(({ location }) => location?.id ?? [])),
];

/** Analytes told on a wall; one fewer where there are more, which then stand in a list. */
const NAMED = 3;

const isPushed = ({ kind }: Pick<Location, 'kind'>) => kind === 'direct push';

/** When and where an event was sampled: "Sampled 2025-09-15 to 2025-09-19 at 33 points: 25 of the 28 pushed, and 8 others." */
function whenSampled(site: Site, id: string, sampled: readonly string[]): Sentence {
  const event = site.events.get(id);
  const all = [...site.locations.values()].filter((at) => isPushed(at) && wasPushed(at)).length;
  const pushed = sampled.filter((at) => site.locations.get(at)?.kind === 'direct push').length;
  const others = sampled.length - pushed;
  const some = pushed === all ? `all ${all} pushed` : `${pushed} of the ${all} pushed`;
  const kinds =
    pushed === 0
      ? ', none of them pushed'
      : others === 0
        ? `, ${some}`
        : `: ${some}, and ${counted(others, 'other')}`;
  return said(
    `Sampled ${event ? days(event.first_day, event.last_day) : id} at ${counted(sampled.length, 'point')}${kinds}.`,
  );
}

/** That points pushed and sampled in another event were not sampled again: what is found since is no sign of less. */
function notAgain(site: Site, { event: told, levelSet }: Material['of']): Sentence[] {
  const event = pushEvent(site, { event: told });
  if (!event || told === null) return [];
  const pushedIn = (id: string) =>
    pointsOf(
      judgedAgainst(site, levelSet, { event: id, fieldSamples: true }).filter(
        ({ location }) => location && isPushed(location),
      ),
    );
  const again = new Set(pushedIn(told));
  const before = pushedIn(event.id);
  const left = before.filter((id) => !again.has(id)).length;
  if (left === 0) return [];
  const some =
    left === before.length
      ? `None of the ${left}`
      : `Only ${before.length - left} of the ${before.length}`;
  return [
    said(
      `${some} push points of ${event.first_day.slice(0, 7)} ${left === before.length || before.length - left === 1 ? 'was' : 'were'} sampled again: this does not show that there is less now.`,
    ),
  ];
}

/** What the field samples of an event say against the levels, the analyte at most points first. */
function resultsOf(site: Site, of: Material['of']) {
  const { event, levelSet } = of;
  const results = judgedAgainst(site, levelSet, { event, fieldSamples: true });
  if (levelSet === null || event === null || results.length === 0) return null;
  const overInDuplicates = duplicatesOver(site, levelSet, event);
  const over = results.filter(({ judged }) => isOver(judged.outcome.verdict));
  const analytes = [...groupBy(over, ({ row }) => row.analyte)].toSorted(
    ([, a], [, b]) => pointsOf(b).length - pointsOf(a).length,
  );
  const sampled = pointsOf(results);
  const open = results.filter(isOne(OPEN));
  const named = analytes.length > NAMED ? NAMED - 1 : NAMED;
  const rest = analytes.slice(named).map(([analyte]) => analyte);
  return {
    found:
      analytes.length > 0
        ? 'field samples'
        : overInDuplicates.length > 0
          ? 'duplicates'
          : 'nothing',
    exceeding: analytes.length,
    sentences: [
      whenSampled(site, event, sampled),
      ...notAgain(site, of),
      ...analytes
        .slice(0, named)
        .map(([analyte, here]) => overSentence(site, analyte, here, sampled)),
      ...(rest.length > 0 ? [said(`So ${rest.length > 1 ? 'do' : 'does'}: ${listed(rest)}.`)] : []),
      ...amongSamples(results, overInDuplicates),
      ...(open.length > 0
        ? [
            said(
              `${counted(open.length, 'result')} at ${counted(pointsOf(open).length, 'point')} cannot be told: the laboratory's limit exceeds the level, or the result is of no use.`,
            ),
          ]
        : []),
    ],
    notes: analytes
      .map(([analyte, here]) => `${analyte}: ${pointsOf(here).join(', ')}`)
      .concat(open.length > 0 ? [`Cannot be told at: ${pointsOf(open).join(', ')}`] : [])
      .join('\n'),
    view: {
      shown: { ...bare(of), verdicts: true },
      points: 'sampled',
      contours: false,
      window: windowAround(sampled.flatMap((id) => site.locations.get(id) ?? [])),
    },
  } as const;
}

/** What the pushes found, where the walk tells of another round; null where it tells of theirs, or nothing can be said. */
export function whatPushesFound({ site, of }: Material): Telling | null {
  const event = pushEvent(site, of);
  const told = event && resultsOf(site, { ...of, event: event.id });
  if (!told) return null;
  const { exceeding, found, ...rest } = told;
  const what = {
    'field samples': `${counted(exceeding, 'compound that exceeds', 'compounds that exceed')} a level`,
    duplicates: 'what exceeds a level in a duplicate alone',
    nothing: 'nothing that exceeds a level',
  }[found];
  return { ...rest, title: `The pushes found ${what}` };
}

/** What exceeds which level in the event told of, and what cannot be told. */
export function whatExceeds({ site, of }: Material): Telling {
  const told = resultsOf(site, of);
  if (!told)
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
      view: {
        shown: { ...bare(of), verdicts: true },
        points: 'sampled',
        contours: false,
        window: null,
      },
    };
  const { exceeding, found, sentences, ...rest } = told;
  return {
    ...rest,
    title: {
      'field samples': `${counted(exceeding, 'compound exceeds', 'compounds exceed')} a screening level`,
      duplicates: 'Only a duplicate exceeds a screening level',
      nothing: 'Nothing measured exceeds a screening level',
    }[found],
    sentences: [
      ...sentences,
      said(`Levels: ${of.levelSet ?? ''}. Levels change and states differ.`),
    ],
  };
}

/** Disagreements told on a wall by themselves; the others are counted. */
const DISAGREEING = 2;

/** Samples of one screen that disagree on a level, and duplicates that exceed where no field sample does. */
function amongSamples(
  results: readonly JudgedResult[],
  duplicates: readonly DuplicateOver[],
): Sentence[] {
  const all = [
    ...samplesApart(results).map(samplesApartSaid),
    ...duplicates.map(duplicateOverSaid),
  ];
  const more = all.length - DISAGREEING;
  return [
    ...all.slice(0, DISAGREEING).map((sentence) => said(sentence)),
    ...(more > 0
      ? [said(`${counted(more, 'more screen or duplicate disagrees', 'more screens or duplicates disagree')} on a level; the table of samples by analytes has them.`)] // prettier-ignore
      : []),
  ];
}

function overSentence(
  site: Site,
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
  return said(
    `${analyte} exceeds ${over} ${whereOver(worstFirst, sampled)}, `,
    most,
    `${times}${deepest(site, here)}.`,
  );
}

/** How deep a compound exceeds: "; deepest at DP-05, 39 ft below ground"; blank where no depth is recorded. */
function deepest({ settings }: Site, here: readonly JudgedResult[]): string {
  const depths = here.flatMap(({ screen, location }) =>
    screen?.tip_depth && location ? [{ id: location.id, depth: screen.tip_depth.value }] : [],
  );
  const [most] = depths.toSorted((a, b) => b.depth - a.depth);
  if (!most) return '';
  const where = pointsOf(here).length > 1 ? `deepest at ${most.id}, ` : '';
  return `; ${where}${length(most.depth, settings.verticalUnit, 0)} below ground`;
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
