import type { Equipment } from '../../../src/domain/layout/push-sheet';
import { metres } from '../../../src/domain/units';

/** Rods and tool of 4 ft, tubing of 1/4 in, a screen of 1/2 in: what the sums of the tests are worked with. */
export const EQUIPMENT: Equipment = {
  rodLength: metres(4, 'ft'),
  toolLength: metres(4, 'ft'),
  leastAbove: metres(1, 'ft'),
  tubing: metres(0.25 / 12, 'ft'),
  screen: metres(0.5 / 12, 'ft'),
  tubingAbove: metres(5, 'ft'),
  hole: metres(1.5 / 12, 'ft'),
  sealingExtra: 0.2,
  purgeTimes: 3,
  samples: '[location]-[top]-[base]-[day]',
  containers: '3 vials',
  duplicateEach: 10,
  spikeEach: 20,
  day: '2026-05-31',
};
