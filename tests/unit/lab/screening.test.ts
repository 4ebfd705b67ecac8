import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { type LevelInput } from '../../../src/domain/lab/level';
import { limitOf } from '../../../src/domain/lab/limit';
import { groupBy } from '../../../src/domain/group';
import { legendsFrom } from '../../../src/domain/lab/qualifiers';
import { resultReader, type ResultInput } from '../../../src/domain/lab/reading';
import { DECIMAL_POINT } from '../../../src/domain/lab/reported';
import { levelSets, verdictOf } from '../../../src/domain/lab/screening';
import { TOTAL_TRIHALOMETHANES } from '../../../src/domain/lab/sum-rules';
import { sumVerdict } from '../../../src/domain/lab/sums';
import { VERDICTS, type Verdict } from '../../../src/domain/lab/verdict';
import { countVerdicts, totalOf } from '../../../src/domain/lab/worst';
import oracle from '../../fixtures/oracles/i_screening.json';
import { aLevel, aResult } from './a-result';
import { level, number, result } from './random-results';

type Raw = Readonly<Record<string, string>>;
const fixture = (path: string) =>
  Papa.parse<Raw>(readFileSync(new URL(`../../fixtures/${path}`, import.meta.url), 'utf8'), {
    header: true,
    skipEmptyLines: true,
    comments: '#',
  }).data;

const orNull = (text: string | undefined) => (text === undefined || text === '' ? null : text);

// Oracle i_screening: made-up rows and levels, classes worked in exact decimals by another program.
describe('175 laboratory rows against seven levels', () => {
  const levels = fixture('oracles/i_screening_levels.csv').map((row) =>
    aLevel(row.level, row.unit, { cas: orNull(row.cas), analyte: row.analyte ?? '' }),
  );
  const set = levelSets(levels).get('A')!;
  const read = resultReader();
  const rows = fixture('oracles/i_screening_lab_rows.csv').map((row) => {
    const reading = read(
      aResult(orNull(row.result), {
        cas: orNull(row.cas),
        analyte: row.analyte ?? '',
        unit: orNull(row.unit),
        lab_qualifier: orNull(row.qualifier),
        reporting_limit: orNull(row.limit),
      }),
    );
    return { row, ...set.judge(reading) };
  });

  /** Their classes in our verdicts, and the reason that sets them apart where one verdict holds two. */
  const EXPECTED: Readonly<Record<string, readonly Verdict[]>> = {
    above: ['exceeds', 'exceeds-estimated'],
    equal: ['does-not-exceed'],
    below: ['does-not-exceed'],
    'nd, limit above level': ['cannot-tell'],
    'nd, limit at level': ['not-detected'],
    'nd, limit below level': ['not-detected'],
    'no result': ['no-result'],
  };

  test('each has the class it should', () => {
    expect(rows).toHaveLength(175);
    for (const { row, outcome } of rows) {
      expect(EXPECTED[row.expect ?? ''], JSON.stringify(row)).toContain(outcome.verdict);
      expect(outcome.reason === 'value equal to level').toBe(row.expect === 'equal');
      const estimated = row.expect === 'above' && row.qualifier === 'J';
      expect(outcome.verdict === 'exceeds-estimated').toBe(estimated);
    }
  });

  test('the counts are those of the oracle, and add up', () => {
    const theirs = oracle.lab_rows_expected_counts;
    const ours = countVerdicts(rows.map(({ outcome }) => outcome.verdict));
    expect(ours.exceeds + ours['exceeds-estimated']).toBe(theirs.above);
    expect(ours['does-not-exceed']).toBe(theirs.equal + theirs.below);
    expect(ours['not-detected']).toBe(
      theirs['nd, limit at level'] + theirs['nd, limit below level'],
    );
    expect(ours['cannot-tell']).toBe(theirs['nd, limit above level']);
    expect(ours['no-result']).toBe(theirs['no result']);
    expect(totalOf(ours)).toBe(175);
  });

  test('each reported number comes out as the µg/L the oracle has', () => {
    for (const { row, reading } of rows) {
      if (row.expect === 'no result') continue;
      const amount = limitOf(reading, 'reporting limit')?.amount ?? reading.amount;
      expect(amount / Number(row.result_ug_L)).toBeCloseTo(1, 12);
    }
  });
});

// Real results of the USGS, CC0: R package inldata 1.2.5 (Fisher and others, 2024). The counts
// below come from an independent reading of the same files.
describe('INL south-west against its own levels, units as they are', () => {
  const levels = fixture('inl-southwest/raw/mcl.csv').map((row) =>
    aLevel(row.mcl, row.unit_cd, { cas: orNull(row.casrn), analyte: row.srsname ?? '' }),
  );
  const set = levelSets(levels).get('A')!;
  const legends = legendsFrom([
    { laboratory: null, letter: 'E', meaning: 'estimated', source: 'remark code of the data set' },
  ]);
  const read = resultReader({ dress: DECIMAL_POINT, ...legends(null) });
  const judged = fixture('inl-southwest/raw/results.csv').map((row) => ({
    row,
    ...set.judge(
      read(
        aResult(`${row.remark_cd === '<' ? '<' : ''}${row.result_va}`, {
          cas: orNull(row.casrn),
          analyte: row.srsname ?? '',
          unit: orNull(row.unit_cd),
          lab_qualifier: row.remark_cd === 'E' ? 'E' : null,
          reporting_limit: orNull(row.rpt_lev_va),
        }),
      ),
    ),
  }));
  const counted = (rows: typeof judged) => {
    const counts = countVerdicts(rows.map(({ outcome }) => outcome.verdict));
    return {
      above: counts.exceeds + counts['exceeds-estimated'],
      notAbove: counts['does-not-exceed'],
      notDetected: counts['not-detected'],
      cannotTell: counts['cannot-tell'],
      comparable: totalOf(counts) - counts['no-level'] - counts['not-comparable'],
      all: totalOf(counts),
    };
  };
  const field = judged.filter(({ row }) => row.sample_type_cd === '9');

  test('field samples: 24 exceed, 387 do not, 898 not detected, of 1,309', () => {
    expect(counted(field)).toEqual({
      above: 24,
      notAbove: 387,
      notDetected: 898,
      cannotTell: 0,
      comparable: 1309,
      all: 3211,
    });
  });
  test('23 of the 24 are carbon tetrachloride, one trichloroethylene', () => {
    const names = field
      .filter(({ outcome }) => outcome.verdict.startsWith('exceeds'))
      .map(({ row }) => row.srsname);
    expect(names.filter((name) => name === 'Carbon tetrachloride')).toHaveLength(23);
    expect(names.filter((name) => name === 'Trichloroethylene')).toHaveLength(1);
  });
  test('with replicates and blanks: 26, 427 and 1,005 of 1,458', () => {
    expect(counted(judged)).toMatchObject({
      above: 26,
      notAbove: 427,
      notDetected: 1005,
      comparable: 1458,
      all: 3573,
    });
  });
});

describe('INL south-west against the federal levels, with conversion from mg/L', () => {
  const levels = fixture('../../src/io/levels/federal-drinking-water-2024.csv').map((row) =>
    aLevel(row.value, row.unit, {
      cas: orNull(row.cas),
      analyte: row.analyte ?? '',
      matrix: orNull(row.matrix),
    }),
  );
  const set = levelSets(levels).get('A')!;
  const read = resultReader();
  const field = fixture('inl-southwest/raw/results.csv')
    .filter((row) => row.sample_type_cd === '9')
    .map((row) => ({
      row,
      ...set.judge(
        read(
          aResult(`${row.remark_cd === '<' ? '<' : ''}${row.result_va}`, {
            sample: row.sample_id ?? '',
            cas: orNull(row.casrn),
            analyte: row.srsname ?? '',
            unit: orNull(row.unit_cd),
            matrix: 'groundwater',
            reporting_limit: orNull(row.rpt_lev_va),
          }),
        ),
      ),
    }));
  const named = (...names: string[]) =>
    field.filter(({ row }) => names.includes(row.srsname ?? ''));

  test('the same 24 exceed; 239 do not, 769 not detected: 1,032 with a level', () => {
    const counts = countVerdicts(field.map(({ outcome }) => outcome.verdict));
    expect(counts).toMatchObject({
      exceeds: 24,
      'exceeds-estimated': 0,
      'does-not-exceed': 239,
      'not-detected': 769,
      'cannot-tell': 0,
      'not-comparable': 0,
      'no-level': 2179,
    });
    expect(totalOf(counts)).toBe(3211);
  });
  test('the 277 fewer are four trihalomethanes, limited only as a sum, and tritium and strontium-90, not in the table', () => {
    const four = named(
      'Chloroform',
      'Dichlorobromomethane',
      'Chlorodibromomethane',
      'Tribromomethane',
    );
    const two = named('Tritium', 'Strontium-90');
    expect([four.length, two.length]).toEqual([176, 101]);
    expect(1309 - 1032).toBe(176 + 101);
    expect([...four, ...two].every(({ outcome }) => outcome.verdict === 'no-level')).toBe(true);
  });
  test('as a sum the trihalomethanes exceed 0.080 mg/L nowhere', () => {
    const level = set.levels.find(({ key }) => key === TOTAL_TRIHALOMETHANES.key)!;
    const bySample = groupBy(field, ({ row }) => row.sample_id);
    const sums = [...bySample.values()]
      .map((rows) =>
        sumVerdict(
          TOTAL_TRIHALOMETHANES,
          rows.map(({ reading }) => reading),
          level,
        ),
      )
      .filter(({ verdict }) => verdict !== 'no-result');
    const counts = countVerdicts(sums.map(({ verdict }) => verdict));
    expect(counts.exceeds + counts['exceeds-estimated']).toBe(0);
    expect(counts['does-not-exceed'] + counts['not-detected'] + counts['cannot-tell']).toBe(
      sums.length,
    );
    expect(sums.length).toBeGreaterThan(35);
  });
});

describe('for any results', () => {
  /** Recount of the rules in a few plain lines: attograms in whole numbers, no code of ours. */
  const recount = (r: ResultInput, l: LevelInput): Verdict => {
    const ATTOGRAMS: Record<string, bigint> = {
      'g/L': 10n ** 18n,
      'mg/L': 10n ** 15n,
      'µg/L': 10n ** 12n,
      'ug/L': 10n ** 12n,
      'ng/L': 10n ** 9n,
    };
    const whole = (text: string, per: bigint) => {
      const [front = '', back = ''] = text.split('.');
      return (BigInt(front + back.padEnd(6, '0')) * per) / 1_000_000n;
    };
    const text = r.value ?? '';
    const lab = r.lab_qualifier ?? '';
    const val = r.validation_qualifier ?? '';
    if (val === 'R' || (lab === 'R' && val === '')) return 'rejected';
    if (text === 'trace' || text === '1,20') return 'no-result';
    const nd = text.startsWith('<') || text === 'ND' || lab.startsWith('U') || val === 'U';
    if (nd && text.startsWith('>')) return 'no-result';
    if (!nd && (text === '' || text === 'NS')) return 'no-result';
    if (!nd && text === '0' && r.unit !== 'pCi/L') return 'no-result';
    if (!nd && lab === 'NJ' && val === '') return 'not-comparable';
    const per = ATTOGRAMS[r.unit ?? ''];
    if (per === undefined) return 'not-comparable';
    const target = whole(l.value, ATTOGRAMS[l.unit]!);
    const given = /\d/.test(text) ? whole(text.replace(/[<>]/, ''), per) : 0n;
    if (nd) {
      const rl = r.reporting_limit ? whole(r.reporting_limit, per) : 0n;
      const dl = r.detection_limit ? whole(r.detection_limit, per) : 0n;
      const seenByLab = !text.startsWith('<') && text !== 'ND' && !lab.startsWith('U');
      let limit = rl || given || dl;
      if (rl && given > rl && (seenByLab || given !== dl)) limit = given;
      return limit === 0n || limit > target ? 'cannot-tell' : 'not-detected';
    }
    const open = text.startsWith('>') || lab === 'E';
    if (given <= target) return open ? 'cannot-tell' : 'does-not-exceed';
    const estimated = lab === 'E' || val === 'J' || (lab === 'J' && val === '');
    return estimated ? 'exceeds-estimated' : 'exceeds';
  };

  test('10,000 of them, recounted in a few plain lines, agree one by one and in every class', () => {
    const read = resultReader();
    const ours: Verdict[] = [];
    const theirs: Verdict[] = [];
    for (const [r, l] of fc.sample(fc.tuple(result, level), { numRuns: 10_000, seed: 7 })) {
      const { outcome } = verdictOf(r, l, undefined, read);
      const again = recount(r, l);
      expect(outcome.verdict, JSON.stringify([r, l])).toBe(again);
      ours.push(outcome.verdict);
      theirs.push(again);
    }
    const counts = countVerdicts(ours);
    expect(counts).toEqual(countVerdicts(theirs));
    expect(totalOf(counts)).toBe(10_000);
    // No class is left untried but “no level”, which has its own test.
    for (const verdict of VERDICTS)
      if (verdict !== 'no-level') expect(counts[verdict], verdict).toBeGreaterThan(50);
  });

  test('tightening a level never turns an exceedance into anything else', () => {
    const pair = fc.tuple(number, number).filter(([a, b]) => Number(a) < Number(b));
    fc.assert(
      fc.property(result, pair, fc.boolean(), (r, [tight, loose], equalExceeds) => {
        const rules = { equalExceeds, roundToLevel: false, decides: 'reporting limit' } as const;
        const before = verdictOf(r, aLevel(loose), rules).outcome.verdict;
        fc.pre(before === 'exceeds' || before === 'exceeds-estimated');
        expect(verdictOf(r, aLevel(tight), rules).outcome.verdict).toBe(before);
      }),
      { numRuns: 500 },
    );
  });

  test('loosening a level never turns a result that does not exceed into one that does', () => {
    const pair = fc.tuple(number, number).filter(([a, b]) => Number(a) < Number(b));
    fc.assert(
      fc.property(result, pair, (r, [tight, loose]) => {
        const before = verdictOf(r, aLevel(tight)).outcome.verdict;
        fc.pre(before === 'does-not-exceed' || before === 'not-detected');
        expect(verdictOf(r, aLevel(loose)).outcome.verdict).toBe(before);
      }),
    );
  });

  test('the unit a result or a level is written in never changes a verdict', () => {
    const POWER = { 'g/L': 6, 'mg/L': 3, 'µg/L': 0, 'ng/L': -3, 'pg/L': -6, 'ug/mL': 3 } as const;
    type Written = keyof typeof POWER;
    const units = fc.constantFrom(...(Object.keys(POWER) as Written[]));
    /** The decimal point moved in the text, by hand and not by multiplying. */
    const moved = (text: string, places: number) => `${text}e${places}`;
    fc.assert(
      fc.property(
        result.filter((r) => r.unit === 'µg/L' && !/^(>|<)?\D*$/.test(r.value ?? '')),
        number,
        units,
        units,
        (r, levelText, resultUnit, levelUnit) => {
          const before = verdictOf(r, aLevel(levelText)).outcome;
          const p = -POWER[resultUnit];
          const move = (text: string | null) => text && text.replace(/[\d.]+/, (n) => moved(n, p));
          const written = {
            ...r,
            unit: resultUnit,
            value: move(r.value),
            reporting_limit: move(r.reporting_limit),
            detection_limit: move(r.detection_limit),
          };
          fc.pre(r.value !== '1,20');
          const level = aLevel(moved(levelText, -POWER[levelUnit]), levelUnit);
          expect(verdictOf(written, level).outcome).toEqual(before);
        },
      ),
      { numRuns: 500 },
    );
  });
});
