import type { Step, StepState } from '../../domain/record/field-points';

export const STEP_NAMES: Readonly<Record<Step, string>> = {
  hole: 'Hole',
  interval: 'Interval',
  water: 'Water',
  sample: 'Sample',
  close: 'Decommission',
};

const MARKS: Readonly<Record<StepState, string>> = { done: '✓', 'not yet': '○', 'not needed': '–' };

export const stateMark = (state: StepState) => MARKS[state];

export const stateWords = (state: StepState) => state;
