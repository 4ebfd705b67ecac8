import { fail, ok, type Result } from '../result';
import { metres, type Metres } from '../units';
import type { Worked } from '../work';
import { lengthWorked, workedOut, type Given } from './given';
import { intervalOf, type Interval, type IntervalProblem } from './interval';
import {
  contactsCrossed,
  waterIn,
  type Contact,
  type Layer,
  type NoWetness,
  type WaterInScreen,
} from './water-in-screen';

/** Where a screen is to be set. Every rule says how much screen is exposed. */
export type SettingRule = { readonly exposed: Given } & (
  | { readonly kind: 'straddle'; readonly above: Given } // top so far above the water
  | { readonly kind: 'below water'; readonly below: Given } // top so far below the water
  | {
      readonly kind: 'elevation';
      readonly part: 'top' | 'mid' | 'base';
      readonly elevation: Given;
    }
  | { readonly kind: 'depth'; readonly part: 'top' | 'mid' | 'base'; readonly depth: Given } // below ground
  | { readonly kind: 'layer'; readonly at: 'top' | 'bottom'; readonly layer: Layer | null }
  | { readonly kind: 'bottom of boring' } // tip at the bottom
);

/** What is known of the ground at a point; null is not known. */
export type Ground = {
  readonly ground: Given | null;
  /** Expected elevation of the water. */
  readonly water: Given | null;
  /** Its depth below ground, for where no elevation of it is expected. */
  readonly waterDepth?: Given | null;
  /** How deep the boring goes, or is meant to. */
  readonly boringDepth: Given | null;
  readonly toolOffset: Given | null;
  /** From the top down; none where nothing was logged. */
  readonly layers: readonly Layer[];
};

/** A screen as planned: drive the tip to here, then draw the rods back by the exposed length. */
export type Setting = {
  readonly rule: SettingRule;
  readonly tipDepth: Worked<Metres>;
  readonly interval: Interval;
  readonly water: Result<WaterInScreen, NoWetness>;
  readonly crosses: readonly Contact[];
};

export type SettingProblem =
  | { readonly kind: 'no-ground' | 'no-water' | 'no-layer' | 'no-boring-depth' }
  | { readonly kind: 'does-not-straddle'; readonly above: Metres; readonly exposed: Metres }
  | IntervalProblem;

/** A screen set by a rule; a reason where it cannot be. */
export function setScreen(rule: SettingRule, at: Ground): Result<Setting, SettingProblem> {
  const tip = tipBy(rule, at);
  if (!tip.ok) return tip;
  const interval = intervalOf({
    tipDepth: workedOut(tip.value),
    toolOffset: at.toolOffset,
    exposedLength: rule.exposed,
    ground: at.ground,
  });
  if (!interval.ok) return interval;
  return ok({
    rule,
    tipDepth: tip.value,
    interval: interval.value,
    water: waterIn(interval.value, at.water, at.waterDepth),
    crosses: contactsCrossed(interval.value, at.layers),
  });
}

function tipBy(rule: SettingRule, at: Ground): Result<Worked<Metres>, SettingProblem> {
  const { exposed } = rule;
  switch (rule.kind) {
    case 'straddle': {
      const { above } = rule;
      if (!(above.value > 0 && above.value < exposed.value))
        return fail({ kind: 'does-not-straddle', above: above.value, exposed: exposed.value });
      return tipFromWater(at, exposed, 'above', above);
    }
    case 'below water': {
      const { below } = rule;
      return tipFromWater(at, exposed, 'below', below);
    }
    case 'depth':
      return ok(
        tipAtPart(at, rule, 'depth', rule.depth.value, [
          ['depth', `${rule.part} of the screen below ground`, rule.depth],
        ]),
      );
    case 'elevation':
      return at.ground
        ? ok(
            tipAtPart(at, rule, 'ground - elevation', at.ground.value - rule.elevation.value, [
              ['ground', 'ground elevation', at.ground],
              ['elevation', `elevation of the ${rule.part} of the screen`, rule.elevation],
            ]),
          )
        : fail({ kind: 'no-ground' });
    case 'layer': {
      const { layer } = rule;
      if (!layer) return fail({ kind: 'no-layer' });
      return ok(
        rule.at === 'top'
          ? tipOf(at, 'layertop + exposed', layer.top.value + exposed.value, [
              ['layertop', `top of the ${layer.name}`, layer.top],
              ['exposed', 'exposed screen', exposed],
            ])
          : tipOf(at, 'layerbase', layer.bottom.value, [
              ['layerbase', `bottom of the ${layer.name}`, layer.bottom],
            ]),
      );
    }
    case 'bottom of boring':
      return at.boringDepth
        ? ok(
            lengthWorked('Drive the tip to', 'tip', 'boring', at.boringDepth.value, [
              ['boring', 'depth of the boring', at.boringDepth],
            ]),
          )
        : fail({ kind: 'no-boring-depth' });
  }
}

type Terms = readonly (readonly [symbol: string, name: string, given: Given])[];

/** Tip for a screen whose top is so far above or below the water: by elevations, else by the water's depth. */
function tipFromWater(
  at: Ground,
  exposed: Given,
  side: 'above' | 'below',
  by: Given,
): Result<Worked<Metres>, SettingProblem> {
  const { ground, water, waterDepth } = at;
  const isAbove = side === 'above';
  const up: number = (isAbove ? 1 : -1) * by.value;
  const terms: Terms = [
    [side, `top of the screen ${side} the water`, by],
    ['exposed', 'exposed screen', exposed],
  ];
  if (ground && water)
    return ok(
      tipOf(
        at,
        `ground - (water ${isAbove ? '+' : '-'} ${side}) + exposed`,
        ground.value - (water.value + up) + exposed.value,
        [
          ['ground', 'ground elevation', ground],
          ['water', 'expected elevation of the water', water],
          ...terms,
        ],
      ),
    );
  if (waterDepth)
    return ok(
      tipOf(
        at,
        `water ${isAbove ? '-' : '+'} ${side} + exposed`,
        waterDepth.value - up + exposed.value,
        [['water', 'water expected below ground', waterDepth], ...terms],
      ),
    );
  return fail({ kind: ground ? 'no-water' : 'no-ground' });
}

/** Tip for a screen with its top, middle or base at a depth that a formula gives. */
function tipAtPart(
  at: Ground,
  { part, exposed }: Extract<SettingRule, { kind: 'elevation' | 'depth' }>,
  formula: string,
  depth: number,
  terms: Terms,
): Worked<Metres> {
  const open = ['exposed', 'exposed screen', exposed] as const;
  if (part === 'base') return tipOf(at, formula, depth, terms);
  return part === 'top'
    ? tipOf(at, `${formula} + exposed`, depth + exposed.value, [...terms, open])
    : tipOf(at, `${formula} + exposed / 2`, depth + exposed.value / 2, [...terms, open]);
}

/** The tip below a screen base at some depth: the tool offset is added where there is one. */
function tipOf(
  { toolOffset }: Ground,
  formula: string,
  base: number,
  terms: Terms,
): Worked<Metres> {
  return toolOffset
    ? lengthWorked('Drive the tip to', 'tip', `${formula} + offset`, base + toolOffset.value, [
        ...terms,
        ['offset', 'tip to screen base', toolOffset],
      ])
    : lengthWorked('Drive the tip to', 'tip', formula, base, terms);
}

/** Two screens at one point nearer than they may be: ground between them, negative where they overlap. */
export type GapProblem = {
  readonly kind: 'gap';
  /** Places of the upper and lower screen in the list of rules. */
  readonly upper: number;
  readonly lower: number;
  readonly gap: Metres;
  readonly least: Metres;
};

/**
 * Several screens at one point, each by its rule, and where two are nearer than
 * the least gap between them. A rule that cannot be kept leaves the others as
 * they are.
 *
 * @returns settings in the order of the rules
 */
export function setScreens(
  rules: readonly SettingRule[],
  at: Ground,
  leastGap: Metres,
): {
  readonly settings: readonly Result<Setting, SettingProblem>[];
  readonly gaps: readonly GapProblem[];
} {
  const settings = rules.map((rule) => setScreen(rule, at));
  const set = settings
    .flatMap((setting, i) => (setting.ok ? [{ i, depth: setting.value.interval.depth }] : []))
    .sort((a, b) => a.depth.base.value - b.depth.base.value);
  const gaps = set.slice(1).flatMap((lower, k): GapProblem[] => {
    const upper = set[k];
    if (!upper) return [];
    const gap = metres(lower.depth.top.value - upper.depth.base.value);
    return gap < leastGap - 1e-6
      ? [{ kind: 'gap', upper: upper.i, lower: lower.i, gap, least: leastGap }]
      : [];
  });
  return { settings, gaps };
}
