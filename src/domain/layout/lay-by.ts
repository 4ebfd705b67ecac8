import type { XY } from '../geometry/shape';
import { fail, ok, type Result } from '../result';
import { azimuth, type Azimuth } from '../units';
import { readDistances, readPlaces } from './drawing';
import { everySoFar, layGrid, layTransects, type LayoutProblem } from './grids';
import type { GroundPlan } from './ground-plan';
import { randomStart, type Repeat } from './lattice';
import { layoutProblemWords } from './layout-words';
import { seeded } from './seeded';
import { stakesAt, type Place, type Stake } from './stakes';
import { rings, stepOuts } from './step-outs';

export type Manner = 'grid' | 'transects' | 'step-outs' | 'rings' | 'points';

/** How points are to be laid, as typed. Lengths in the grid's unit. */
export type LayChoice = {
  readonly manner: Manner;
  /** Null where no spacing follows from what was typed. */
  readonly repeat: Repeat | null;
  /** Of the rows of a grid. */
  readonly direction: Azimuth;
  readonly seed: number;
  readonly every: number;
  readonly apart: number;
  readonly staggered: boolean;
  /** Where step-outs and rings start; null while no point is chosen. */
  readonly from: XY | null;
  readonly down: string;
  readonly up: string;
  readonly across: string;
  readonly radii: string;
  readonly each: number;
  readonly typed: string;
};

/** What a layout is laid on. */
export type LayGround = {
  readonly plan: GroundPlan;
  /** Middle of the ground, which a grid turns about; null where no boundary is drawn. */
  readonly middle: XY | null;
  /** Where the water goes; null where that is not resolved, and `noFlow` says why. */
  readonly flow: Azimuth | null;
  readonly noFlow: string;
};

/** A layout as its rule gives it, before anything is moved; why there is none, in words. */
export function layBy(choice: LayChoice, ground: LayGround): Result<readonly Stake[], string> {
  switch (choice.manner) {
    case 'grid':
      return gridBy(choice, ground);
    case 'transects':
      return transectsBy(choice, ground);
    case 'points': {
      const places = readPlaces(choice.typed);
      if (!places.ok) {
        const { line, found } = places.problem;
        return fail(`Line ${line} is no easting and northing: “${found}”.`);
      }
      const points = places.value.map((at, i) => ({ at, counts: { point: i + 1 } }));
      return ok(stakesAt(points, ground.plan));
    }
    default: {
      const made = aroundBy(choice, ground);
      return made.ok ? ok(stakesAt(made.value, ground.plan)) : made;
    }
  }
}

function gridBy({ repeat, direction, seed }: LayChoice, { plan, middle }: LayGround) {
  if (!middle) return fail(layoutProblemWords({ kind: 'no-boundary' }));
  if (!repeat) return fail('Give a spacing or a number above zero.');
  const turned = { ...repeat, rows: direction };
  return inWords(layGrid({ ...turned, start: randomStart(turned, middle, seeded(seed)) }, plan));
}

function transectsBy(choice: LayChoice, { plan, middle, flow, noFlow }: LayGround) {
  if (flow === null) return fail(noFlow);
  const through = middle ?? [0, 0];
  const downgradient = everySoFar({ flow, through }, choice.apart, plan);
  const { every, staggered } = choice;
  const made = layTransects({ flow, through, downgradient, every, staggered }, plan);
  return made.ok ? ok(made.value.stakes) : inWords(made);
}

function aroundBy(choice: LayChoice, { flow, noFlow }: LayGround): Result<Place[], string> {
  const { from } = choice;
  if (!from) return fail('Choose the point to start from.');
  if (choice.manner === 'rings') {
    const radii = readDistances(choice.radii);
    if (!radii) return fail('Give radii above zero, parted by commas.');
    return ok(rings(from, radii, choice.each, flow ?? azimuth(0), true));
  }
  if (flow === null) return fail(noFlow);
  const [down, up, across] = [choice.down, choice.up, choice.across].map(readDistances);
  if (!down || !up || !across) return fail('Give distances above zero, parted by commas.');
  return ok(stepOuts(from, flow, { downgradient: down, upgradient: up, across }));
}

const inWords = (
  made: Result<readonly Stake[], LayoutProblem> | { ok: false; problem: LayoutProblem },
) => (made.ok ? ok(made.value) : fail(layoutProblemWords(made.problem)));
