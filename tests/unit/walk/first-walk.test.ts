/**
 * The walk a site makes of itself. The numbers expected of the demo sites are
 * those worked by hand in their README files, not the program's own.
 */
import { describe, expect, test } from 'vitest';
import { apply } from '../../../src/domain/site/edits/apply';
import type { DataPackage } from '../../../src/domain/site/data-package';
import { firstWalk, preliminary } from '../../../src/domain/walk/first-walk';
import { sidesWords } from '../../../src/domain/walk/delineation-stop';
import { plain, type MadeStop, type Stop } from '../../../src/domain/walk/stop';
import { freeId, rewordStop, rewriteWalk, stopsOf } from '../../../src/domain/walk/walk-stops';
import { gridOf, siteOf } from '../../../src/io/open-site';
import { siteFrom } from '../site-from';
import { openFolder } from '../folder';

const OF = {
  'osier-bend': { zone: 'shallow', levelSet: 'Federal drinking water (40 CFR 141.61(a))' },
  quellmoor: { zone: 'sand', levelSet: 'Quellmoor site levels (invented)' },
};

const walkOf = (name: keyof typeof OF, event: string) =>
  firstWalk(openFolder(`demo-sites/${name}`).site, { event, ...OF[name] });

const stop = (walk: readonly Stop[], made: MadeStop) => {
  const found = walk.find((one) => one.made === made);
  if (!found) throw new Error(`no stop ${made}`);
  return found;
};
const words = (walk: readonly Stop[], made: MadeStop) => {
  const { title, sentences } = stop(walk, made);
  return [title, ...sentences.map(plain)].join(' ');
};

describe('the first walk of Osier Bend', () => {
  const walk = walkOf('osier-bend', '2025-09');

  test('tells the story in the order of a meeting', () => {
    const order = ['where', 'pushes', 'below', 'water', 'way', 'exceeds', 'delineated'];
    expect(walk.map(({ made }) => made)).toEqual([...order, 'receptors', 'next']);
    const later = walkOf('osier-bend', '2026-09').map(({ made }) => made);
    expect(later).toEqual([...order.slice(0, 5), 'found', ...order.slice(5), 'receptors', 'next']);
  });

  test('gives the lowest and the highest head of the README, with their wells', () => {
    expect(words(walk, 'water')).toContain('956.65 ft at MW-6 and 960.53 ft at MW-1');
    expect(words(walk, 'water')).toContain('9 heads are counted');
  });

  test('every head, direction and depth on a stop opens into its work', () => {
    const numbers = walk.flatMap(({ sentences }) =>
      sentences.flat().flatMap((part) => (typeof part === 'string' ? [] : part)),
    );
    expect(numbers.length).toBeGreaterThanOrEqual(8);
    for (const { work } of numbers)
      expect(work.terms.length + (work.table ? 1 : 0)).toBeGreaterThan(0);
  });

  test('names the points refused and those still to be pushed', () => {
    expect(words(walk, 'pushes')).toContain('Refused before it was reached: DP-16.');
    expect(words(walk, 'next')).toContain('DP-30: Close the north side at Tansy Run.');
  });

  test('turns with the water: another event, another direction', () => {
    expect(words(walk, 'way')).toContain('Direction 112°');
    expect(words(walkOf('osier-bend', '2026-03'), 'way')).toContain('Direction 126°');
  });
});

test('a level is said in the unit of the result beside it, so that a room can compare the two', () => {
  // results.csv of the site: sample PZ-7-2609, 37 of TCE and 68 of benzene; both levels 0.005 mg/L.
  const walk = walkOf('osier-bend', '2026-09');
  expect(words(walk, 'exceeds')).toContain('exceeds 5 µg/L (0.005 mg/L) at');
  expect(words(walk, 'exceeds')).toContain('(2 of 8 points); most at PZ-7, 37 µg/L');
  expect(words(walk, 'exceeds')).toContain('at 1 of 8 points: PZ-7, 68 µg/L');
  expect(words(walkOf('quellmoor', '2026-05'), 'exceeds')).toContain('exceeds 10 µg/L at 1 of 6');
});

describe('the first walk of Quellmoor', () => {
  test('draws no arrow in its first event, and says so without a statistic', () => {
    const walk = walkOf('quellmoor', '2025-10');
    expect(stop(walk, 'way').title).toBe('Which way the water goes is not resolved');
    expect(words(walk, 'way')).toContain('no more than their errors could make');
    expect(words(walk, 'way')).toContain('nearly in a line');
    expect(words(walk, 'way')).not.toMatch(/χ²|F\(/);
    expect(stop(walk, 'way').notes).toContain('χ²');
  });

  test('tells the direction once W-6 stands off the line', () => {
    expect(words(walkOf('quellmoor', '2026-05'), 'way')).toContain('toward the south');
  });
});

test('a site with next to nothing in it still walks, and claims nothing', () => {
  const site = siteFrom({ locations: ['id,kind,status', 'P-1,direct push,planned'] });
  const walk = firstWalk(site, { event: null, zone: null, levelSet: null });
  const all = walk
    .map(({ title, sentences }) => [title, ...sentences.map(plain)].join(' '))
    .join(' ');
  expect(all).not.toMatch(/NaN|Infinity|undefined|clean/);
  expect(words(walk, 'way')).toContain('not resolved');
  expect(words(walk, 'exceeds')).toContain('cannot be said');
  expect(words(walk, 'below')).toContain('not logged');
});

test('preliminary until validation is recorded', () => {
  expect(preliminary(siteFrom({}))).toBe('PRELIMINARY, NOT VALIDATED');
  expect(preliminary(siteFrom({}, { validated: true }))).toBeNull();
});

describe('a walk that somebody changed', () => {
  const opened = openFolder('demo-sites/osier-bend');
  const of = { event: '2025-09', ...OF['osier-bend'] };
  const first = stopsOf(opened.site, of);
  const after = (edit: Parameters<typeof apply>[1], given = opened.package) => {
    const made = apply(given, edit);
    if (!made.ok) throw new Error(made.problem);
    return made.value;
  };
  const read = (given: DataPackage) => {
    const { grid, problem } = gridOf(given);
    return siteOf(given, grid, problem);
  };

  test('keeps its order and what is hidden, and its sentences go on changing with the data', () => {
    const turned = first.toReversed().map((one) => ({ ...one, hidden: one.made === 'below' }));
    const site = read(after(rewriteWalk(opened.package, turned)));
    const stops = stopsOf(site, { ...of, event: '2026-03' });
    const told = stops.map(({ made }) => made);
    expect(told.filter((made) => made !== 'found')).toEqual(turned.map(({ made }) => made));
    expect(told).toContain('found'); // of this event alone
    expect(stops.filter(({ hidden }) => hidden).map(({ made }) => made)).toEqual(['below']);
    expect(words(stops, 'way')).toContain('126°');
  });

  test('keeps a view with its camera, and words typed over a stop until they are blanked', () => {
    const [where] = first;
    if (!where) throw new Error('no stop');
    const id = freeId(first);
    const window = { west: 1, south: 2, east: 3, north: 4 };
    const kept: Stop = {
      ...where,
      id,
      made: null,
      title: 'The sump',
      view: { ...where.view, window },
    };
    const stops = [...first, kept];
    const given = after(rewriteWalk(opened.package, stops));
    expect(stopsOf(read(given), of).at(-1)).toMatchObject({ title: 'The sump', view: { window } });

    const said = after(rewordStop(given, stops, 'way', { words: 'East.' }), given);
    expect(words(stopsOf(read(said), of), 'way')).toMatch(/East\.$/);
    const blank = after(rewordStop(said, stops, 'way', { words: '' }), said);
    expect(words(stopsOf(read(blank), of), 'way')).toContain('112°');
  });

  test('survives a views table with rubbish in it', () => {
    const site = siteFrom({
      views: ['id,order,title,words,notes,shown,hidden', 'a,1,,,,not json,', 'b,2,,,,"[1]",'],
    });
    expect(stopsOf(site, { event: null, zone: null, levelSet: null }).length).toBeGreaterThan(4);
  });
});

describe('the sides of a point', () => {
  test('are told in few words where most of them are open', () => {
    const four = ['down-gradient', 'side-gradient, left', 'up-gradient', 'side-gradient, right'];
    const say = (...sides: string[]) => sidesWords(sides as Parameters<typeof sidesWords>[0]);
    expect(say(...four)).toBe('on every side');
    expect(say(...four, 'below')).toBe('on every side and below');
    expect(say('north', 'west', 'south', 'east')).toBe('on every side');
    expect(say(...four.slice(0, 3), 'below')).toBe(
      'below, and on every side but right of the flow',
    );
    expect(say('north', 'west', 'south')).toBe('on every side but to the east');
    expect(say('down-gradient', 'side-gradient, left')).toBe('down-gradient and left of the flow');
    expect(say('below')).toBe('below');
  });

  test('are counted where points are open in many ways, and named where they are open alike', () => {
    const osier = words(walkOf('osier-bend', '2025-09'), 'delineated');
    expect(osier).toMatch(
      /Trichloroethylene \(TCE\) is open at 21 points, most often down-gradient and up-gradient \(16 each\), below at 19\./,
    );
    expect(osier).not.toMatch(/\d+, [a-z -]+ at \d+, /); // a list nobody can follow by ear
    expect(words(walkOf('quellmoor', '2025-10'), 'delineated')).toContain(
      'Tetrachloroethylene (PCE) is open on every side and below at D-3, D-5 and W-3.',
    );
  });
});
