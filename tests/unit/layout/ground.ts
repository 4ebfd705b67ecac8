import { prepare } from '../../../src/domain/geometry/prepared';
import type { Shape } from '../../../src/domain/geometry/shape';
import { readShape } from '../../../src/domain/geometry/wkt';
import { groundPlan, type Drawn, type GroundPlan } from '../../../src/domain/layout/ground-plan';
import type { Feature } from '../../../src/domain/site/schema';

/** A shape from its text; a test that writes it wrongly stops there. */
export const shape = (text: string): Shape => {
  const read = readShape(text);
  if (!read.ok) throw new Error(`${text.slice(0, 60)}: ${JSON.stringify(read.problem)}`);
  return read.value;
};

/** Something drawn, in the grid's unit. */
export const drawn = (
  kind: Feature['kind'],
  name: string,
  text: string | Shape,
  halfWidth = 0,
  buffer: number | null = null,
): Drawn => {
  const plan = typeof text === 'string' ? shape(text) : text;
  return { id: name, kind, name, shape: plan, prepared: prepare(plan), halfWidth, buffer };
};

/** A plan of what was drawn, boundaries told from the rest. */
export const planOf = (...all: readonly Drawn[]): GroundPlan =>
  groundPlan(
    all.filter(({ kind }) => kind === 'boundary'),
    all.filter(({ kind }) => kind !== 'boundary'),
  );
