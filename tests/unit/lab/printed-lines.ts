import { expect } from 'vitest';
import { evaluate } from '../../../src/domain/arithmetic';
import { plainNumber, printWork } from '../../../src/domain/print-work';
import type { Work } from '../../../src/domain/work';

const units = { vertical: 'ft', grid: 'us-ft' } as const;

/** A line of work and those behind it. */
export const lines = (work: Work): Work[] => [
  work,
  ...work.terms.flatMap(({ from }) => (from.kind === 'work' ? lines(from.work) : [])),
];

export const printed = (work: Work) =>
  lines(work).map((line) => {
    const { title, formula, substituted, answer } = printWork(line, units);
    return { title, formula, line: `${substituted} = ${answer}` };
  });

/** Every printed line, worked on a calculator, gives its printed answer within half its last digit. */
export function expectToWorkOut(work: Work) {
  for (const line of lines(work)) {
    const { substituted, answer } = printWork(line, units);
    const worked = evaluate(substituted.replaceAll('−', '-'), new Map());
    expect(worked, substituted).not.toBeNull();
    const apart = Math.abs((worked ?? NaN) - plainNumber(answer));
    expect(apart, `${substituted} = ${answer}`).toBeLessThanOrEqual(
      0.5 * 10 ** -line.decimals * (1 + 1e-9),
    );
  }
}
