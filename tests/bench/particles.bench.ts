/**
 * Script time of a frame of moving water with 5,000 marks: a step of each and
 * the strokes put on a canvas's list. The canvas itself is not in it. The aim is
 * under 4 ms a frame.
 */
import { bench, describe } from 'vitest';
import { movingWater } from '../../src/domain/walk/direction-field';
import { drift, strewn } from '../../src/domain/walk/particles';
import { flowOf } from '../../src/domain/water/flow';
import { randomFrom } from '../../src/domain/water/random';
import { drawParticles, type Pen } from '../../src/map/scene/draw-particles';
import { openFolder } from '../unit/folder';

const { site } = openFolder('demo-sites/osier-bend');
const field = movingWater(flowOf(site, '2025-09', 'shallow'), true);
if (!field) throw new Error('Osier Bend has a direction.');
const COUNT = 5000;
const random = randomFrom(1);
const marks = strewn(field, COUNT, random);

let strokes = 0;
const pen: Pen = {
  globalAlpha: 1,
  beginPath: () => {},
  moveTo: (x, y) => (strokes += x + y),
  lineTo: (x, y) => (strokes += x + y),
  stroke: () => {},
  clearRect: () => {},
};
const onWindow = {
  extent: { west: -250, south: -200, east: 250, north: 200 },
  size: [2400, 1920],
  centre: [0, 0],
  factor: 1,
  tail: 30,
} as const;

describe(`a frame of ${COUNT} marks`, () => {
  bench('step', () => drift(marks, field, { seconds: 1 / 60, far: 0.3 }, random));
  bench('step and strokes', () => {
    drift(marks, field, { seconds: 1 / 60, far: 0.3 }, random);
    drawParticles(pen, marks, onWindow);
  });
});
