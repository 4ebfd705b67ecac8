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
import { siteScene } from '../../../src/map/site-scene';
import { openFolder } from '../folder';
import { siteFrom } from '../site-from';
import { result, unit } from './random-results';

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

const cell = (text: string | null) => {
  const written = text ?? '';
  return written.includes(',') ? `"${written}"` : written;
};
const pick = fc.constantFrom;
const analyte = pick(
  ['71-43-2', 'Benzene'],
  ['', 'TCE'],
  ['79-01-6', 'Trichloroethylene'],
  ['14797-55-8', 'Nitrate'],
  ['14797-55-8', 'Nitrate as N'],
  ['7439-92-1', 'Lead'],
);
const sample = fc.record({
  screen: pick('S1', 'S2', 'S3', ''),
  event: pick('E1', 'E2'),
  kind: pick('field sample', 'field sample', 'field sample', 'field duplicate', 'trip blank'),
  matrix: pick('groundwater', 'groundwater', 'soil', ''),
  laboratory: pick('Lab A', 'Lab B', ''),
  note: pick('', '', 'turbid'),
});
const row = fc.record({
  of: fc.nat(7),
  analyte,
  fraction: pick('', 'total', 'dissolved'),
  method: pick('M1', 'M2'),
  run: pick('', 'initial', 'dilution', 'reanalysis'),
  detected: pick('', '', 'yes', 'no'),
  result,
  unit,
});

test('and so of 60 random sites, with diluted runs, blanks, soil and two laboratories', () => {
  fc.assert(
    fc.property(
      fc.array(sample, { minLength: 1, maxLength: 8 }),
      fc.array(row, { maxLength: 40 }),
      fc.boolean(),
      fc.boolean(),
      (samples, rows, equalExceeds, roundToLevel) => {
        const site = siteFrom(
          {
            locations: [
              'id,easting,northing,kind,status',
              'P1,0,0,direct push,pushed',
              'P2,9,0,direct push,pushed',
            ],
            screens: ['id,location,tip_depth,zone', 'S1,P1,30,deep', 'S2,P1,10,', 'S3,P2,10,deep'],
            events: [
              'id,first_day,last_day',
              'E1,2025-01-01,2025-01-02',
              'E2,2025-06-01,2025-06-02',
            ],
            samples: [
              'id,screen,event,kind,matrix,laboratory,note',
              ...samples.map((one, i) => [`A${i}`, ...Object.values(one)].join(',')),
            ],
            results: [
              'sample,cas,analyte,fraction,method,run,detected,value,unit,lab_qualifier,validation_qualifier,detection_limit,reporting_limit',
              ...rows.map(
                ({ of, analyte: names, fraction, method, run, detected, result: r, unit: u }) =>
                  [
                    `A${of % (samples.length + 1)}`, // one that is not there among them
                    ...names,
                    fraction,
                    method,
                    run,
                    detected,
                    r.value,
                    u,
                    r.lab_qualifier,
                    r.validation_qualifier,
                    r.detection_limit,
                    r.reporting_limit,
                  ]
                    .map(cell)
                    .join(','),
              ),
            ],
            screening_levels: [
              'set,cas,analyte,matrix,fraction,value,unit,decides',
              'One,71-43-2,Benzene,,,5,µg/L,',
              'One,79-01-6,Trichloroethylene,water,total,5,µg/L,detection limit',
              'One,14797-55-8,Nitrate (as N),,,10,mg/L,',
              'Two,7439-92-1,Lead,,,0.015,mg/L,detection limit',
            ],
            qualifier_legends: ['laboratory,letter,meaning', 'Lab B,E,estimated'],
          },
          {
            lab: {
              sets: {
                One: { equalExceeds, roundToLevel, decides: 'reporting limit' },
              },
            },
          },
        );
        holdsTogether(site, ['E1', null]);
      },
    ),
    { numRuns: 60, seed: 6 },
  );
});
