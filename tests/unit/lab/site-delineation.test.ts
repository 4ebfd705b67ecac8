import { describe, expect, test } from 'vitest';
import {
  delineate,
  isOpen,
  type Reach,
  type ScreenVerdict,
  type SideAnswer,
} from '../../../src/domain/lab/delineation';
import {
  contradictionWords,
  BAND_WORDS,
  extentSentences,
  openSentence,
  unknownSentences,
} from '../../../src/domain/lab/extent-words';
import {
  delineationsOf,
  nextPushes,
  openSides,
  plannedPush,
  sideSentence,
  wayOf,
} from '../../../src/domain/lab/site-delineation';
import { judgedAgainst } from '../../../src/domain/lab/site-results';
import { inUnits, metres } from '../../../src/domain/units';
import { siteFrom } from '../site-from';

const FEET = { vertical: 'ft', grid: 'ft' } as const;
const EAST = () => ({ azimuth: 90, reason: null }) as const;
const reach = (more: Partial<Reach> = {}): Reach => ({
  within: metres(100, 'ft'),
  below: metres(20, 'ft'),
  combinedFactor: 1,
  ...more,
});

/**
 * Pushes on flat ground, water going east. DP-1 exceeds for benzene and toluene;
 * DP-2, 60 ft east, for benzene alone; DP-3, 50 ft north, has neither; DP-4, 70 ft
 * west, has a limit over the level for benzene; DP-5 has no coordinates.
 */
const site = siteFrom({
  locations: [
    'id,easting,northing,kind,status',
    'DP-1,0,0,direct push,pushed',
    'DP-2,60,0,direct push,pushed',
    'DP-3,0,50,direct push,pushed',
    'DP-4,-70,0,direct push,pushed',
    'DP-5,,,direct push,pushed',
    'NP-1,900,900,direct push,planned',
  ],
  screens: [
    'id,location,tip_depth,zone',
    'DP-1-S1,DP-1,20,shallow',
    'DP-1-S2,DP-1,35,deep',
    'DP-2-S1,DP-2,20,shallow',
    'DP-3-S1,DP-3,20,shallow',
    'DP-4-S1,DP-4,20,shallow',
    'DP-5-S1,DP-5,20,shallow',
  ],
  events: ['id,first_day,last_day', 'E1,2026-04-01,2026-04-02'],
  samples: [
    'id,screen,event,kind',
    ...['DP-1-S1', 'DP-1-S2', 'DP-2-S1', 'DP-3-S1', 'DP-4-S1', 'DP-5-S1'].map(
      (id) => `${id}-W,${id},E1,field sample`,
    ),
    'TB-1,,E1,trip blank',
  ],
  results: [
    'sample,cas,analyte,value,unit,lab_qualifier',
    'DP-1-S1-W,71-43-2,Benzene,40,µg/L,',
    'DP-1-S2-W,71-43-2,Benzene,0.5,µg/L,U',
    'DP-2-S1-W,71-43-2,Benzene,9,µg/L,J',
    'DP-3-S1-W,71-43-2,Benzene,1,µg/L,',
    'DP-4-S1-W,71-43-2,Benzene,25,µg/L,U',
    'DP-5-S1-W,71-43-2,Benzene,90,µg/L,',
    'TB-1,71-43-2,Benzene,90,µg/L,',
    'DP-1-S1-W,108-88-3,Toluene,2000,µg/L,',
    'DP-2-S1-W,108-88-3,Toluene,2,µg/L,',
    'DP-3-S1-W,108-88-3,Toluene,2,µg/L,',
    'DP-1-S1-W,100-41-4,Ethylbenzene,2,µg/L,',
  ],
  screening_levels: [
    'set,cas,analyte,value,unit',
    'One,71-43-2,Benzene,5,µg/L',
    'One,108-88-3,Toluene,1000,µg/L',
    'One,100-41-4,Ethylbenzene,700,µg/L',
  ],
});
const found = delineationsOf(site, judgedAgainst(site, 'One'), EAST, reach());
const sides = (analyte: string, location: string) =>
  Object.fromEntries(
    (found.find((one) => one.analyte === analyte)?.answers ?? [])
      .filter((answer) => answer.location === location)
      .map((answer) => [answer.side, answer.status]),
  );

describe('analytes above their levels, side by side', () => {
  test('those that exceed somewhere, the one with the most open sides first', () => {
    expect(found.map(({ analyte, exceeding, level }) => [analyte, exceeding, level?.input.value])).toEqual(
      [
        ['Benzene', 2, '5'],
        ['Toluene', 1, '1000'],
      ],
    ); // prettier-ignore
    expect(openSides(found[0]!).length).toBeGreaterThan(openSides(found[1]!).length);
    const reversed = delineationsOf(site, judgedAgainst(site, 'One').toReversed(), EAST, reach());
    expect(reversed.map(({ analyte }) => analyte)).toEqual(['Benzene', 'Toluene']);
  });

  test('benzene at DP-1: goes on east, delineated north, limit too high west, nothing south, closed below', () => {
    expect(sides('Benzene', 'DP-1')).toEqual({
      'down-gradient': 'goes on',
      'side-gradient, left': 'delineated',
      'up-gradient': 'limit exceeds level',
      'side-gradient, right': 'nothing there',
      below: 'delineated',
    });
    // Estimated counts as exceeding; DP-5 and the trip blank stand nowhere.
    expect(sides('Benzene', 'DP-2')).toMatchObject({
      'up-gradient': 'goes on',
      below: 'nothing there',
    });
    expect(sides('Benzene', 'DP-5')).toEqual({});
  });

  test('nothing exceeds: nothing to delineate', () => {
    const clean = judgedAgainst(site, 'One').filter(({ row }) => row.analyte === 'Ethylbenzene');
    expect(delineationsOf(site, clean, EAST, reach())).toEqual([]);
    expect(delineationsOf(site, [], EAST, reach())).toEqual([]);
  });
});

describe('the next pushes', () => {
  const pushes = nextPushes(found);

  test('each open place and side once, those that serve most analytes first', () => {
    expect(pushes[0]?.analytes).toEqual(['Benzene', 'Toluene']);
    const served = pushes.map(({ analytes }) => analytes.length);
    expect(served).toEqual(served.toSorted((a, b) => b - a));
    const names = pushes.map(({ answer }) => `${answer.location} ${answer.side} ${answer.status}`);
    expect(new Set(names).size).toBe(names.length);
    expect(pushes.every(({ answer }) => isOpen(answer))).toBe(true);
  });

  test('a planned push gets the first free name, half the reach out, in the site’s units', () => {
    const south = pushes.find(
      ({ answer }) => answer.location === 'DP-1' && answer.side === 'side-gradient, right',
    )!;
    const planned = plannedPush(site, south)!;
    expect(planned.id).toBe('NP-2'); // NP-1 is taken
    expect(planned.edit).toEqual({
      kind: 'together',
      edits: [
        {
          kind: 'add-rows',
          table: 'locations',
          rows: [
            {
              id: 'NP-2',
              kind: 'direct push',
              status: 'planned',
              planned_easting: '0.0',
              planned_northing: '-50.0',
              purpose: 'Close the open side side-gradient, right of DP-1: Benzene, Toluene',
            },
          ],
        },
        { kind: 'add-rows', table: 'screens', rows: [{ id: 'NP-2-S1', location: 'NP-2', zone: 'shallow' }] },
      ],
    }); // prettier-ignore
  });

  test('below, it is planned to a depth: half the reach under what exceeds', () => {
    const below = pushes.find(
      ({ answer }) => answer.location === 'DP-2' && answer.side === 'below',
    )!;
    const { edit } = plannedPush(site, below)!;
    expect(JSON.stringify(edit)).toContain('"planned_tip_depth":"30.0"');
    expect(JSON.stringify(edit)).toContain('"planned_easting":"60.0"');
  });

  test('where another sample would do, none is planned', () => {
    const again = pushes.find(({ answer }) => answer.status === 'limit exceeds level')!;
    expect(plannedPush(site, again)).toBeNull();
  });
});

describe('what a side says', () => {
  const at = (
    location: string,
    x: number,
    y: number,
    more: Partial<ScreenVerdict> = {},
  ): ScreenVerdict => ({
    location,
    screen: `${location}-S1`,
    easting: metres(x, 'ft'),
    northing: metres(y, 'ft'),
    depth: metres(20, 'ft'),
    zone: 'shallow',
    verdict: 'does-not-exceed',
    ...more,
  });
  const hot = at('DP-1', 0, 0, { verdict: 'exceeds' });
  const answers = (others: readonly ScreenVerdict[], from = hot, more: Partial<Reach> = {}) =>
    delineate([from, ...others], EAST, reach(more)).answers;
  const said = (side: SideAnswer['side'], others: readonly ScreenVerdict[], from = hot) =>
    sideSentence(
      answers(others, from).find((answer) => answer.side === side)!,
      reach(),
      FEET,
    );

  test.each<[string, SideAnswer['side'], readonly ScreenVerdict[]]>([
    ['Down-gradient of DP-1: delineated by DP-2-S1, 60 ft away, which does not exceed.', 'down-gradient', [at('DP-2', 60, 0)]],
    ['Down-gradient of DP-1: goes on to DP-2-S1, 60 ft away, which exceeds too.', 'down-gradient', [at('DP-2', 60, 0, { verdict: 'exceeds' })]],
    ['Up-gradient of DP-1: open. In DP-2-S1, 60 ft away, the limit exceeds the level. Sample it again with a limit at or below the level.', 'up-gradient', [at('DP-2', -60, 0, { verdict: 'cannot-tell' })]],
    ['Up-gradient of DP-1: open. DP-2-S1, 60 ft away, has no usable result. Sample it again.', 'up-gradient', [at('DP-2', -60, 0, { verdict: 'rejected' })]],
    ['Side-gradient, left of DP-1: open. Nothing in this zone within 100 ft. Push 50 ft out.', 'side-gradient, left', []],
    ['Below DP-1: open. Nothing within 20 ft below. Push to a tip depth of 30.0 ft there.', 'below', []],
    ['Below DP-1: delineated by DP-1-S2, 12.5 ft away, which does not exceed.', 'below', [at('DP-1', 0, 0, { screen: 'DP-1-S2', depth: metres(32.5, 'ft'), zone: 'deep' })]],
  ])('%s', (sentence, side, others) => expect(said(side, others)).toBe(sentence)); // prettier-ignore

  test('what lies below is told in the vertical unit, what lies beside in the grid’s', () => {
    const mixed = { vertical: 'ft', grid: 'm' } as const;
    const told = (side: SideAnswer['side']) =>
      sideSentence(
        answers([]).find((answer) => answer.side === side)!,
        reach(),
        mixed,
      );
    expect(told('below')).toContain(
      'Nothing within 20 ft below. Push to a tip depth of 30.0 ft there.',
    );
    expect(told('up-gradient')).toContain('within 30 m. Push 15 m out.');
  });

  test('open is what is neither delineated nor goes on; a closed side has no next push', () => {
    const all = answers([
      at('DP-2', 60, 0),
      at('DP-3', -60, 0, { verdict: 'exceeds' }),
      at('DP-4', 0, 60, { verdict: 'cannot-tell' }),
      at('DP-1', 0, 0, { screen: 'DP-1-S2', depth: metres(30, 'ft'), zone: 'deep' }),
    ]).filter(({ location }) => location === 'DP-1');
    expect(all.map((one) => [one.side, isOpen(one), one.next === null])).toEqual([
      ['down-gradient', false, true],
      ['side-gradient, left', true, true],
      ['up-gradient', false, true],
      ['side-gradient, right', true, false],
      ['below', false, true],
    ]);
  });

  test('why the compass names the sides is said once for each reason, and not where flow does', () => {
    expect(delineate([hot], EAST, reach()).unresolved).toBeNull();
    const zones = [
      hot,
      at('DP-8', 900, 900, { verdict: 'exceeds', zone: 'deep' }),
      at('DP-9', 1900, 900, { verdict: 'exceeds', zone: 'deep' }),
    ];
    const mixed = delineate(
      zones,
      (zone) => (zone === 'deep' ? { azimuth: null, reason: 'Only 2 heads count.' } : EAST()),
      reach(),
    );
    expect(mixed.unresolved).toBe('Only 2 heads count.');
    expect(mixed.answers.filter(({ side }) => side === 'north')).toHaveLength(2);
  });

  test('a depth that nobody recorded leaves what lies below untold', () => {
    expect(said('below', [], { ...hot, depth: null })).toBe(
      'Below DP-1: cannot be told. The tip depth of what exceeds is not recorded.',
    );
  });

  const below = (others: readonly ScreenVerdict[], from = hot) =>
    answers(others, from).find(({ side }) => side === 'below')!;

  test('3 m, 9.84 ft, is a nest when looking below; further is another place (common practice)', () => {
    const deep = (x: number) => at('DP-2', x, 0, { depth: metres(30, 'ft'), zone: 'deep' });
    expect(below([deep(9.84)]).status).toBe('delineated');
    expect(below([deep(9.85)]).status).toBe('nothing there');
  });

  test('exactly as far as the reach is within it, down and out', () => {
    const exact = { ...reach(), within: 30, below: 6 };
    const metre = (
      location: string,
      x: number,
      depth: number,
      more: Partial<ScreenVerdict> = {},
    ) => ({ ...at(location, 0, 0), easting: x, depth, ...more });
    const from = metre('DP-1', 0, 5, { verdict: 'exceeds' });
    const status = (other: ScreenVerdict, side: SideAnswer['side']) =>
      delineate([from, other], EAST, exact).answers.find((one) => one.side === side)?.status;
    expect(status(metre('DP-2', 30, 5), 'down-gradient')).toBe('delineated');
    expect(status(metre('DP-1', 0, 11, { screen: 'DP-1-S2', zone: 'deep' }), 'below')).toBe(
      'delineated',
    );
    expect(status(metre('DP-1', 0, 11.01, { screen: 'DP-1-S2', zone: 'deep' }), 'below')).toBe(
      'nothing there',
    );
  });

  test('below the deepest that exceeds, not the first', () => {
    const deeper = at('DP-1', 0, 0, {
      screen: 'DP-1-S2',
      depth: metres(30, 'ft'),
      zone: 'mid',
      verdict: 'exceeds',
    });
    const between = at('DP-1', 0, 0, { screen: 'DP-1-S3', depth: metres(25, 'ft'), zone: 'mid' });
    const found = below([deeper, between]);
    expect(found.status).toBe('nothing there');
    expect(inUnits(found.next!.depth!, 'ft')).toBeCloseTo(40, 9);
    const unknown = at('DP-1', 0, 0, { screen: 'DP-1-S4', depth: null, zone: 'deep' });
    expect(below([unknown]).status).toBe('nothing there');
  });

  test('on a diagonal a point answers for one side: the one on its right hand', () => {
    const status = (x: number, y: number) =>
      answers([at('DP-2', x, y)]).flatMap(({ location, side, status: is }) =>
        location === 'DP-1' && is === 'delineated' ? [side] : [],
      );
    expect(status(50, 50)).toEqual(['side-gradient, left']);
    expect(status(50, -50)).toEqual(['down-gradient']);
    expect(status(-50, -50)).toEqual(['side-gradient, right']);
    expect(status(-50, 50)).toEqual(['up-gradient']);
  });

  test('the nearest that is known decides; of those that are not, the nearest that cannot tell', () => {
    const down = (...others: ScreenVerdict[]) =>
      answers(others).find(({ location, side }) => location === 'DP-1' && side === 'down-gradient')
        ?.by?.location;
    expect(down(at('DP-9', 80, 0), at('DP-2', 30, 0))).toBe('DP-2');
    expect(
      down(at('DP-2', 20, 0, { verdict: 'rejected' }), at('DP-3', 40, 0, { verdict: 'cannot-tell' }), at('DP-4', 60, 0, { verdict: 'cannot-tell' })),
    ).toBe('DP-3'); // prettier-ignore
    expect(
      down(at('DP-4', 60, 0, { verdict: 'no-result' }), at('DP-2', 20, 0, { verdict: 'rejected' })),
    ).toBe('DP-2');
  });

  test('of several screens of a place and zone the worst answers for it', () => {
    const worse = at('DP-2', 60, 0, { screen: 'DP-2-S2', verdict: 'exceeds' });
    expect(said('down-gradient', [at('DP-2', 60, 0), worse])).toContain('goes on to DP-2-S2');
  });

  test('steps of the next push are ground metres laid out in the grid', () => {
    const wide = answers([], hot, { combinedFactor: 0.5 }).find(
      ({ side }) => side === 'down-gradient',
    )!;
    expect(inUnits(metres(wide.next!.easting), 'ft')).toBeCloseTo(25, 9);
  });
});

test('the way is named only where it is resolved; otherwise why not', () => {
  const flow = (more: object) =>
    wayOf({ resolved: true, azimuthGrid: { value: 77 }, reason: null, ...more } as never);
  expect(flow({})).toEqual({ azimuth: 77, reason: null });
  expect(flow({ resolved: false, reason: 'Only 2 heads count.' })).toEqual({
    azimuth: null,
    reason: 'Only 2 heads count.',
  });
  expect(flow({ azimuthGrid: null })).toEqual({
    azimuth: null,
    reason: 'the direction of flow is not resolved.',
  });
});

describe('the words about an extent', () => {
  test('points the outline contradicts', () => {
    const words = (kept: 'outside' | 'inside') =>
      contradictionWords({ point: { id: 'P48' }, kept } as never);
    expect(words('outside')).toBe('P48 exceeds, and the outline leaves it out.');
    expect(words('inside')).toBe('P48 does not exceed, and the outline takes it in.');
  });

  test('bands from the least likely, each edge in two of them', () => {
    expect(BAND_WORDS).toHaveLength(4);
    const numbers = BAND_WORDS.map((words) => (words.match(/\d+/g) ?? []).map(Number));
    expect(numbers[0]).toEqual([numbers[1]![0]]);
    expect(numbers[1]![1]).toBe(numbers[2]![0]);
    expect(numbers[3]).toEqual([numbers[2]![1]]);
  });

  test('open at one point, at two, at none', () => {
    expect(openSentence({ open: [] })).toBeNull();
    expect(openSentence({ open: [{ id: 'A' }] } as never)).toBe(
      'Open at A: it exceeds on the edge of the data, and how much further it goes is not known.',
    );
    expect(openSentence({ open: [{ id: 'A' }, { id: 'B' }] } as never)).toContain(
      'Open at A, B: they exceed',
    );
  });

  test('how it was made: range in the grid’s unit, where the model has one', () => {
    const model = {
      shape: 'spherical',
      sill: 1,
      range: metres(200, 'ft'),
      nugget: 0,
      anisotropy: null,
    };
    const said = (how: string, points: number, more: object = {}) =>
      extentSentences(
        {
          method: 'indicator kriging',
          model: { ...model, ...more },
          how,
          toldRightly: 17,
          toldOf: 20,
        } as never,
        { points: Array.from({ length: points }) } as never,
        FEET,
      );
    expect(said('fitted', 40)).toHaveLength(2);
    expect(said('fitted', 40)[0]).toContain(
      'Variogram spherical, range 200 ft, fitted to the points.',
    );
    expect(said('given', 40)[0]).toContain(', as given.');
    expect(said('assumed', 40)[0]).toContain(', assumed.');
    expect(said('fitted', 40)[1]).toBe(
      'Each point left out in turn: the others tell 17 of 20 rightly.',
    );
    expect(said('fitted', 4)[2]).toBe('4 points are few: read the outline as a sketch.');
    const linear = said('given', 40, { shape: 'linear', slope: 0.1 });
    expect(linear[0]).toContain('Variogram linear, as given.');
  });

  test('what counts neither way is named by its verdict', () => {
    expect(
      unknownSentences({
        unknown: [
          { id: 'GP-4', verdict: 'cannot-tell' },
          { id: 'GP-5', verdict: 'rejected' },
          { id: 'GP-9', verdict: 'cannot-tell' },
        ],
      } as never),
    ).toEqual(['Limit exceeds level (cannot tell): GP-4, GP-9.', 'Rejected: GP-5.']);
    expect(unknownSentences({ unknown: [] })).toEqual([]);
  });
});
