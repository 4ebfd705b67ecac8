/**
 * What a room is told, on both demo sites and after their data are changed. The
 * numbers expected are those of the sites' README files, worked by hand; bearings
 * and distances between places are worked here from the coordinates written in
 * the tables.
 */
import { describe, expect, test } from 'vitest';
import { ASKED_AT_FIRST, askedResults } from '../../../src/domain/lab/asked-results';
import { isOver } from '../../../src/domain/lab/verdict';
import { apply, type Edit } from '../../../src/domain/site/edits/apply';
import type { Site } from '../../../src/domain/site/site';
import { notPlanned } from '../../../src/domain/walk/next-stop';
import { firstWalk } from '../../../src/domain/walk/first-walk';
import { sidesTold } from '../../../src/domain/walk/delineation-stop';
import { odds } from '../../../src/domain/walk/how-sure';
import { pushEvent } from '../../../src/domain/walk/push-event';
import { compassOf } from '../../../src/domain/walk/receptors-stop';
import { plain, type MadeStop } from '../../../src/domain/walk/stop';
import { headsOf } from '../../../src/domain/water/event-heads';
import { flowOf } from '../../../src/domain/water/flow';
import { gridOf, siteOf } from '../../../src/io/open-site';
import { openFolder } from '../folder';

const OF = {
  'osier-bend': { zone: 'shallow', levelSet: 'Federal drinking water (40 CFR 141.61(a))' },
  quellmoor: { zone: 'sand', levelSet: 'Quellmoor site levels (invented)' },
};
type Demo = keyof typeof OF;

const demo = {
  'osier-bend': openFolder('demo-sites/osier-bend'),
  quellmoor: openFolder('demo-sites/quellmoor'),
};

/** Title and sentences of a stop, one a line. */
function told(name: Demo, event: string, made: MadeStop, site: Site = demo[name].site): string[] {
  const stop = firstWalk(site, { event, ...OF[name] }).find((one) => one.made === made);
  return stop ? [stop.title, ...stop.sentences.map(plain)] : [];
}

/** The site after an edit. */
function changed(name: Demo, edit: Edit): Site {
  const made = apply(demo[name].package, edit);
  if (!made.ok) throw new Error(JSON.stringify(made.problem));
  const { grid, problem } = gridOf(made.value);
  return siteOf(made.value, grid, problem);
}

describe('how sure the direction is', () => {
  test('ranges over all events, beside the error of one', () => {
    const says = told('osier-bend', '2026-09', 'way');
    expect(says[0]).toBe('Water moves toward the east, in another event toward the south-east');
    expect(says[1]).toBe(
      'Direction 106° ± 0.5° (2026-09), and 106° to 126° over the 3 events gauged; north on the map is 0°, east 90°.',
    );
    expect(says[2]).toMatch(/^The ± is of this event alone and holds 19 times in 20; /);
    expect(says).toContain(
      'In the 3 events gauged it went from 106° ± 0.5° (2026-09) to 126° ± 1.1° (2026-03): it changes by more than those errors.',
    );
  });

  // Osier Bend with MW-6 read a foot short in the autumn and PZ-9's mark 0.63 ft high in all events,
  // both left out of the autumn alone.
  test('holds each event against its own error', () => {
    const { waterLevels, measuringPoints } = demo['osier-bend'].site;
    const reading = waterLevels.find((r) => r.screen === 'MW-6' && r.event === '2026-09');
    const mark = measuringPoints.get('PZ-9-MP1');
    const write = (
      table: 'water_levels' | 'measuring_points',
      row: number,
      column: string,
      text: string,
    ): Edit =>
      // prettier-ignore
      ({ kind: 'write-cells', table, cells: [{ row: row - 2, column, text }] });
    const leave = (on: string): Edit => ({ kind: 'decide', what: 'exclude', on, reason: 'Off.', who: '', when: '2026-10-01T08:00' }); // prettier-ignore
    const mistakes = [
      write('water_levels', reading?.row ?? 0, 'depth_to_water', '11.22'),
      write('measuring_points', mark?.row ?? 0, 'elevation', '970.92'),
    ];
    // Before: least squares without both gives 106.27°, worked independently [C].
    expect(
      told('osier-bend', '2026-09', 'way', changed('osier-bend', { kind: 'together', edits: mistakes })), // prettier-ignore
    ).toContain(
      'MW-6 and PZ-9 do not fit the other wells and are to be checked; without them the direction would be 106° ± 0.6°.',
    );
    const site = changed('osier-bend', {
      kind: 'together',
      edits: [...mistakes, leave('MW-6 @ 2026-09'), leave('PZ-9 @ 2026-09')],
    });
    expect(told('osier-bend', '2026-09', 'way', site).join(' ')).toContain(
      'In the 3 events gauged it went from 106° ± 0.6° (2026-09) to 119° ± 19.2° (2026-03): no more than those errors make.',
    );
    // A reason is a clause of a longer sentence: its own full stop goes.
    expect(told('osier-bend', '2026-09', 'water', site).join(' ')).toMatch(
      /MW-6 and PZ-9: Off(; MW-5|; SG-1|\.$|\. )/,
    );
  });

  test('changes when an event goes', () => {
    const spring = demo['osier-bend'].site.waterLevels.flatMap(({ event }, row) =>
      event === '2026-03' ? [row] : [],
    );
    const site = changed('osier-bend', {
      kind: 'remove-rows',
      table: 'water_levels',
      rows: spring,
    });
    expect(told('osier-bend', '2026-09', 'way', site).join(' ')).toContain(
      'In the 2 events gauged it went from 106° ± 0.5° (2026-09) to 112° ± 0.6° (2025-09)',
    );
  });

  test('rests on one well at Quellmoor, whose leverage is 0.999', () => {
    const says = told('quellmoor', '2026-05', 'way');
    expect(says).toContain(
      'It rests on one well, W-6: without that well no direction could be told.',
    );
    expect(says).toContain(
      'In 1 of the 2 events gauged no direction could be told, so how far it changes is not known.',
    );
    expect(told('osier-bend', '2026-09', 'way').join(' ')).not.toContain('rests on one well');
  });

  test('says which kind of error the ± rests on, as Check does, in every event', () => {
    const words = { 'the stated errors': 'on the errors stated', 'the scatter': 'heads scatter' };
    const seen = new Set<string>();
    for (const [name, event] of [
      ['osier-bend', '2025-09'],
      ['osier-bend', '2026-03'],
      ['osier-bend', '2026-09'],
      ['quellmoor', '2026-05'],
    ] as const) {
      const { site } = demo[name];
      const flow = flowOf(site, event, OF[name].zone, headsOf(site, event));
      const [kind] = /the (stated errors|scatter)(?=\.)/.exec(flow.findings.join(' ')) ?? [];
      seen.add(kind ?? '');
      expect(told(name, event, 'way')[2]).toContain(words[kind as keyof typeof words]);
    }
    expect([...seen].toSorted()).toEqual(['the scatter', 'the stated errors']);
    expect(told('quellmoor', '2026-05', 'way')[2]).toContain('how far the heads scatter');
    expect(told('quellmoor', '2026-05', 'way')[1]).toContain(
      '160° ± 2.7° (2026-05), the only one of the 2 events gauged that gave one',
    );
  });

  test('rests on the fewest there are where only three wells count', () => {
    const kept = ['W-1', 'W-5', 'W-6'];
    const others = demo.quellmoor.site.waterLevels.flatMap(({ screen, event }, row) =>
      event === '2026-05' && !kept.includes(screen) ? [row] : [],
    );
    const site = changed('quellmoor', { kind: 'remove-rows', table: 'water_levels', rows: others });
    expect(told('quellmoor', '2026-05', 'way', site).join(' ')).toContain(
      'It rests on three wells, the fewest that give a direction',
    );
  });

  test.each([
    [0.95, '19 times in 20'],
    [0.9, '9 times in 10'],
    [0.99, '99 times in 100'],
    [0.683, '683 times in 1000'],
  ])('a confidence of %s is said as %s', (confidence, says) => expect(odds(confidence)).toBe(says));

  test('is said without a statistic, and an event without a direction says why', () => {
    for (const event of ['2025-10', '2026-05'])
      expect(told('quellmoor', event, 'way').join(' ')).not.toMatch(/χ²|F\(|plane|95 %|grid north/);
    expect(told('quellmoor', '2025-10', 'way')[0]).toBe('Which way the water goes is not resolved');
  });
});

describe('readings that do not count', () => {
  test('are named with their reason while they are few, product with its thickness', () => {
    // water_levels.csv, MW-5 in 2026-09: to water 14.49 ft, to product 13.94 ft.
    expect(told('osier-bend', '2026-09', 'water').at(-2)).toBe(
      '2 readings do not count. MW-5: 0.55 ft of product floats on it and its density was not measured; SG-1: surface water, left out unless it is known to be one with the groundwater.',
    );
  });

  test('are counted by reason where they are many', () => {
    const [says] = told('osier-bend', '2025-09', 'water').slice(-2);
    expect(says).toMatch(/^37 readings do not count\. 22 of them: temporary push points/);
  });

  test('are none where all count', () => {
    const gauge = demo.quellmoor.site.waterLevels.flatMap(({ screen, event }, row) =>
      event === '2026-05' && screen === 'G-1' ? [row] : [],
    );
    const site = changed('quellmoor', { kind: 'remove-rows', table: 'water_levels', rows: gauge });
    expect(told('quellmoor', '2026-05', 'water', site).join(' ')).not.toContain('not count');
  });
});

describe('a supply well', () => {
  // water_levels.csv and measuring_points.csv, SW-1 in 2026-09: 965.9 + 1.4 − 14.6 ft, pumping.
  const says =
    'SW-1, a supply well, stood at 952.7 ft while it was being pumped, the lowest level measured. Water may go to it from any side: the direction told between the wells does not answer that.';

  test('is told with the level it was pumped to, where heads are told and where receptors are', () => {
    expect(told('osier-bend', '2026-09', 'water')).toContain(says);
    expect(told('osier-bend', '2026-09', 'receptors')).toContain(says);
  });

  test('is called lowest only where it is, and pumped only where it was', () => {
    const row = demo['osier-bend'].site.waterLevels.findIndex(
      ({ screen, event }) => screen === 'SW-1' && event === '2026-09',
    );
    const site = changed('osier-bend', {
      kind: 'write-cells',
      table: 'water_levels',
      cells: [
        { row, column: 'depth_to_water', text: '8.0' },
        { row, column: 'status', text: 'static' },
      ],
    });
    expect(told('osier-bend', '2026-09', 'water', site).at(-1)).toMatch(
      /^SW-1, a supply well, stood at 959\.3 ft\. Water may go to it from any side/,
    );
  });

  test('is not spoken of where none was read', () => {
    expect(told('quellmoor', '2026-05', 'water').join(' ')).not.toContain('supply well');
    expect(told('quellmoor', '2026-05', 'receptors').join(' ')).toContain(
      'A well that is pumped draws water to it.',
    );
  });
});

describe('what was not sampled again', () => {
  test('is said before fewer compounds are taken for fewer', () => {
    expect(told('osier-bend', '2026-09', 'exceeds')[2]).toBe(
      'None of the 25 push points of 2025-09 was sampled again: this does not show that there is less now.',
    );
    expect(told('osier-bend', '2025-09', 'exceeds').join(' ')).not.toContain('again');
  });

  test('leaves out of the words how many were pushed in no event', () => {
    // locations.csv: 30 direct-push points, one refused, one planned; samples.csv: 25 of them in 2025-09.
    expect(told('osier-bend', '2026-09', 'found')[1]).toBe(
      'Sampled 2025-09-15 to 2025-09-19 at 33 points: 25 of the 28 pushed, and 8 others.',
    );
    expect(told('quellmoor', '2026-05', 'found')[1]).toContain(': all 5 pushed, and 5 others.');
  });

  test('tells how deep a compound exceeds', () => {
    // screens.csv: the deepest screen of DP-05 that exceeds, tip at 40 ft.
    expect(told('osier-bend', '2026-09', 'found')[2]).toContain('; deepest at DP-05, 40 ft below ground.'); // prettier-ignore
  });
});

describe('what the pushes found', () => {
  test('is told with its date before a round of the wells alone', () => {
    const says = told('osier-bend', '2026-09', 'found').join(' ');
    expect(says).toContain('The pushes found 7 compounds that exceed a level');
    expect(says).toContain('Sampled 2025-09-15 to 2025-09-19 at 33 points');
    // README: DP-05-S2-2509 2710 µg/L, level 5 µg/L, at 21 points.
    expect(says).toContain('at 21 of 33 points; most at DP-05, 2710 µg/L (542 times its level)');
    expect(told('osier-bend', '2026-09', 'exceeds')[1]).toBe(
      'Sampled 2026-09-22 to 2026-09-23 at 8 points, none of them pushed.',
    );
  });

  test('is the round told of itself in the event of the pushes', () => {
    expect(told('osier-bend', '2025-09', 'found')).toEqual([]);
    expect(pushEvent(demo.quellmoor.site, { event: '2026-05' })?.id).toBe('2025-10');
    expect(pushEvent(demo.quellmoor.site, { event: '2025-10' })).toBeNull();
  });
});

describe('what may lie in the way', () => {
  test('is every receptor drawn, by the directions of all events and never called safe', () => {
    const says = told('osier-bend', '2026-09', 'receptors');
    expect(says[1]).toMatch(/^Tansy Run: it may lie in the way of water from Fuel tank pit, /);
    expect(says[2]).toMatch(
      /^Farm supply well SW-1: it may lie in the way of water from .*Degreaser sump/,
    );
    expect(says[2]).toContain(
      'water went 106° to 127° in the 3 events with a direction, error included',
    );
    expect(says.at(-2)).toContain('it does not say that anything arrives');
    for (const event of ['2025-09', '2026-03', '2026-09'])
      expect(told('osier-bend', event, 'receptors').join(' ')).not.toMatch(/\b(safe|clean)\b/);
  });

  test('SW-1 is seen at 119° from DP-05 and at 111° from MW-5', () => {
    const at = (id: string) => {
      const { easting, northing } = demo['osier-bend'].site.locations.get(id) ?? {};
      return [easting?.value ?? 0, northing?.value ?? 0] as const;
    };
    // features.csv, R-2, in US survey feet.
    const foot = 1200 / 3937;
    const well = { kind: 'points', points: [[489705 * foot, 1821818 * foot]] } as const;
    expect(Math.round(compassOf(well, at('DP-05'))?.[0] ?? 0)).toBe(119);
    expect(Math.round(compassOf(well, at('MW-5'))?.[0] ?? 0)).toBe(111);
  });

  test('a receptor up the flow lies in the way of nothing, and that is not called out of reach', () => {
    const row = demo['osier-bend'].site.features.findIndex(({ id }) => id === 'R-2');
    const site = changed('osier-bend', {
      kind: 'write-cells',
      table: 'features',
      cells: [{ row, column: 'shape', text: 'POINT (488500 1822500)' }],
    });
    const says = told('osier-bend', '2026-09', 'receptors', site)[2];
    expect(says).toMatch(/^Farm supply well SW-1: it lies in that way from no source drawn/);
    expect(says).toContain('water may go another way');
  });

  test('cannot be told where no direction is resolved in any event', () => {
    const spring = demo.quellmoor.site.waterLevels.flatMap(({ event }, row) =>
      event === '2026-05' ? [row] : [],
    );
    const site = changed('quellmoor', { kind: 'remove-rows', table: 'water_levels', rows: spring });
    expect(told('quellmoor', '2025-10', 'receptors', site)[1]).toContain('cannot be told');
  });

  test('is no stop where no receptor is drawn', () => {
    const rows = demo.quellmoor.site.features.flatMap(({ id }, row) => (id === 'R-1' ? [row] : []));
    const site = changed('quellmoor', { kind: 'remove-rows', table: 'features', rows });
    expect(told('quellmoor', '2026-05', 'receptors', site)).toEqual([]);
  });

  test('a line that goes half round a place takes up that half of the compass', () => {
    const round = {
      kind: 'lines',
      lines: [
        [
          [0, 10],
          [10, 10],
          [10, 0],
          [10, -10],
          [0, -10],
        ],
      ],
    } as const;
    const [from, to] = compassOf(round, [0, 0]) ?? [0, 0];
    expect([from, to]).toEqual([0, 180]);
  });
});

describe('what is next', () => {
  test('lists the open sides that no planned point would close', () => {
    const says = told('quellmoor', '2026-05', 'next').join(' ');
    expect(says).toContain('No further point is planned, and 4 sides are open');
    expect(says).toContain(
      'Open, with no point planned there: 4 sides at W-3, and the depth below W-3.',
    );
    expect(says).toContain(
      '4 crosses on the map: a push there closes the side only if it does not',
    );
    // One stands in the shed: features.csv, within its four corners.
    expect(says).toContain('1 of them stands in Goods shed: it has to be moved.');
  });

  test('counts a side as planned for once a point is planned on it', () => {
    const { site } = demo.quellmoor;
    const of = { event: '2026-05', levelSet: OF.quellmoor.levelSet };
    const [first] = notPlanned(site, sidesTold(site, of)).flatMap(({ answer }) =>
      answer.side === 'below' ? [] : [answer],
    );
    if (!first?.next) throw new Error('no side is open');
    const after = changed('quellmoor', {
      kind: 'add-rows',
      table: 'locations',
      rows: [
        {
          id: 'N-1',
          kind: 'direct push',
          status: 'planned',
          planned_easting: String(first.next.easting),
          planned_northing: String(first.next.northing),
          purpose: 'Down the flow from W-3',
        },
      ],
    });
    const says = told('quellmoor', '2026-05', 'next', after);
    expect(says[0]).toBe('Next: 1 point planned, 3 sides open without one');
    expect(says[1]).toBe('N-1: Down the flow from W-3.');
  });

  test('counts as many crosses as it counts sides in its title, and those near what exceeded before', () => {
    const says = told('osier-bend', '2026-09', 'next');
    expect(says[0]).toContain('7 sides open without one');
    expect(says.join(' ')).toContain('7 crosses on the map');
    // 50 ft from MW-3 at 106° + 90° is 489396.2 E, 1822131.9 N; locations.csv has DP-20 at
    // 489405.9 E, 1822118.4 N: √(9.7² + 13.5²) = 16.6 ft.
    expect(says.join(' ')).toContain(
      'Something exceeded before within 50 ft of 3 of them, at the nearest 17 ft away.',
    );
    expect(told('osier-bend', '2026-09', 'delineated').join(' ')).toContain(
      'Open with the pushes (2025-09): 61 sides at 21 points, and the depth below 20 points.',
    );
    expect(says.join(' ')).toContain(
      'Of the 61 sides open with the pushes (2025-09) 2 have a point planned',
    );
  });

  test('marks on its map every point its words call exceeding, in whatever event', () => {
    for (const name of ['osier-bend', 'quellmoor'] as const) {
      const { site } = demo[name];
      const event = name === 'quellmoor' ? '2026-05' : '2026-09';
      const walk = firstWalk(site, { event, ...OF[name] });
      for (const made of ['receptors', 'next'] as const) {
        const view = walk.find((stop) => stop.made === made)?.view;
        const asked = askedResults(site, OF[name].levelSet, event, view?.asked ?? ASKED_AT_FIRST);
        const marked = new Set(
          asked.flatMap(({ location, judged }) =>
            isOver(judged.outcome.verdict) && location ? [location.id] : [],
          ),
        );
        expect(marked.size).toBe(name === 'quellmoor' ? 3 : 23);
      }
      expect(told(name, event, 'receptors')[1]).toContain(
        `all ${name === 'quellmoor' ? 3 : 23} points that exceeded a level in any event`,
      );
    }
  });

  test('draws the crosses it speaks of', () => {
    const next = firstWalk(demo.quellmoor.site, { event: '2026-05', ...OF.quellmoor }).at(-1);
    expect(next?.view.sides).toBe(true);
  });
});

describe('where the edge is', () => {
  test('is asked within 100 ft at Osier Bend and 30 m at Quellmoor, in the same event and zone', () => {
    expect(told('osier-bend', '2026-09', 'delineated').at(-1)).toContain(
      'no point of the same event and zone within 100 ft that way, or 20 ft below',
    );
    expect(told('quellmoor', '2026-05', 'delineated').at(-1)).toContain(
      'within 30 m that way, or 6 m',
    );
  });

  test('a deeper well of the nest that does not exceed is told with how far down it is', () => {
    // screens.csv: tips of MW-3 and PZ-3D at 16.68 and 41.65 ft.
    expect(told('osier-bend', '2026-09', 'delineated')).toContain(
      'Below MW-3, PZ-3D does not exceed, but it is 25 ft down: too far to close the depth between.',
    );
  });
});

test('says which event it tells of, and what preliminary means until the results are validated', () => {
  const where = told('osier-bend', '2026-09', 'where').join(' ');
  expect(where).toContain(
    'This walk tells of Autumn gauging, low water, 2026-09-22 to 2026-09-23.',
  );
  expect(where).toContain('checked (validated), so they may still change');
  const { site } = demo['osier-bend'];
  const validated = { ...site, settings: { ...site.settings, validated: true } };
  expect(told('osier-bend', '2026-09', 'where', validated).join(' ')).not.toContain('Preliminary');
});

test('every layer is said as often as the logs show it', () => {
  expect(told('osier-bend', '2026-09', 'below')).toContain(
    'All 32 boring logs show this. Depths are below ground.',
  );
  const rows = demo.quellmoor.site.strata.flatMap(({ location }, row) =>
    location === 'D-1' ? [row] : [],
  );
  const site = changed('quellmoor', {
    kind: 'write-cells',
    table: 'strata',
    cells: rows.slice(0, 1).map((row) => ({ row, column: 'class', text: 'clay' })),
  });
  expect(told('quellmoor', '2026-05', 'below', site)).toContain(
    '10 of 11 boring logs show this; otherwise in D-1. Depths are below ground.',
  );
});
