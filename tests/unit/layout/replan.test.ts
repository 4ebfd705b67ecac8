import { describe, expect, test } from 'vitest';
import { clearedOn } from '../../../src/domain/layout/cleared';
import {
  chanceOf,
  dropPlanned,
  placeIn,
  planElsewhere,
  remainingPoints,
  without,
} from '../../../src/domain/layout/replan';
import { fieldPoints } from '../../../src/domain/record/field-points';
import { gapsOf } from '../../../src/domain/record/gaps';
import { apply, type Edit } from '../../../src/domain/site/edits/apply';
import { readSite } from '../../../src/domain/site/site';
import { flatGrid, packageFrom } from '../site-from';
import { drawn, planOf } from './ground';

/** A square of 100 ft with two points well within it, one refused, one well. */
const LINES = {
  locations: [
    'id,kind,status,planned_easting,planned_northing,ground_elevation,ground_how,note',
    'DP-1,direct push,planned,30,50,101.20,surveyed,Shifted once',
    'DP-2,direct push,planned,70,50,,,',
    'DP-3,direct push,refused,50,50,,,',
    'MW-1,monitoring well,installed,10,10,,,',
  ],
  decisions: [
    'what,on,reason,who,when',
    'clear point,DP-1,ticket T-1; cleared by RK,RK,2026-05-01T08:00',
  ],
} as const;

const GROUND = planOf(drawn('boundary', 'B', 'POLYGON ((0 0, 100 0, 100 100, 0 100, 0 0))'));
const ROUND = { radius: 15, shape: 1, lies: null };
/** Share of the square within the target's radius of one point, whole: πr²/A. */
const DISC = (Math.PI * 15 * 15) / (100 * 100);

const opened = (edit?: Edit) => {
  const before = packageFrom(LINES);
  const made = edit ? apply(before, edit) : { ok: true as const, value: before };
  if (!made.ok) throw new Error(String(made.problem));
  return readSite(made.value, flatGrid());
};
const NOW = { who: 'RK', when: '2026-05-02T08:00' };
const site = opened();
const point = site.locations.get('DP-1');
if (!point) throw new Error('no point');

describe('a planned point moved or dropped after it was laid', () => {
  test('the chance of a hit is the share of the ground within reach of a remaining point: two discs, one, or a quarter in the corner', () => {
    const points = remainingPoints(site);
    expect(points.map(({ id }) => id)).toEqual(['DP-1', 'DP-2']);
    const chance = (of: typeof points) => chanceOf(of, GROUND, ROUND, 1);
    for (const [of, share] of [
      [points, 2 * DISC],
      [without(points, 'DP-1', null), DISC],
      [without(points, 'DP-1', [0, 0]), DISC + DISC / 4],
    ] as const) {
      const tried = chance(of);
      expect(Math.abs((tried?.chance ?? 0) - share)).toBeLessThan(4 * (tried?.standardError ?? 0));
    }
    expect(chanceOf(points, planOf(), ROUND, 1), 'no boundary drawn').toBeNull();
  });

  test('moved 50 ft along a 3-4-5 triangle: coordinates, way and reason are kept; the surveyed ground and the clearance of the old place are not', () => {
    const edit = planElsewhere(site, point, [60, 90], 'kerb in the way', NOW);
    if (!edit) throw new Error('not moved');
    const after = opened(edit);
    const moved = after.locations.get('DP-1');
    expect(moved && placeIn(moved, 'ft')).toEqual([60, 90]);
    // atan2(30, 40) is 36.87° from north.
    expect(moved?.note).toMatch(
      /^Shifted once; Shifted 50\.0 ft toward 037° from E 30\.00, N 50\.00: kerb in the way; ground surveyed at the old place: 101\.20$/,
    );
    expect(moved?.ground_elevation).toBeNull();
    expect(moved?.ground_how).toBe('none');
    expect(clearedOn(site, 'DP-1')).not.toBeNull();
    expect(clearedOn(after, 'DP-1')).toBeNull();
  });

  test('a point that stays where it is is not moved', () => {
    expect(planElsewhere(site, point, [30, 50], '', NOW)).toBeNull();
  });

  test('dropped: it stays in the table with the reason, counts for nothing, and the layout says what it misses there', () => {
    const after = opened(dropPlanned(point, 'owner refused', 'RK', NOW.when));
    expect(after.locations.get('DP-1')?.status).toBe('dropped');
    expect(after.locations.get('DP-1')?.note).toBe('Shifted once; Dropped: owner refused');
    expect(after.decisions.at(-1)?.reason).toBe('Dropped: owner refused');
    expect(remainingPoints(after).map(({ id }) => id)).toEqual(['DP-2']);
    expect(gapsOf(fieldPoints(after)).map(({ id, why }) => [id, why])).toContainEqual([
      'DP-1',
      'dropped',
    ]);
  });

  test('cleared again after the move, it is cleared', () => {
    const edit = planElsewhere(site, point, [60, 90], '', NOW);
    if (!edit) throw new Error('not moved');
    const again = opened({
      kind: 'together',
      edits: [
        edit,
        { kind: 'decide', what: 'clear point', on: 'DP-1', reason: 'ticket T-2', ...NOW },
      ],
    });
    expect(clearedOn(again, 'DP-1')?.words).toBe('ticket T-2');
  });
});
