/**
 * The demo sites against `expected.json`, which was worked by hand from their
 * tables (the README of each shows the sums) and never by this engine.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { VERDICT_WORDS, type Verdict } from '../../../src/domain/lab/verdict';
import { countsOf, judgedAgainst, resultsOf } from '../../../src/domain/lab/site-results';
import { inUnits, turn } from '../../../src/domain/units';
import { headsOf } from '../../../src/domain/water/event-heads';
import { flowOf } from '../../../src/domain/water/flow';
import { intervalOf } from '../../../src/domain/water/screen-interval';
import { openFolder, TOP } from '../folder';

type ExpectedFlow = {
  event: string;
  zone: string;
  counted: string[];
  leftOut: Record<string, string>;
  gradient: number;
  azimuthGrid: number | null;
  azimuthTrue: number | null;
  convergence: number;
  rSquared: number;
  residualStandardError: number;
  chiSquared: number;
  F: number | null;
  resolved: boolean;
  lackOfFit: number;
  isPlane: boolean;
};
type ExpectedScreen = {
  screen: string;
  baseDepth: number | null;
  topDepth: number | null;
  baseElevation: number | null;
  topElevation: number | null;
  water: Record<string, { head?: number; water: string | null }>;
};
type Expected = {
  heads: { row: number; event: string; head: number | null; leftOut: string | null }[];
  screens: ExpectedScreen[];
  flow: ExpectedFlow[];
  results: {
    replaced?: unknown[];
    sets: Record<string, { all: Record<string, number>; fieldSamples: Record<string, number> }>;
  };
};

const SITES = ['osier-bend', 'quellmoor'].map((name) => {
  const folder = `demo-sites/${name}`;
  const expected = JSON.parse(readFileSync(join(TOP, folder, 'expected.json'), 'utf8')) as Expected;
  return { name, expected, ...openFolder(folder) };
});

describe.each(SITES)('$name', ({ site, expected }) => {
  const unit = site.settings.verticalUnit;

  test('every head, and why each other one does not count', () => {
    const ours = [...site.events.keys()]
      .flatMap((event) => headsOf(site, event))
      .map(({ reading, head, leftOut }) => ({
        row: reading.row,
        head: head ? inUnits(head.value, unit) : null,
        leftOut,
      }))
      .toSorted((a, b) => a.row - b.row);
    expect(ours.map(({ row }) => row)).toEqual(expected.heads.map(({ row }) => row));
    ours.forEach(({ head, leftOut }, i) => {
      const theirs = expected.heads[i];
      expect(leftOut).toBe(theirs?.leftOut);
      if (head === null) expect(theirs?.head).toBeNull();
      else expect(head).toBeCloseTo(theirs?.head ?? NaN, 9);
    });
  });

  test.each(expected.screens)(
    '$screen: its interval, and where the water stands in it',
    (theirs) => {
      const screen = site.screens.get(theirs.screen);
      const location = site.locations.get(screen?.location ?? '');
      if (!screen || !location) throw new Error(theirs.screen);
      const interval = intervalOf(screen, location);
      if (theirs.baseDepth === null || theirs.topDepth === null) {
        expect(interval.ok).toBe(false);
        return;
      }
      if (!interval.ok) throw new Error(interval.problem);
      const { topDepth, baseDepth, topElevation, baseElevation } = interval.value;
      expect(inUnits(topDepth.value, unit)).toBeCloseTo(theirs.topDepth, 9);
      expect(inUnits(baseDepth.value, unit)).toBeCloseTo(theirs.baseDepth, 9);
      for (const [ours, theirElevation] of [
        [topElevation, theirs.topElevation],
        [baseElevation, theirs.baseElevation],
      ] as const) {
        if (theirElevation === null) expect(ours).toBeNull();
        else expect(ours && inUnits(ours.value, unit)).toBeCloseTo(theirElevation, 9);
      }
      for (const [event, { water }] of Object.entries(theirs.water)) {
        const gauged = headsOf(site, event).filter(
          (g) => g.screen.id === screen.id && g.leftOut !== 'read-again',
        );
        const stands = gauged.flatMap(({ head, leftOut }) =>
          head ? (interval.value.waterAt(head.value) ?? []) : leftOut === 'dry' ? ['dry'] : [],
        );
        expect(stands).toEqual(
          ['submerged', 'straddling', 'dry'].includes(water ?? '') ? [water] : [],
        );
      }
    },
  );

  test.each(expected.flow)('$event, $zone: the plane worked by hand', (theirs) => {
    const flow = flowOf(site, theirs.event, theirs.zone);
    expect(flow.fitted.map(({ gauged }) => gauged.screen.id).toSorted()).toEqual(
      theirs.counted.toSorted(),
    );
    expect(
      Object.fromEntries(
        flow.gauged.flatMap(({ screen, leftOut }) =>
          leftOut === null || leftOut === 'read-again' ? [] : [[screen.id, leftOut]],
        ),
      ),
    ).toEqual(theirs.leftOut);
    expect(flow.resolved).toBe(theirs.resolved);
    expect(flow.reason === null).toBe(theirs.resolved);
    expect(flow.isPlane).toBe(theirs.isPlane);
    expect((flow.gradient?.value ?? NaN) / theirs.gradient).toBeCloseTo(1, 6);
    expect(flow.rSquared).toBeCloseTo(theirs.rSquared, 9);
    expect(inUnits(flow.plane?.s ?? (NaN as never), unit)).toBeCloseTo(
      theirs.residualStandardError,
      8,
    );
    const [byStated, byScatter] = flow.confidence?.slopeTests ?? [];
    expect((byStated?.statistic ?? NaN) / theirs.chiSquared).toBeCloseTo(1, 6);
    if (byScatter && theirs.F !== null)
      expect((byScatter.statistic ?? NaN) / theirs.F).toBeCloseTo(1, 6);
    expect((flow.confidence?.lackOfFit?.statistic ?? NaN) / theirs.lackOfFit).toBeCloseTo(1, 6);
    if (theirs.azimuthGrid === null || theirs.azimuthTrue === null) {
      expect([flow.azimuthGrid, flow.azimuthTrue, flow.azimuthStandardError]).toEqual([
        null,
        null,
        null,
      ]);
      return;
    }
    expect(turn(theirs.azimuthGrid, flow.azimuthGrid?.value ?? NaN)).toBeCloseTo(0, 7);
    expect(Math.abs(turn(theirs.azimuthTrue, flow.azimuthTrue?.value ?? NaN))).toBeLessThan(0.002);
  });

  test.each(Object.entries(expected.results.sets))('verdicts by hand against %s', (set, theirs) => {
    const SHORT: Partial<Record<Verdict, string>> = {
      'not-detected': 'not detected',
      'cannot-tell': 'limit exceeds level',
    };
    const named = (counts: Readonly<Record<Verdict, number>>) =>
      Object.fromEntries(
        Object.entries(counts).map(([v, n]) => [
          SHORT[v as Verdict] ?? VERDICT_WORDS[v as Verdict],
          n,
        ]),
      );
    expect(named(countsOf(judgedAgainst(site, set)))).toEqual(theirs.all);
    expect(named(countsOf(judgedAgainst(site, set, { fieldSamples: true })))).toEqual(
      theirs.fieldSamples,
    );
    expect(resultsOf(site).replaced).toHaveLength(expected.results.replaced?.length ?? 0);
  });
});
