import { describe, expect, test } from 'vitest';
import { apply } from '../../../src/domain/site/edits/apply';
import { readSite } from '../../../src/domain/site/site';
import { adjusted } from '../../../src/domain/survey/adjustment';
import { levelLoop } from '../../../src/domain/survey/level-loop';
import { noAdjustmentWords, suspectWords } from '../../../src/domain/survey/loop-words';
import { suspects } from '../../../src/domain/survey/misclosure';
import { offersOf, takeOffers } from '../../../src/domain/survey/offer-elevations';
import { loopsIn } from '../../../src/domain/survey/shots';
import { stakedOffsets } from '../../../src/domain/survey/staked-offset';
import { metres } from '../../../src/domain/units';
import { flatGrid, packageFrom, siteFrom } from '../site-from';

const bookWith = (second: string, last = 'L,3,BM,,4.98,200,') =>
  packageFrom({
    locations: [
      'id,easting,northing,ground_elevation,ground_how,kind,status',
      'DP-1,0,0,,,direct push,planned',
    ],
    survey_shots: [
      'loop,order,point,backsight,foresight,distance,known_elevation',
      'L,1,BM,5.00,,,100.00',
      second,
      last,
    ],
  });

const loopOf = (from: ReturnType<typeof bookWith>) => {
  const site = readSite(from, flatGrid());
  const shots = loopsIn(site.surveyShots).get('L') ?? [];
  const loop = levelLoop(shots);
  if (!loop.ok) throw new Error(loop.problem.kind);
  return { site, shots, loop: loop.value };
};

test('an adjusted elevation is offered to the point of its name, and taken as surveyed', () => {
  // Worked by hand: 100 + 5 − 3 = 102; closes at 102 + 3 − 4.98 = 100.02, half of it by set-ups: 101.99.
  const book = bookWith('L,2,DP-1,3.00,3.00,200,');
  const { site, loop } = loopOf(book);
  const after = adjusted(loop, 'set-ups', metres(0.05, 'ft'));
  if (!after.ok) throw new Error(after.problem.kind);
  const offers = offersOf(after.value, site, 'ft');
  expect(offers.map(({ point, before, after: to }) => [point, before, to])).toEqual([
    ['DP-1', '', '101.990'],
  ]);
  const edit = takeOffers(offers);
  const made = edit && apply(book, edit);
  if (!made?.ok) throw new Error('not taken');
  const taken = readSite(made.value, flatGrid());
  expect(taken.locations.get('DP-1')).toMatchObject({ ground_how: 'surveyed' });
  expect(taken.locations.get('DP-1')?.ground_elevation?.text).toBe('101.990');
  expect(offersOf(after.value, taken, 'ft')).toEqual([]);
});

test('backsight and foresight swapped leave a misclosure that is said, not smoothed, and the line is named', () => {
  // 3.40 forward and 3.00 back close to nothing; written the other way round they are 0.80 ft out.
  const last = 'L,3,BM,,4.60,200,';
  const limit = metres(0.05, 'ft');
  const right = loopOf(bookWith('L,2,DP-1,3.00,3.40,200,', last));
  expect(adjusted(right.loop, 'distance', limit).ok).toBe(true);
  const { loop, shots } = loopOf(bookWith('L,2,DP-1,3.40,3.00,200,', last));
  const refused = adjusted(loop, 'distance', limit);
  expect(refused.ok).toBe(false);
  if (!refused.ok)
    expect(noAdjustmentWords(refused.problem, 'ft')).toMatch(/0\.800 ft is over the 0\.050 ft/);
  const found = suspects(loop, shots, limit, 'ft').map(suspectWords);
  expect(found).toContain('backsight and foresight of line 2, DP-1, in each other’s column');
});

describe('staked against as-pushed', () => {
  test('a point pushed 3 ft east and 4 ft north of its stake is 5 ft off toward 037°; one without both places has no offset', () => {
    const site = siteFrom({
      locations: [
        'id,easting,northing,kind,status,planned_easting,planned_northing',
        'DP-1,103,204,direct push,pushed,100,200',
        'DP-2,50,60,direct push,pushed,50,60',
        'DP-3,,,direct push,planned,10,20',
      ],
    });
    const offsets = stakedOffsets(site);
    expect(offsets.map(({ id }) => id)).toEqual(['DP-1', 'DP-2']);
    expect(offsets[0]?.distance).toBeCloseTo(5, 9);
    expect(offsets[0]?.azimuth).toBeCloseTo((Math.atan2(3, 4) * 180) / Math.PI, 9);
    expect(offsets[1]?.azimuth).toBeNull();
  });
});
