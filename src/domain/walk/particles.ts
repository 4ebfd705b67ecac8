import type { Random } from '../water/random';
import { isWithin, type DirectionField } from './direction-field';

/**
 * Marks that drift the way the water goes, all at one speed: they show its
 * direction, and neither how fast it is nor where anything carried by it is.
 * Ground metres about the middle of the wells. Arrays are changed in place.
 */
export type Particles = {
  readonly count: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Seconds since each began, and how long it will last. */
  readonly age: Float64Array;
  readonly life: Float64Array;
  /** Metres it has come since it began. */
  readonly gone: Float64Array;
  /** The direction of its last step. */
  readonly east: Float64Array;
  readonly north: Float64Array;
};

/** How long a mark lasts, seconds: long enough to be followed by eye. */
const SHORTEST = 2;
const LONGEST = 5;

/** Marks strewn evenly over the outline, at every age. */
export function strewn(field: DirectionField, count: number, random: Random): Particles {
  const column = () => new Float64Array(field.seats.length > 0 ? count : 0);
  const particles = {
    count: field.seats.length > 0 ? count : 0,
    x: column(),
    y: column(),
    age: column(),
    life: column(),
    gone: column(),
    east: column(),
    north: column(),
  };
  for (let i = 0; i < particles.count; i++) {
    begin(particles, i, field, random);
    particles.age[i] = random() * (particles.life[i] as number);
  }
  return particles;
}

function begin(particles: Particles, i: number, field: DirectionField, random: Random): void {
  const { frame, seats, sides } = field;
  const node = seats[Math.floor(random() * seats.length)] as number;
  const [x, y] = [
    frame.x + (node % frame.columns) * frame.step,
    frame.y + Math.floor(node / frame.columns) * frame.step,
  ];
  const [dx, dy] = [(random() - 0.5) * frame.step, (random() - 0.5) * frame.step];
  const inside = isWithin(sides, x + dx, y + dy);
  particles.x[i] = inside ? x + dx : x;
  particles.y[i] = inside ? y + dy : y;
  particles.age[i] = 0;
  particles.gone[i] = 0;
  particles.life[i] = SHORTEST + random() * (LONGEST - SHORTEST);
  particles.east[i] = field.east[node] as number;
  particles.north[i] = field.north[node] as number;
}

/**
 * Every mark a step on: `seconds` later and `far` metres down the water. One that
 * has had its time, leaves the outline or comes where no direction is resolved
 * begins again somewhere else.
 */
export function drift(
  particles: Particles,
  field: DirectionField,
  { seconds, far }: { readonly seconds: number; readonly far: number },
  random: Random,
): void {
  const { frame, sides } = field;
  const { x, y, age, life, gone } = particles;
  for (let i = 0; i < particles.count; i++) {
    const column = Math.round(((x[i] as number) - frame.x) / frame.step);
    const row = Math.round(((y[i] as number) - frame.y) / frame.step);
    const node = row * frame.columns + column;
    const [east, north] = [field.east[node] ?? 0, field.north[node] ?? 0];
    const [nextX, nextY] = [(x[i] as number) + far * east, (y[i] as number) + far * north];
    age[i] = (age[i] as number) + seconds;
    if (
      (age[i] as number) > (life[i] as number) ||
      (east === 0 && north === 0) ||
      !isWithin(sides, nextX, nextY)
    ) {
      begin(particles, i, field, random);
      continue;
    }
    x[i] = nextX;
    y[i] = nextY;
    gone[i] = (gone[i] as number) + far;
    particles.east[i] = east;
    particles.north[i] = north;
  }
}

/** How plainly a mark is drawn, 0 to 1: it comes and goes softly. */
export const plainness = (age: number, life: number): number =>
  Math.max(0, Math.min(1, age / 0.6, (life - age) / 0.6));
