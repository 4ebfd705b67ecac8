import { describe, expect, test } from 'vitest';
import { metres } from '../../../src/domain/units';
import { ellipseOutline, flowVector } from '../../../src/domain/water/ellipse-outline';
import { culpritWords, driverWords } from '../../../src/domain/water/influence-words';
import { leaveOneOut } from '../../../src/domain/water/leave-one-out';
import { confidenceOf } from '../../../src/domain/water/plane-confidence';
import { fitPlane, type HeadPoint } from '../../../src/domain/water/plane';
import { planeVariants } from '../../../src/domain/water/plane-variants';
import { headsOf } from '../../../src/domain/water/event-heads';
import { directionRose } from '../../../src/domain/water/rose';
import { triangleReview } from '../../../src/domain/water/triangle-review';
import { trianglesOf } from '../../../src/domain/water/triangles';
import { triangleItems } from '../../../src/map/scene/from-triangles';
import { inlSite } from '../../faults/sites';
import { siteFrom } from '../site-from';

/** Six wells worked out independently with another library, in feet. */
const SIX: readonly HeadPoint[] = [
  ['P1', 1000, 5000, 92.53],
  ['P2', 1150, 5040, 92.16],
  ['P3', 1300, 5010, 91.82],
  ['P4', 1050, 5150, 92.75],
  ['P5', 1200, 5170, 92.32],
  ['P6', 1350, 5140, 91.94],
].map(([id, x, y, head]) => ({
  id: String(id),
  x: metres(Number(x) - 1175, 'ft'),
  y: metres(Number(y) - 5085, 'ft'),
  head: metres(Number(head), 'ft'),
  sigma: metres(0.01, 'ft'),
}));

describe('every three of six wells', () => {
  const triangles = trianglesOf(SIX);
  const review = triangleReview(triangles);

  test('sixteen pass the shape rule and four fail it, with the four wild directions', () => {
    expect(review.count).toBe(20);
    expect(review.kept).toHaveLength(16);
    expect(review.failing.map((a) => a.toFixed(1)).sort()).toEqual([
      '145.5',
      '160.1',
      '69.9',
      '79.7',
    ]);
  });

  test('those kept span 112.1° to 139.1°, 27.0° in all', () => {
    expect(review.spread).toBeCloseTo(139.1 - 112.1, 0);
  });

  test('the list begins with the worst shaped, P1 P2 P6 at 20.30', () => {
    expect(review.listed[0]?.ids).toEqual(['P1', 'P2', 'P6']);
    expect(review.listed[0]?.baseToHeight).toBeCloseTo(20.3, 2);
  });

  test('on the map sixteen are arrows and four are grey strokes', () => {
    const items = triangleItems(triangles, (x, y) => [x, y]);
    expect(items.filter(({ kind }) => kind === 'arrow')).toHaveLength(16);
    expect(items.filter(({ kind }) => kind === 'line')).toHaveLength(4);
  });

  test('sixty wells make too many to draw, and none is drawn', () => {
    const many = Array.from({ length: 60 }, (_, i): HeadPoint => ({
      id: `W${i}`,
      x: metres((i * 37) % 61),
      y: metres((i * 53) % 59),
      head: metres(10 - i * 0.01),
      sigma: metres(0.01),
    }));
    const set = trianglesOf(many);
    expect(set.count).toBe(34_220);
    expect(triangleItems(set, (x, y) => [x, y])).toEqual([]);
  });
});

test('a rose counts 355°, 0° and 4.9° as north, and 5.1° as the next sector of ten', () => {
  const rose = directionRose([355.1, 0, 4.9, 5.1, NaN]);
  expect(rose[0]).toBe(3);
  expect(rose[1]).toBe(1);
  expect(rose.reduce((a, b) => a + b)).toBe(4);
});

describe('the ellipse about the gradient', () => {
  const plane = fitPlane(SIX, { weighted: true });
  if (!plane.ok) throw new Error('six wells make a plane');

  test('lies about the flow vector, toward 129°', () => {
    const [east, north] = flowVector(plane.value);
    expect((Math.atan2(east, north) * 180) / Math.PI).toBeCloseTo(128.916, 2);
  });

  test('has gᵀC⁻¹g of its rim equal to the χ² it was drawn for', () => {
    const { stated } = confidenceOf(plane.value, 0.95);
    const vector = flowVector(plane.value);
    const { aa, ab, bb } = plane.value.stated.covariance;
    const det = aa * bb - ab * ab;
    const rim = ellipseOutline(vector, stated.ellipse);
    expect(rim).toHaveLength(73);
    expect(rim[72]).toEqual(rim[0]);
    expect(rim[18]).not.toEqual(rim[0]);
    for (const [e, n] of rim) {
      const [da, db] = [vector[0] - e, vector[1] - n];
      const square = (da * da * bb - 2 * da * db * ab + db * db * aa) / det;
      expect(square).toBeCloseTo(5.991, 2); // χ²(0.95; 2), any table
    }
  });
});

test('the sentence names the well that turns the direction most, and no culprit of six alike', () => {
  const found = leaveOneOut(SIX, { weighted: true, confidence: 0.95 });
  if (!found.ok) throw new Error('six wells can be left out');
  // 131.711° without P5 against 128.916° with it.
  expect(driverWords(found.value)).toBe(
    'Of single wells P5 drives the answer: without it the direction turns 2.8° clockwise.',
  );
  expect(culpritWords(found.value.culprit, 'ft')).toContain('No well stands out');
  expect(culpritWords({ kind: 'cannot-be-named', have: 4, need: 6 }, 'ft')).toBe(
    'With 4 wells no one of them can be named as wrong; 6 are needed.',
  );
});

test('push points are laid beside the wells, and change the answer only there', () => {
  const site = siteFrom({
    locations: [
      'id,easting,northing,ground_elevation,kind,status',
      'A,0,0,100,monitoring well,installed',
      'B,300,0,100,monitoring well,installed',
      'C,0,300,100,monitoring well,installed',
      'D,300,300,100,direct push,pushed',
    ],
    screens: [
      'id,location,tip_depth,exposed_length,zone',
      ...['A', 'B', 'C', 'D'].map((id) => `${id},${id},20,10,shallow`),
    ],
    measuring_points: [
      'id,screen,elevation',
      ...['A', 'B', 'C', 'D'].map((id) => `${id}-MP,${id},102`),
    ],
    events: ['id,first_day,last_day', 'E,2026-01-01,2026-01-02'],
    water_levels: [
      'screen,event,measuring_point,time,depth_to_water,status',
      'A,E,A-MP,2026-01-01T10:00,8.00,static',
      'B,E,B-MP,2026-01-01T10:10,9.00,static',
      'C,E,C-MP,2026-01-01T10:20,8.00,static',
      'D,E,D-MP,2026-01-01T10:30,7.00,static',
    ],
  });
  const variants = planeVariants(site, 'E', 'shallow', headsOf(site, 'E'));
  expect(variants.map(({ name, flow }) => [name, flow.fitted.length])).toEqual([
    ['Weighed by the error of each head', 3],
    ['All heads weighed alike', 3],
    ['With 1 push-point level more', 4],
  ]);
});

test('the INL multi-port wells of April 2008 beside one screen of each: 33 heads fewer, another direction', () => {
  const { site } = inlSite();
  const event = 'Levels 2008';
  const variants = planeVariants(site, event, 'aquifer', headsOf(site, event));
  const all = variants[0]?.flow;
  const single = variants.find(({ name }) => name.startsWith('One screen of each nest'))?.flow;
  // Two nests, of 12 and 23 ports.
  expect((all?.fitted.length ?? 0) - (single?.fitted.length ?? 0)).toBe(11 + 22);
  expect(new Set(single?.fitted.map(({ gauged }) => gauged.location.id)).size).toBe(
    single?.fitted.length,
  );
});
