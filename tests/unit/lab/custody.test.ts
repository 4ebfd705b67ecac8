import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { reconcile, type Reported, type Sent } from '../../../src/domain/lab/custody';
import { asSpelt, isOneSlipApart } from '../../../src/domain/lab/custody-names';
import { custodyOf, takeAs } from '../../../src/domain/lab/custody-site';
import { apply } from '../../../src/domain/site/edits/apply';
import { readSite } from '../../../src/domain/site/site';
import { found, one } from '../findings/a-site';
import { flatGrid, packageFrom, siteFrom } from '../site-from';

/** What bottles were sent: the custody record of one round, two lists, a blind duplicate among them. */
const SENT = [
  'id,screen,event,time,kind,parent,custody_number,lab_number,blind_alias,received_time',
  'DP-01-S1,DP-1,E1,2026-05-30T09:10,field sample,,COC-1,,,',
  'DP-02-S1,DP-2,E1,2026-05-30T11:00,field sample,,COC-1,L-702,,',
  'DP-03-S1,DP-3,E1,2026-05-30T13:40,field sample,,COC-1,,,',
  'DUP-1,DP-3,E1,2026-05-30T13:40,field duplicate,DP-03-S1,COC-1,,DP-88-S1,',
  'DP-04-S1,DP-4,E1,2026-05-31T09:10,field sample,,COC-2,,,',
];
const RESULTS = 'sample,cas,analyte,method,value,unit';
const tce = (sample: string, value = '5.2') =>
  `${sample},79-01-6,Trichloroethylene,EPA 8260D,${value},µg/L`;

const GROUND = {
  events: ['id,title,first_day,last_day', 'E1,Round,2026-05-30,2026-05-31'],
  locations: [
    'id,easting,northing,kind,status',
    ...[1, 2, 3, 4].map((n) => `DP-${n},${1000 + n * 100},2000,direct push,pushed`),
  ],
  screens: ['id,location,tip_depth', ...[1, 2, 3, 4].map((n) => `DP-${n},DP-${n},15`)],
};

const tables = (samples: readonly string[], results: readonly string[]) => ({
  ...GROUND,
  samples: [...SENT, ...samples],
  results: [RESULTS, ...results],
});
const custody = (samples: readonly string[], results: readonly string[]) =>
  custodyOf(siteFrom(tables(samples, results)));

const ids = (sent: readonly Sent[]) => sent.map(({ id }) => id);

describe('the custody lists against what came back', () => {
  test('a sample nothing came back of is missing; a list nothing came back of is awaited', () => {
    const { agreed, missing, awaited, extra } = custody(
      [],
      ['DP-01-S1', 'DP-02-S1', 'DUP-1'].map((id) => tce(id)),
    );
    expect(agreed.map(({ sent }) => sent.id)).toEqual(['DP-01-S1', 'DP-02-S1', 'DUP-1']);
    expect(ids(missing)).toEqual(['DP-03-S1']);
    expect(ids(awaited)).toEqual(['DP-04-S1']);
    expect(extra).toEqual([]);
  });

  test('a name on no list is extra, whether or not the site made a sample of it', () => {
    const made = 'XX-9,,E1,2026-05-30T09:00,trip blank,,,,,';
    const { extra } = custody([made], [tce('DP-01-S1'), tce('XX-9'), tce('Somebody else’s')]);
    expect(extra.map(({ name, event }) => [name, event])).toEqual([
      ['XX-9', 'E1'],
      ['Somebody else’s', null],
    ]);
  });

  test.each([
    ['L-702', 'DP-02-S1', 'laboratory number'],
    ['DP-88-S1', 'DUP-1', 'blind name'],
    ['dp 3 S1', 'DP-03-S1', 'spelling'],
    ['DP-01-51', 'DP-01-S1', 'one slip of the keyboard'],
  ])('%s is %s by its %s', (name, id, by) => {
    const { renamed, extra } = custody([], [tce(name)]);
    expect(renamed.map((pair) => [pair.sent.id, pair.reported.name, pair.by])).toEqual([
      [id, name, by],
    ]);
    expect(extra).toEqual([]);
  });

  test('a name the laboratory made up is known by its screen and day', () => {
    const { renamed } = custody(
      ['7734-A,DP-1,E1,2026-05-30T00:00,field sample,,,,,'],
      [tce('7734-A')],
    );
    expect(renamed.map(({ sent, by }) => [sent.id, by])).toEqual([['DP-01-S1', 'screen and day']]);
  });

  test('a name that could be either of two samples is not taken for one of them', () => {
    const { renamed, extra } = custody([], [tce('DP-0-S1')]);
    expect(renamed).toEqual([]);
    expect(extra.map(({ name }) => name)).toEqual(['DP-0-S1']);
  });

  test('a method every other sample of the list has is missed in one', () => {
    const mercury = (sample: string) => `${sample},7439-97-6,Mercury,EPA 7470A,0.3,µg/L`;
    const all = ['DP-01-S1', 'DP-02-S1', 'DP-03-S1', 'DUP-1'];
    const { short } = custody([], [...all.map((id) => tce(id)), ...all.slice(1).map(mercury)]);
    expect(short).toEqual([
      { sent: expect.objectContaining({ id: 'DP-01-S1' }) as Sent, methods: ['EPA 7470A'] },
    ]);
    // Rows that wait for a name are not said to lack a method.
    const waiting = custody([], [...all.slice(1).map((id) => tce(id)), tce('dp 1 s1')]);
    expect(waiting.renamed).toHaveLength(1);
    expect(waiting.short).toEqual([]);
  });

  test('a site without custody numbers is asked for none', () => {
    const site = siteFrom({
      ...GROUND,
      samples: ['id,screen,event,kind', 'A,DP-1,E1,field sample'],
      results: [RESULTS, tce('A'), tce('B')],
    });
    expect(custodyOf(site)).toMatchObject({ extra: [], missing: [], renamed: [], agreed: [] });
  });

  test('whatever the names, every one is accounted for once', () => {
    const name = fc.stringMatching(/^[A-C]{1,2}-?0?[1-3]$/);
    const sent = fc.uniqueArray(
      fc.record<Sent>({
        id: name,
        event: fc.constantFrom('E1', 'E2'),
        custodyNumber: fc.constantFrom('C1', 'C2'),
        labNumber: fc.option(name),
        blindName: fc.option(name),
        screen: fc.option(fc.constantFrom('S1', 'S2')),
        day: fc.option(fc.constantFrom('2026-05-30', '2026-05-31')),
      }),
      { selector: ({ id }) => id },
    );
    const reported = fc.uniqueArray(
      fc.record<Reported>({
        name,
        event: fc.option(fc.constantFrom('E1', 'E2')),
        labNumber: fc.option(name),
        screen: fc.option(fc.constantFrom('S1', 'S2')),
        day: fc.option(fc.constantFrom('2026-05-30', '2026-05-31')),
        results: fc.nat(9),
        methods: fc.constant([]),
      }),
      { selector: (one) => one.name },
    );
    fc.assert(
      fc.property(sent, reported, (list, back) => {
        const { agreed, missing, awaited, extra, renamed } = reconcile(list, back);
        const pairs = [...agreed, ...renamed];
        expect(
          [...ids(missing), ...ids(awaited), ...pairs.map((p) => p.sent.id)].toSorted(),
        ).toEqual(ids(list).toSorted());
        expect([...extra, ...pairs.map((p) => p.reported)].map((r) => r.name).toSorted()).toEqual(
          back.map((r) => r.name).toSorted(),
        );
      }),
    );
  });
});

describe('names as two people write them', () => {
  test('capitals, dashes and noughts tell none apart; the parts of a name do', () => {
    expect(asSpelt('dp 3/s1')).toBe(asSpelt('DP-03-S1'));
    expect(asSpelt('MW-1-1')).not.toBe(asSpelt('MW-11'));
    expect(asSpelt('MW-10')).not.toBe(asSpelt('MW-1'));
  });

  test('one slip is what the distance of Damerau counts as one (recurrence as in the textbooks, computed independently)', () => {
    const distance = (a: string, b: string) => {
      const d = Array.from({ length: a.length + 1 }, (_, i) =>
        Array.from({ length: b.length + 1 }, (__, j) => (i === 0 ? j : j === 0 ? i : 0)),
      );
      const at = (i: number, j: number) => d[i]?.[j] ?? Infinity;
      for (let i = 1; i <= a.length; i++)
        for (let j = 1; j <= b.length; j++) {
          const cost = a[i - 1] === b[j - 1] ? 0 : 1;
          const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
          const row = d[i];
          if (row)
            row[j] = Math.min(
              at(i - 1, j) + 1,
              at(i, j - 1) + 1,
              at(i - 1, j - 1) + cost,
              swapped ? at(i - 2, j - 2) + 1 : Infinity,
            );
        }
      return at(a.length, b.length);
    };
    const name = fc.stringMatching(/^[AB1]{0,5}$/);
    fc.assert(
      fc.property(name, name, (a, b) => isOneSlipApart(a, b) === (distance(a, b) === 1)),
      { numRuns: 2_000 },
    );
  });
});

describe('what is said, and what is done about it', () => {
  const doubtful = (samples: readonly string[], results: readonly string[]) =>
    found(siteFrom(tables(samples, results)), 'E1');

  test('missing, extra and renamed are findings with their samples named', () => {
    const all = doubtful([], [tce('DP-01-S1'), tce('DP-88-S1'), tce('QQ')]);
    expect(one(all, 'sample not reported')).toMatchObject({
      severity: 'caution',
      who: ['DP-2', 'DP-3'],
      says: 'DP-02-S1 (COC-1) and DP-03-S1 (COC-1) are on the custody list, and no result of them came back.',
    });
    expect(one(all, 'on no custody list').says).toBe(
      'Results came back for QQ (1 result): on no custody list.',
    );
    expect(one(all, 'sample renamed').says).toBe(
      '1 result came back under DP-88-S1, which is DUP-1 of COC-1: that is the name it was sent under.',
    );
    expect(one(all, 'custody list awaited')).toMatchObject({ severity: 'note', who: ['DP-4'] });
  });

  test('results of a sample the laboratory renamed go to the sample of the list in one step, and what it told of it', () => {
    const given = packageFrom(
      tables(
        ['7734-A,DP-1,E1,2026-05-30T00:00,field sample,,,L-701,,2026-06-01T08:30'],
        [tce('7734-A', '5.2'), tce('DP-02-S1'), '7734-A,71-43-2,Benzene,EPA 8260D,<1,µg/L'],
      ),
    );
    const read = (from: typeof given) => readSite(from, flatGrid());
    const [pair] = custodyOf(read(given)).renamed;
    const edit = pair && takeAs(given, pair);
    const made = edit && apply(given, edit);
    if (!made?.ok) throw new Error('not made');
    const site = read(made.value);
    expect([...site.results].map(({ sample, analyte }) => [sample, analyte])).toEqual([
      ['DP-01-S1', 'Trichloroethylene'],
      ['DP-02-S1', 'Trichloroethylene'],
      ['DP-01-S1', 'Benzene'],
    ]);
    expect(site.samples.has('7734-A')).toBe(false);
    expect(site.samples.get('DP-01-S1')).toMatchObject({
      lab_number: 'L-701',
      received_time: '2026-06-01T08:30',
      time: '2026-05-30T09:10',
    });
    expect(custodyOf(site).renamed).toEqual([]);
  });

  test('rows that name no sample of the site are used once they have it', () => {
    const given = packageFrom(tables([], [tce('DP-88-S1'), tce('DP-01-S1')]));
    const before = readSite(given, flatGrid());
    expect(before.accounts.results.refused).toBe(1);
    const [pair] = custodyOf(before).renamed;
    const edit = pair && takeAs(given, pair);
    const made = edit && apply(given, edit);
    if (!made?.ok) throw new Error('not made');
    expect(readSite(made.value, flatGrid()).accounts.results).toMatchObject({
      read: 2,
      refused: 0,
    });
  });
});
