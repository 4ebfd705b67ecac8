/**
 * Every number of the demo sites opens into lines a reviewer can work on a
 * calculator: each must give the printed answer within half its last digit.
 * The lines are worked here by JavaScript itself, not by our evaluator.
 */
import { describe, expect, test } from 'vitest';
import { judgedAgainst, levelSetsOf } from '../../../src/domain/lab/site-results';
import { verdictWork } from '../../../src/domain/lab/verdict-work';
import { plainNumber, printWork } from '../../../src/domain/print-work';
import type { Work } from '../../../src/domain/work';
import { headsOf } from '../../../src/domain/water/event-heads';
import { flowOf, zonesOf } from '../../../src/domain/water/flow';
import { intervalOf } from '../../../src/domain/water/screen-interval';
import { openFolder } from '../folder';

const worked = (line: string): number => {
  const turn = (a: number) => ((a % 360) + 360) % 360;
  return new Function(
    'sqrt',
    'azimuth',
    'turn',
    `return ${line.replaceAll('−', '-').replaceAll('^', '**')}`,
  )(Math.sqrt, (e: number, n: number) => turn((Math.atan2(e, n) * 180) / Math.PI), turn) as number;
};

function* allOf(work: Work): Generator<Work> {
  yield work;
  for (const { from } of work.terms) if (from.kind === 'work') yield* allOf(from.work);
  for (const behind of work.table?.works?.flat() ?? []) yield* allOf(behind);
}

describe.each([
  'demo-sites/osier-bend',
  'demo-sites/quellmoor',
  'tests/fixtures/inl-southwest/site',
])('%s', (folder) => {
  const { site } = openFolder(folder);
  const units = { vertical: site.settings.verticalUnit, grid: site.settings.grid.unit };
  const works: Work[] = [];
  for (const event of site.events.keys()) {
    const heads = headsOf(site, event);
    works.push(...heads.flatMap(({ head }) => (head ? [head.work] : [])));
    for (const zone of zonesOf(heads)) {
      const { gradient, azimuthGrid, azimuthTrue } = flowOf(site, event, zone, heads);
      works.push(...[gradient, azimuthGrid, azimuthTrue].flatMap((w) => (w ? [w.work] : [])));
    }
  }
  for (const screen of site.screens.values()) {
    const location = site.locations.get(screen.location);
    const interval = location && intervalOf(screen, location);
    if (interval?.ok)
      works.push(
        ...Object.values(interval.value).flatMap((w) =>
          w && typeof w !== 'function' ? [w.work] : [],
        ),
      );
  }
  for (const set of levelSetsOf(site).keys())
    works.push(...judgedAgainst(site, set).flatMap(({ judged }) => verdictWork(judged) ?? []));

  test('every printed line gives its printed answer', () => {
    const lines = works.flatMap((work) => [...allOf(work)]);
    expect(lines.length).toBeGreaterThan(100);
    const wrong = lines.flatMap((work) => {
      const { substituted, answer, title } = printWork(work, units);
      const apart = Math.abs(worked(substituted) - plainNumber(answer));
      const around = work.answer.dimension === 'angle' ? Math.min(apart, 360 - apart) : apart;
      return around <= 0.5 * 10 ** -work.decimals * (1 + 1e-6)
        ? []
        : [`${title}: ${substituted} is not ${answer}`];
    });
    expect(wrong).toEqual([]);
  });

  test('every leaf is a cell somebody typed, a setting or a publication', () => {
    for (const work of works.flatMap((w) => [...allOf(w)]))
      for (const { from, text } of work.terms) {
        if (from.kind !== 'cell') continue;
        expect(site.files[from.table]).toMatch(/\.csv$/);
        expect(from.row).toBeGreaterThan(1);
        expect(text).toBeDefined();
      }
  });
});
