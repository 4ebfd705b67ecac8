import { expect } from 'vitest';
import { plainNumber, printWork } from '../../../src/domain/print-work';
import type { LengthUnit } from '../../../src/domain/units';
import type { Work } from '../../../src/domain/work';

/** The printed line worked by the engine's own arithmetic, not ours. */
const worked = (line: string): number =>
  new Function('sqrt', `return ${line.replaceAll('−', '-').replaceAll('^', '**')}`)(
    Math.sqrt,
  ) as number;

/** A line and every line behind it, printed in a unit, give their printed answers. */
export function expectToWorkOut(work: Work, unit: LengthUnit): void {
  const printed = printWork(work, { vertical: unit, grid: unit });
  const apart = Math.abs(worked(printed.substituted) - plainNumber(printed.answer));
  expect(apart, `${printed.title}: ${printed.substituted} = ${printed.answer}`).toBeLessThanOrEqual(
    0.5 * 10 ** -work.decimals * (1 + 1e-6),
  );
  for (const { from } of work.terms) if (from.kind === 'work') expectToWorkOut(from.work, unit);
}
