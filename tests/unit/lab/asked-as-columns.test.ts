import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { keysOfGroup } from '../../../src/domain/lab/analyte-groups';
import {
  ASKED_AT_FIRST,
  choicesIn,
  judgedIn,
  askedOf,
  type Asked,
} from '../../../src/domain/lab/asked-results';
import { drawnOf, type DrawnResult } from '../../../src/domain/lab/drawn-results';
import {
  judgedAt,
  judgedList,
  type JudgedSelection,
  verdictCounts,
  worstOfVerdict,
  worseRowFirst,
} from '../../../src/domain/lab/judged-selection';
import { worseResultFirst } from '../../../src/domain/lab/worst';
import { analytesIn, ofAnalyte } from '../../../src/domain/lab/selection';
import {
  countsOf,
  levelSetsOf,
  resultsIn,
  resultsOf,
  type JudgedResult,
} from '../../../src/domain/lab/site-results';
import { VERDICTS } from '../../../src/domain/lab/verdict';
import { SHOWN_AT_FIRST } from '../../../src/domain/site/shown';
import type { Site } from '../../../src/domain/site/site';
import { resultBoxes } from '../../../src/map/scene/from-results';
import { siteScene } from '../../../src/map/site-scene';
import { boxesInView, placedPoints } from '../../../src/ui/results/boxes-in-view';
import { openFolder } from '../folder';
import { randomSite } from './random-site';

/** Each result read and judged by itself, as an object: what the columns are held against. */
function oneByOne(site: Site, set: string, event: string | null, asked: Asked): JudgedResult[] {
  const levels = levelSetsOf(site).get(set);
  if (!levels) return [];
  const group = asked.group === null ? null : keysOfGroup(asked.group);
  const { used } = asked.allEvents || event === null ? resultsOf(site) : resultsIn(site, event);
  return used
    .filter(
      ({ sample, screen, reading }) =>
        (asked.zone === null || screen?.zone === asked.zone) &&
        (asked.matrix === null || sample.matrix === asked.matrix) &&
        (asked.samples === 'all samples' || sample.kind === 'field sample') &&
        (group === null || group.has(reading.key)),
    )
    .map((one) => ({ ...one, judged: levels.judge(one.reading) }));
}

/** Every choice of the filters by itself, and some together. */
function* everyAsked(site: Site): Generator<Asked> {
  const { zones, matrices, groups } = choicesIn(site);
  for (const allEvents of [false, true])
    for (const samples of ['field samples', 'all samples'] as const) {
      const base = { ...ASKED_AT_FIRST, allEvents, samples };
      yield base;
      for (const zone of [...zones, 'no such zone']) yield { ...base, zone };
      for (const matrix of matrices) yield { ...base, matrix };
      for (const group of groups)
        for (const zone of [null, zones[0] ?? null]) yield { ...base, group, zone };
    }
}

const marks = (site: Site, results: readonly DrawnResult[]) =>
  siteScene({ site, shown: SHOWN_AT_FIRST, heads: [], flow: null, results, construction: [] });

const boxesOf = (site: Site, of: JudgedSelection) =>
  boxesInView(of, placedPoints(site, of), () => true);

const told = ({ row, judged }: JudgedResult) => `${row.row} ${judged.outcome.reason}`;

function holdsTogether(site: Site, events: readonly (string | null)[]) {
  for (const set of levelSetsOf(site).keys())
    for (const event of events)
      for (const asked of everyAsked(site)) {
        const selection = askedOf(site, event, asked);
        const whole = judgedIn(site, set, selection);
        const all = oneByOne(site, set, event, asked);
        expect(judgedList(whole).map(told)).toEqual(all.map(told));
        const analytes = [...new Set(all.map(({ row }) => row.analyte))];
        expect(analytesIn(selection)).toEqual(analytes.toSorted((a, b) => a.localeCompare(b)));
        for (const analyte of [null, 'no such analyte', ...analytes.slice(0, 1)]) {
          const of = judgedIn(site, set, ofAnalyte(selection, analyte));
          const objects = all.filter(({ row }) => analyte === null || row.analyte === analyte);
          expect(verdictCounts(of)).toEqual(countsOf(objects));
          if (asked.group === null && asked.zone === null) agreesInDetail(site, of, objects);
        }
      }
}

/** What is drawn, what is listed first, and each result down to its last part. */
function agreesInDetail(site: Site, of: JudgedSelection, objects: readonly JudgedResult[]) {
  expect(judgedList(of)[0]).toEqual(objects[0]);
  expect(judgedList(of).at(-1)).toEqual(objects.at(-1));
  expect(marks(site, drawnOf(site, of))).toEqual(marks(site, objects));
  expect(boxesOf(site, of)).toEqual(resultBoxes(site, objects));
  const sorted = objects.toSorted((a, b) => worseResultFirst(a.judged, b.judged));
  const rows = [...of.rows].toSorted(worseRowFirst(of));
  expect(rows.map((row) => told(judgedAt(of, row)))).toEqual(sorted.map(told));
  for (const verdict of VERDICTS) {
    const worst = sorted.filter(({ judged }) => judged.outcome.verdict === verdict).slice(0, 3);
    expect(worstOfVerdict(of, verdict, 3).map(told)).toEqual(worst.map(told));
  }
}

describe('results asked for as columns are those read and judged one by one', () => {
  test.each(['demo-sites/osier-bend', 'demo-sites/quellmoor'])('of %s', (folder) => {
    const { site } = openFolder(folder);
    holdsTogether(site, [...site.events.keys()].slice(-2));
  });

  test('of the INL south-west', () => {
    const { site } = openFolder('tests/fixtures/inl-southwest/site');
    holdsTogether(site, [null]);
  });
});

test('and so of 40 random sites, with diluted runs, blanks, soil and two laboratories', () => {
  fc.assert(
    fc.property(randomSite, (site) => holdsTogether(site, ['E1', null])),
    { numRuns: 40, seed: 6 },
  );
});
