import { describe, expect, test } from 'vitest';
import { USUAL_BLANK_RULE } from '../../../src/domain/lab/blanks';
import { reconcile, isSure, type Reported, type Sent } from '../../../src/domain/lab/custody';
import { asSpelt, isOneSlipApart } from '../../../src/domain/lab/custody-names';
import { USUAL_DUPLICATE_LIMITS } from '../../../src/domain/lab/duplicates';
import { USUAL_HOLDING_LIMITS } from '../../../src/domain/lab/holding-time-list';
import {
  blankRuleOf,
  boxAt,
  clearBelowOf,
  duplicateLimitsOf,
  holdingLimitsOf,
  readLabSettings,
  rulesOfSet,
  sumRuleOf,
  USUAL_CLEAR_BELOW,
  withBoxAt,
  withLab,
} from '../../../src/domain/lab/lab-settings';
import { USUAL_RULES } from '../../../src/domain/lab/level';

describe('what a site chose, else the usual', () => {
  test('a site that chose nothing', () => {
    expect(sumRuleOf({})).toBe('range');
    expect(rulesOfSet({}, 'A')).toEqual(USUAL_RULES);
    expect(duplicateLimitsOf({})).toBe(USUAL_DUPLICATE_LIMITS);
    expect(blankRuleOf({})).toEqual(USUAL_BLANK_RULE);
    expect(holdingLimitsOf({})).toBe(USUAL_HOLDING_LIMITS);
    expect(clearBelowOf({})).toBe(USUAL_CLEAR_BELOW);
    expect(boxAt({}, 'MW-1')).toBeNull();
  });

  test('a site that chose each of them', () => {
    const duplicates = { rpd: 20, farFromLimit: 3, differenceInLimits: 2 };
    const lab = {
      sums: 'zero',
      sets: { A: { equalExceeds: true } },
      duplicates,
      blanks: { times: 3, timesForUsual: 6 },
      holding: [],
      clearBelow: 5,
      boxes: { 'MW-1': [4, -8] },
    } as const;
    expect(sumRuleOf({ lab })).toBe('zero');
    expect(rulesOfSet({ lab }, 'A')).toEqual({ ...USUAL_RULES, equalExceeds: true });
    expect(rulesOfSet({ lab }, 'B')).toEqual(USUAL_RULES);
    expect(rulesOfSet({ lab }, 'toString')).toEqual(USUAL_RULES);
    expect(duplicateLimitsOf({ lab })).toBe(duplicates);
    expect(blankRuleOf({ lab })).toEqual({ ...USUAL_BLANK_RULE, times: 3, timesForUsual: 6 });
    expect(holdingLimitsOf({ lab })).toEqual([]);
    expect(clearBelowOf({ lab })).toBe(5);
    expect([boxAt({ lab }, 'MW-1'), boxAt({ lab }, 'MW-2'), boxAt({ lab }, 'toString')]).toEqual([
      [4, -8],
      null,
      null,
    ]);
  });
});

describe('choices read from a file', () => {
  const wrong = (part: object) => {
    const { lab, wrong: names } = readLabSettings(part);
    expect(lab).toBeNull();
    return names;
  };
  const right = (part: object) => {
    expect(readLabSettings(part)).toEqual({ lab: part, wrong: [] });
  };
  const limit = {
    name: 'x',
    preservation: '',
    source: 'y',
    analytes: ['71-43-2'],
    methods: [],
    toExtraction: null,
    toAnalysis: 24,
  };

  test('none at all, or something that is no set of choices', () => {
    expect(readLabSettings(undefined)).toEqual({ lab: null, wrong: [] });
    for (const none of [null, 5, 'x', [], true])
      expect(readLabSettings(none)).toEqual({ lab: null, wrong: ['lab'] });
    expect(readLabSettings({})).toEqual({ lab: null, wrong: [] });
    expect(readLabSettings({ other: 1 })).toEqual({ lab: null, wrong: [] });
  });

  test('each part as it may be written', () => {
    for (const sums of ['range', 'zero', 'half the limit', 'the limit']) right({ sums });
    right({ sets: {} });
    right({
      sets: { A: {}, B: { equalExceeds: false, roundToLevel: true, decides: 'detection limit' } },
    });
    right({ sets: { A: { decides: 'reporting limit' } } });
    right({ duplicates: { rpd: 0, farFromLimit: 5, differenceInLimits: 1 } });
    right({ blanks: { times: 5, timesForUsual: 10 } });
    right({ holding: [] });
    right({ holding: [limit, { ...limit, toExtraction: 7, toAnalysis: null }] });
    right({ clearBelow: 0 });
    right({ boxes: { A: [1, -2.5] } });
  });

  test.each([
    ['sums', [null, 'nothing', 5]],
    ['sets', [null, [], 'A', { A: null }, { A: [] }, { A: { equalExceeds: 'yes' } }, { A: { roundToLevel: 1 } }, { A: { decides: 'either' } }, { A: {}, B: 5 }]],
    ['duplicates', [null, [], { rpd: 20 }, { rpd: -1, farFromLimit: 5, differenceInLimits: 1 }, { rpd: 20, farFromLimit: '5', differenceInLimits: 1 }, { rpd: 20, farFromLimit: 5, differenceInLimits: NaN }, { rpd: Infinity, farFromLimit: 5, differenceInLimits: 1 }]],
    ['blanks', [null, { times: 5 }, { timesForUsual: 10 }, { times: -5, timesForUsual: 10 }, { times: 5, timesForUsual: null }]],
    ['holding', [null, {}, [null], [{ ...limit, name: 5 }], [{ ...limit, preservation: null }], [{ ...limit, source: undefined }], [{ ...limit, analytes: '71-43-2' }], [{ ...limit, analytes: [71] }], [{ ...limit, methods: [null] }], [{ ...limit, toExtraction: -1 }], [{ ...limit, toExtraction: 'x' }], [{ ...limit, toAnalysis: -1 }], [{ ...limit, toAnalysis: undefined }], [limit, 5]]],
    ['clearBelow', [null, -1, '10', NaN, Infinity]],
    ['boxes', [null, [], { A: [1] }, { A: [1, 2, 3] }, { A: [1, '2'] }, { A: [NaN, 2] }, { A: 5 }, { A: [1, 2], B: null }]],
  ] as const)('%s that cannot be read is named and takes its usual value', (name, values) => {
    for (const value of values) expect(wrong({ [name]: value }), JSON.stringify(value)).toEqual([`lab.${name}`]);
  }); // prettier-ignore

  test('what is right is kept beside what is wrong', () => {
    expect(readLabSettings({ clearBelow: 5, sums: 'x', boxes: 7 })).toEqual({
      lab: { clearBelow: 5 },
      wrong: ['lab.sums', 'lab.boxes'],
    });
  });
});

describe('choices changed', () => {
  test('one changed leaves the others; null goes back to usual', () => {
    const settings = { lab: { clearBelow: 5, sums: 'zero' as const } };
    expect(withLab(settings, { clearBelow: 8 })).toEqual({ lab: { clearBelow: 8, sums: 'zero' } });
    expect(withLab(settings, { sums: null })).toEqual({ lab: { clearBelow: 5 } });
    expect(withLab({}, { sums: 'zero' })).toEqual({ lab: { sums: 'zero' } });
  });

  test('a box is put to a tenth of a px, moved, and taken back', () => {
    const put = withBoxAt({}, 'A', [1.26, -7.04]);
    expect(put).toEqual({ lab: { boxes: { A: [1.3, -7] } } });
    const both = withBoxAt(put, 'B', [2, 3]);
    expect(both.lab.boxes).toEqual({ A: [1.3, -7], B: [2, 3] });
    expect(withBoxAt(both, 'A', [9, 9]).lab.boxes).toEqual({ A: [9, 9], B: [2, 3] });
    expect(withBoxAt(both, 'A', null).lab.boxes).toEqual({ B: [2, 3] });
    expect(withBoxAt(put, 'A', null)).toEqual({ lab: {} });
    expect(withBoxAt({}, 'A', null)).toEqual({ lab: {} });
  });
});

describe('names of samples as two people write them', () => {
  test.each([
    ['MW-1', 'mw 1'],
    ['MW-01', 'MW1'],
    ['MW-1-1', 'MW 1/01'],
    ['DP-3 S2', 'dp3s2'],
    ['ＭＷ-1', 'MW-1'], // full-width letters
    ['MW-0', 'MW 00'],
  ])('“%s” and “%s” are one', (a, b) => expect(asSpelt(a)).toBe(asSpelt(b)));
  test.each([
    ['MW-1-1', 'MW-11'],
    ['MW-1', 'MW-10'],
    ['MW-1', 'MV-1'],
    ['A-100', 'A-1'],
  ])('“%s” and “%s” are two', (a, b) => expect(asSpelt(a)).not.toBe(asSpelt(b)));
  test('signs alone are no name', () => expect(asSpelt('--')).toBe(''));

  test.each([
    ['MW-1', 'MV-1'],
    ['MW-1', 'MW1'],
    ['MW1', 'MW-1'],
    ['MW-12', 'MW-21'],
    ['MW-1', 'WM-1'],
    ['mw-1', 'MW-2'],
    ['A', 'AB'],
    ['AA', 'A'],
    ['MW-11', 'MW-1'],
  ])('one slip makes “%s” of “%s”', (a, b) => {
    expect(isOneSlipApart(a, b)).toBe(true);
    expect(isOneSlipApart(b, a)).toBe(true);
  });
  test.each([
    ['MW-1', 'MW-1'],
    ['mw-1', 'MW-1'],
    ['MW-1', 'MW-123'],
    ['MW-12', 'MW-34'],
    ['ABC', 'CBA'],
    ['MW-12', 'MW-22A'],
    ['AB', 'CD'],
  ])('no one slip makes “%s” of “%s”', (a, b) => {
    expect(isOneSlipApart(a, b)).toBe(false);
    expect(isOneSlipApart(b, a)).toBe(false);
  });
});

describe('a custody list against what came back', () => {
  const sent = (id: string, more: Partial<Sent> = {}): Sent => ({
    id,
    event: 'E1',
    custodyNumber: 'C1',
    labNumber: null,
    blindName: null,
    screen: null,
    day: null,
    ...more,
  });
  const back = (name: string, more: Partial<Reported> = {}): Reported => ({
    name,
    event: null,
    labNumber: null,
    screen: null,
    day: null,
    results: 1,
    methods: ['8260'],
    ...more,
  });
  const renamed = (list: Sent[], reported: Reported[]) =>
    reconcile(list, reported).renamed.map((one) => [
      one.sent.id,
      one.reported.name,
      one.by,
      isSure(one),
    ]);

  test('agreed, missing, awaited and extra', () => {
    const found = reconcile(
      [sent('A'), sent('Bravo'), sent('C', { custodyNumber: 'C2' })],
      [back('A'), back('Zulu')],
    );
    expect(found.agreed.map((one) => one.sent.id)).toEqual(['A']);
    expect(found.missing.map(({ id }) => id)).toEqual(['Bravo']);
    expect(found.awaited.map(({ id }) => id)).toEqual(['C']);
    expect(found.extra.map(({ name }) => name)).toEqual(['Zulu']);
  });

  test('by the laboratory’s number, as its name or beside it; across rounds too', () => {
    expect(renamed([sent('A', { labNumber: 'L-7' })], [back('L-7', { event: 'E2' })])).toEqual([
      ['A', 'L-7', 'laboratory number', true],
    ]);
    expect(
      renamed([sent('A', { labNumber: 'L-7' })], [back('Zulu', { labNumber: 'L-7' })]),
    ).toEqual([['A', 'Zulu', 'laboratory number', true]]);
    expect(renamed([sent('Alpha')], [back('Zulu')])).toEqual([]);
  });

  test('by the name a blind duplicate went under, and how that is spelt', () => {
    expect(renamed([sent('A', { blindName: 'DUP-1' })], [back('DUP-1', { event: 'E2' })])).toEqual([
      ['A', 'DUP-1', 'blind name', true],
    ]);
    expect(renamed([sent('A', { blindName: 'DUP-1' })], [back('dup 01')])).toEqual([
      ['A', 'dup 01', 'spelling', false],
    ]);
  });

  test('by spelling, by screen and day, by one slip; only within the round', () => {
    expect(renamed([sent('MW-1')], [back('mw 01')])).toEqual([
      ['MW-1', 'mw 01', 'spelling', false],
    ]);
    expect(renamed([sent('MW-1')], [back('mw 01', { event: 'E2' })])).toEqual([]);
    expect(renamed([sent('MW-1')], [back('mw 01', { event: 'E1' })])).toHaveLength(1);
    const placed = { screen: 'S', day: '2026-04-01' };
    expect(renamed([sent('Alpha', placed)], [back('Zulu', placed)])).toEqual([
      ['Alpha', 'Zulu', 'screen and day', false],
    ]);
    expect(
      renamed([sent('Alpha', placed)], [back('Zulu', { ...placed, day: '2026-04-02' })]),
    ).toEqual([]);
    expect(
      renamed([sent('Alpha', { ...placed, day: null })], [back('Zulu', { ...placed, day: null })]),
    ).toEqual([]);
    expect(
      renamed(
        [sent('Alpha', { ...placed, screen: null })],
        [back('Zulu', { ...placed, screen: null })],
      ),
    ).toEqual([]);
    expect(renamed([sent('MW-12')], [back('MW-21')])).toEqual([
      ['MW-12', 'MW-21', 'one slip of the keyboard', false],
    ]);
    expect(renamed([sent('--')], [back('..')])).toEqual([]);
  });

  test('where two are as like, none is taken for the other; the stronger likeness goes first', () => {
    expect(renamed([sent('MW--1'), sent('MW  01')], [back('mw1')])).toEqual([]);
    expect(renamed([sent('MW-1')], [back('mw1'), back('mw 1')])).toEqual([]);
    expect(
      renamed(
        [sent('MW-12'), sent('MW-13', { labNumber: 'L-7' })],
        [back('MW-14', { labNumber: 'L-7' })],
      ),
    ).toEqual([['MW-13', 'MW-14', 'laboratory number', true]]);
  });

  test('a method that all others of a list of three have is missed in the one without it', () => {
    const short = (...methods: string[][]) =>
      reconcile(
        methods.map((_, i) => sent(`S${i}`)),
        methods.map((of, i) => back(`S${i}`, { methods: of })),
      ).short.map((one) => [one.sent.id, one.methods]);
    expect(short(['8260', '6020'], ['8260', '6020'], ['8260'])).toEqual([['S2', ['6020']]]);
    expect(short(['8260', '6020'], ['8260'], ['8260'])).toEqual([]);
    expect(short(['8260', '6020'], ['8260'])).toEqual([]);
    // One with no methods at all is not used yet.
    expect(short(['8260'], ['8260'], [])).toEqual([]);
  });
});
