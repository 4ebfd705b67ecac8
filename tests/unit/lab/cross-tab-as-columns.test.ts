import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { groupBy } from '../../../src/domain/group';
import { askedOf, ASKED_AT_FIRST } from '../../../src/domain/lab/asked-results';
import {
  crossTab,
  ratioText,
  reportedText,
  type CrossRow,
  type CrossTab,
  type Footnote,
} from '../../../src/domain/lab/cross-tab';
import { legendsFrom, type LegendRow } from '../../../src/domain/lab/qualifiers';
import type { LevelSet } from '../../../src/domain/lab/screening';
import { listed, ofAnalyte } from '../../../src/domain/lab/selection';
import { levelSetsOf, type SiteReading } from '../../../src/domain/lab/site-results';
import { partsOfSums, sumColumns } from '../../../src/domain/lab/site-sums';
import { worseResultFirst } from '../../../src/domain/lab/worst';
import type { Site } from '../../../src/domain/site/site';
import { openFolder } from '../folder';
import { randomSite } from './random-site';

const columnKey = ({ reading, row }: SiteReading) => `${reading.key}|${row.fraction ?? ''}`;

/**
 * Samples by analytes from results one by one, as objects: what the table made
 * from columns is held against. Rows by location and depth, the most exceeded columns
 * first. Where a sample has an analyte twice, the worse stands and the other is counted.
 */
function tableOneByOne(
  readings: readonly SiteReading[],
  sets: readonly LevelSet[],
  legendRows: readonly LegendRow[],
): CrossTab {
  const notes = footnotes(legendRows);
  const judgedOf = new Map(
    readings.map((result) => [result, sets.map((set) => set.judge(result.reading))] as const),
  );
  const worse = (a: SiteReading, b: SiteReading) => {
    const [x, y] = [judgedOf.get(a)?.[0], judgedOf.get(b)?.[0]];
    return x && y ? worseResultFirst(x, y) : 0;
  };
  const byColumn = [...groupBy(readings, columnKey)].map(([key, results]) => {
    const sorted = results.toSorted(worse);
    const [worst] = sorted;
    if (!worst) throw new Error('a group without members');
    const levels = sets.map((set) => set.levelFor(worst.reading).level);
    const exceeding = results.filter((result) =>
      judgedOf.get(result)?.[0]?.outcome.verdict.startsWith('exceeds'),
    ).length;
    return { key, worst, exceeding, levels };
  });
  byColumn.sort(
    (a, b) =>
      b.exceeding - a.exceeding ||
      worse(a.worst, b.worst) ||
      a.worst.row.analyte.localeCompare(b.worst.row.analyte),
  );
  const columns = byColumn.map(({ key, worst: { row }, levels }) => ({
    key,
    analyte: row.analyte,
    fraction: row.fraction,
    levels,
  }));

  const depth = ({ screen }: SiteReading) => screen?.tip_depth?.value ?? 0;
  const rows = [...groupBy(readings, ({ sample }) => sample)]
    .toSorted(
      ([, [a]], [, [b]]) =>
        (a?.location?.id ?? '￿').localeCompare(b?.location?.id ?? '￿', 'en', { numeric: true }) ||
        (a && b ? depth(a) - depth(b) : 0),
    )
    .map(([sample, results]): CrossRow => {
      const byKey = groupBy(results, columnKey);
      const [first] = results;
      return {
        sample: sample.id,
        kind: sample.kind,
        location: first?.location?.id ?? null,
        screen: first?.screen?.id ?? null,
        zone: first?.screen?.zone ?? null,
        cells: columns.map(({ key }) => {
          const here = byKey.get(key)?.toSorted(worse) ?? [];
          const [result] = here;
          if (!result) return null;
          const judged = judgedOf.get(result) ?? [];
          const { lab_qualifier: lab, validation_qualifier: validation } = result.row;
          return {
            result,
            judged,
            text: reportedText(result),
            letters: [lab, validation].flatMap((letters) => letters?.trim() || []).join(' · '),
            notes: notes.of(result),
            ratio: judged[0] ? ratioText(judged[0]) : '',
            others: here.length - 1,
          };
        }),
      };
    });
  return { sets: sets.map(({ name }) => name), columns, rows, footnotes: notes.all };
}

/** A number for every set of letters used, by who wrote it, in the order first met. */
function footnotes(legendRows: readonly LegendRow[]) {
  const legends = legendsFrom(legendRows);
  const byWhat = new Map<string, Footnote>();
  const noteFor = (letters: string | null, who: string, flags: (letters: string) => number) => {
    const written = letters?.trim() ?? '';
    if (written === '') return [];
    const key = `${who}|${written}`;
    const before = byWhat.get(key);
    if (before) return [before.number];
    const number = byWhat.size + 1;
    const says = `${flags(written)} (${who})`;
    byWhat.set(key, { number, letters: written, says });
    return [number];
  };
  return {
    of: ({ row, sample }: SiteReading): number[] => {
      const { laboratory, validation } = legends(sample.laboratory);
      return [
        ...noteFor(
          row.lab_qualifier,
          sample.laboratory ?? 'laboratory not named',
          (letters) => laboratory(letters).flags,
        ),
        ...noteFor(row.validation_qualifier, 'validation', (letters) => validation(letters).flags),
      ];
    },
    get all(): readonly Footnote[] {
      return [...byWhat.values()];
    },
  };
}

/** A footnote's words are held elsewhere: here its number, its letters and whose they are. */
const ofWhom = ({ footnotes: notes }: CrossTab) =>
  notes.map(({ number, letters, says }) => [number, letters, says.slice(says.lastIndexOf('('))]);

const whole = ({ sample, kind, location, screen, zone, cells }: CrossRow): CrossRow => ({
  sample,
  kind,
  location,
  screen,
  zone,
  cells,
});

function holdsTogether(site: Site, event: string | null) {
  const all = [...levelSetsOf(site).values()];
  for (const sets of [all, all.toReversed(), all.slice(0, 1), []])
    for (const allEvents of [false, true]) {
      const asked = { ...ASKED_AT_FIRST, allEvents, samples: 'all samples' } as const;
      const selection = askedOf(site, event, asked);
      const [first] = selection.columns.analytes;
      for (const analyte of [null, first ?? null]) {
        const of = ofAnalyte(selection, analyte);
        const legend = site.qualifierLegends as unknown as readonly LegendRow[];
        const [made, wanted] = [
          crossTab(of, sets, legend),
          tableOneByOne(listed(of), sets, legend),
        ];
        expect(ofWhom(made)).toEqual(ofWhom(wanted));
        expect(sumColumns(partsOfSums(of), sets, 'range')).toEqual(
          sumColumns(listed(of), sets, 'range'),
        );
        expect(made.columns).toEqual(wanted.columns);
        expect(made.rows.map(whole)).toEqual(wanted.rows);
      }
    }
}

describe('the table made from columns is the one made of results one by one', () => {
  test.each(['demo-sites/osier-bend', 'demo-sites/quellmoor', 'tests/fixtures/inl-southwest/site'])(
    'of %s',
    (folder) => {
      const { site } = openFolder(folder);
      holdsTogether(site, [...site.events.keys()].at(-1) ?? null);
    },
  );

  test('of 60 random sites', () => {
    fc.assert(
      fc.property(randomSite, (site) => holdsTogether(site, 'E1')),
      { numRuns: 60, seed: 6 },
    );
  });
});
