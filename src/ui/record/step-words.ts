import type { Step } from '../../domain/record/field-points';

export const STEP_NAMES: Readonly<Record<Step, string>> = {
  hole: 'Hole',
  interval: 'Interval',
  water: 'Water',
  sample: 'Sample',
  close: 'Decommission',
};
