import { fail, ok, type Result } from '../result';
import { metres, type Metres } from '../units';
import type { Worked } from '../work';
import { lengthWorked, workedOut, type Given } from './given';

/**
 * What is known of a driven screen. Depths below ground, positive down. Null
 * is not known, save that a tool with no offset recorded is taken to have none.
 */
export type Driven = {
  readonly tipDepth: Given | null;
  /** Tip to screen base. */
  readonly toolOffset: Given | null;
  readonly exposedLength: Given | null;
  readonly ground: Given | null;
  /** How far the rods were drawn back. */
  readonly retraction?: Given | null;
  readonly screenLength?: Given | null;
  /** Depth sounded inside the rods after retraction. */
  readonly soundedDepth?: Given | null;
};

/** Base, top and middle of the open interval. */
export type Three = {
  readonly base: Worked<Metres>;
  readonly top: Worked<Metres>;
  readonly mid: Worked<Metres>;
};

export type Interval = {
  /** Below ground, positive down. */
  readonly depth: Three;
  /** Above the site's vertical datum; a reason where the ground is not known. */
  readonly elevation: Result<Three, { readonly kind: 'no-ground' }>;
  /** Null where nobody sounded it. */
  readonly sounding: Sounding | null;
  /** The screen may not stand where its numbers say: it hung up and rode with the rods. */
  readonly uncertain: boolean;
  /** No tool offset was recorded, and none was taken off. */
  readonly offsetAssumed: boolean;
};

export type Sounding = {
  /** Sounded depth less computed base: negative where the screen rode up. */
  readonly apart: Worked<Metres>;
  readonly limit: Metres;
};

/** Why there is no interval; depths and lengths in metres. */
export type IntervalProblem =
  | { readonly kind: 'no-tip-depth' | 'no-exposed-length' }
  | { readonly kind: 'top-below-base'; readonly exposed: Metres } // exposed length not above 0
  | { readonly kind: 'base-above-ground'; readonly depth: Metres } // offset more than driven
  | { readonly kind: 'screen-above-ground'; readonly depth: Metres } // exposed more than driven
  | {
      readonly kind: 'exposed-over-retraction';
      readonly exposed: Metres;
      readonly retraction: Metres;
    }
  | {
      readonly kind: 'retraction-over-screen';
      readonly retraction: Metres;
      readonly screen: Metres;
    }
  | { readonly kind: 'exposed-over-screen'; readonly exposed: Metres; readonly screen: Metres };

/** More than this between sounding and reckoning is a finding. Common practice, no source. */
const SOUNDING_LIMIT = metres(0.2, 'ft');

/** Recorded decimals compared after conversion: a micrometre is rounding. */
const ROUNDING = 1e-6;

const exceeds = (a: number, b: number) => a > b + ROUNDING;

/**
 * The open interval of a driven screen: its base is the tip depth less the tool
 * offset, its top the exposed length above the base; elevations are the ground
 * less the depths. Exposed length ≤ retraction ≤ screen length must hold
 * wherever both are known. (Driven interval: common practice; bounds by the
 * make of a screen-point sampler.)
 *
 * @param soundingLimit  more than this between sounding and base makes it uncertain
 */
export function intervalOf(
  driven: Driven,
  soundingLimit: Metres = SOUNDING_LIMIT,
): Result<Interval, IntervalProblem> {
  const { tipDepth, toolOffset, exposedLength, ground } = driven;
  if (!tipDepth) return fail({ kind: 'no-tip-depth' });
  if (!exposedLength) return fail({ kind: 'no-exposed-length' });

  const depth = depthsOf(tipDepth, toolOffset, exposedLength);
  const problem = problemWith(driven, depth, exposedLength.value);
  if (problem) return fail(problem);

  const sounding = soundingOf(driven.soundedDepth ?? null, depth.base, soundingLimit);
  return ok({
    depth,
    elevation: ground ? ok(elevationsOf(ground, depth)) : fail({ kind: 'no-ground' }),
    sounding,
    uncertain: sounding !== null && exceeds(Math.abs(sounding.apart.value), sounding.limit),
    offsetAssumed: toolOffset === null,
  });
}

function depthsOf(tip: Given, offset: Given | null, exposed: Given): Three {
  const base = offset
    ? lengthWorked('Screen base below ground', 'base', 'tip - offset', tip.value - offset.value, [
        ['tip', 'tip depth', tip],
        ['offset', 'tip to screen base', offset],
      ])
    : lengthWorked(
        'Screen base below ground',
        'base',
        'tip',
        tip.value,
        [['tip', 'tip depth', tip]],
        'No tool offset is recorded: none is taken off.',
      );
  const terms = [
    ['base', 'screen base below ground', workedOut(base)],
    ['exposed', 'exposed screen', exposed],
  ] as const;
  const top = base.value - exposed.value;
  const mid = base.value - exposed.value / 2;
  return {
    base,
    top: lengthWorked('Top of the open screen below ground', 'top', 'base - exposed', top, terms),
    mid: lengthWorked('Middle of the open screen', 'mid', 'base - exposed / 2', mid, terms),
  };
}

const elevationsOf = (ground: Given, depth: Three): Three => {
  const above = (part: keyof Three, name: string) =>
    lengthWorked(
      `Elevation of the ${name}`,
      part,
      'ground - depth',
      ground.value - depth[part].value,
      [
        ['ground', 'ground elevation', ground],
        ['depth', `${name} below ground`, workedOut(depth[part])],
      ],
    );
  return {
    base: above('base', 'screen base'),
    top: above('top', 'top of the open screen'),
    mid: above('mid', 'middle of the open screen'),
  };
};

function problemWith(driven: Driven, depth: Three, exposed: Metres): IntervalProblem | null {
  const retraction = driven.retraction?.value ?? null;
  const screen = driven.screenLength?.value ?? null;
  if (!(exposed > 0)) return { kind: 'top-below-base', exposed };
  if (exceeds(0, depth.base.value)) return { kind: 'base-above-ground', depth: depth.base.value };
  if (exceeds(0, depth.top.value)) return { kind: 'screen-above-ground', depth: depth.top.value };
  if (retraction !== null && exceeds(exposed, retraction))
    return { kind: 'exposed-over-retraction', exposed, retraction };
  if (retraction !== null && screen !== null && exceeds(retraction, screen))
    return { kind: 'retraction-over-screen', retraction, screen };
  if (screen !== null && exceeds(exposed, screen))
    return { kind: 'exposed-over-screen', exposed, screen };
  return null;
}

function soundingOf(sounded: Given | null, base: Worked<Metres>, limit: Metres): Sounding | null {
  if (!sounded) return null;
  const apart = lengthWorked(
    'Sounded depth against screen base',
    'apart',
    'sounded - base',
    sounded.value - base.value,
    [
      ['sounded', 'depth sounded after retraction', sounded],
      ['base', 'screen base below ground', workedOut(base)],
    ],
  );
  return { apart, limit };
}
