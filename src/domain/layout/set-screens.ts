import { length, usualDecimals } from '../show';
import type { Edit } from '../site/edits/apply';
import type { Screen } from '../site/schema';
import type { Site } from '../site/site';
import { inUnits, metres, type LengthUnit, type Metres } from '../units';
import type { GroundAt, PlannedPoint } from './field-plan';
import { chosen, type Given } from './given';
import { setScreens, type SettingRule } from './setting-rules';

/** A rule as typed; numbers in the site's vertical unit. */
export type TypedRule = {
  readonly kind: SettingRule['kind'];
  readonly exposed: number;
  /** Of the top above or below the water; the elevation or the depth below ground of the part. */
  readonly amount: number;
  readonly part: 'top' | 'mid' | 'base';
  readonly at: 'top' | 'bottom';
  /** The layer's name as logged. */
  readonly layer: string;
};

/** The rule for one point: a layer is the first of that name met there. */
function ruleAt(typed: TypedRule, point: GroundAt, unit: LengthUnit): SettingRule {
  const exposed = chosen(typed.exposed, unit, 'exposed screen');
  const amount = (name: string) => chosen(typed.amount, unit, name);
  switch (typed.kind) {
    case 'straddle':
      return { kind: 'straddle', exposed, above: amount('top of the screen above the water') };
    case 'below water':
      return { kind: 'below water', exposed, below: amount('top of the screen below the water') };
    case 'elevation':
      return { kind: 'elevation', exposed, part: typed.part, elevation: amount('elevation asked') };
    case 'depth':
      return { kind: 'depth', exposed, part: typed.part, depth: amount('depth asked') };
    case 'layer': {
      const layer = point.layers.find(({ name }) => name === typed.layer) ?? null;
      return { kind: 'layer', exposed, at: typed.at, layer };
    }
    case 'bottom of boring':
      return { kind: 'bottom of boring', exposed };
  }
}

/** Why a rule as typed can set no screen wherever it is asked, in words; null where it may. */
export function ruleProblem({ kind, exposed, amount }: TypedRule, unit: LengthUnit): string | null {
  const says = (value: number) => length(metres(value, unit), unit);
  if (!(exposed > 0)) return 'The exposed length must be a number above zero.';
  if (kind === 'layer' || kind === 'bottom of boring') return null;
  if (!Number.isFinite(amount))
    return kind === 'elevation'
      ? 'Give the elevation.'
      : kind === 'depth'
        ? 'Give the depth.'
        : 'Give how far from the water.';
  if (kind !== 'straddle') return null;
  if (!(amount > 0)) return 'The top must stand above the water to straddle it.';
  return amount < exposed
    ? null
    : `A top ${says(amount)} above the water leaves nothing of ${says(exposed)} below it.`;
}

/** What a point's screens would be, and how far that is from what is written. */
export type SetPoint = {
  readonly point: PlannedPoint;
  readonly made: ReturnType<typeof setScreens>;
  /** The screen written for each rule: by depth, those the rules give first. Null where none is. */
  readonly written: readonly (Screen | null)[];
  /** Screens written beyond those of the rules. */
  readonly others: readonly Screen[];
  /** New tip depth less the one written, by rule; null where none is written or none can be set. */
  readonly moves: readonly (Metres | null)[];
};

/** How screens are set, kept with the site; numbers as typed, in its vertical unit. */
export type ScreenRules = {
  readonly rules: readonly TypedRule[];
  readonly leastGap: number;
  /** Tip to screen base. */
  readonly toolOffset: number | null;
  readonly boringDepth: number | null;
};

/** Where water is expected on the whole site, as typed in its vertical unit; null not given. */
export type ExpectedWater = {
  /** Below ground. */
  readonly depth: number | null;
  /** So much more or less. */
  readonly error: number | null;
};

/** Less than this is how a depth was rounded. */
const ROUNDING = metres(0.006, 'ft');

/** Whether a tip moves by more than its rounding. */
export const isMove = (move: Metres | null): move is Metres =>
  move !== null && Math.abs(move) > ROUNDING;

/** What holds for the screens of every point. */
export type CommonToAll = {
  readonly toolOffset: Given | null;
  readonly boringDepth: Given | null;
  readonly leastGap: Metres;
  readonly unit: LengthUnit;
};

/** Screens at one place by the rules. */
const setAt = (
  point: GroundAt,
  rules: readonly TypedRule[],
  { toolOffset, boringDepth, leastGap, unit }: CommonToAll,
) =>
  setScreens(
    rules.map((rule) => ruleAt(rule, point, unit)),
    {
      ground: point.ground.ok ? point.ground.value.elevation : null,
      water: point.water.ok ? point.water.value : null,
      waterDepth: point.waterDepth,
      boringDepth,
      toolOffset,
      layers: point.layers,
    },
    leastGap,
  );

/** How deep each place would be pushed: to its deepest screen by the rules; null where none can be set. */
export const depthsBy = (
  places: readonly GroundAt[],
  rules: readonly TypedRule[],
  common: CommonToAll,
): (Metres | null)[] =>
  places.map((place) =>
    setAt(place, rules, common).settings.reduce<Metres | null>(
      (deepest, setting) =>
        setting.ok && setting.value.tipDepth.value > (deepest ?? -Infinity)
          ? setting.value.tipDepth.value
          : deepest,
      null,
    ),
  );

/** Screens at every planned point by the rules. */
export function setAll(
  points: readonly PlannedPoint[],
  rules: readonly TypedRule[],
  common: CommonToAll,
): SetPoint[] {
  return points.map((point) => {
    const made = setAt(point, rules, common);
    const tip = (i: number) => {
      const setting = made.settings[i];
      return setting?.ok ? setting.value.tipDepth.value : null;
    };
    const places = made.settings.map((_, i) => i);
    const byDepth = places.toSorted((a, b) => (tip(a) ?? Infinity) - (tip(b) ?? Infinity));
    const written = places.map((i) => point.screens[byDepth.indexOf(i)] ?? null);
    const moves = places.map((i) => {
      const [after, before] = [tip(i), written[i]?.planned_tip_depth ?? null];
      return after === null || before === null ? null : metres(after - before.value);
    });
    return { point, made, written, others: point.screens.slice(places.length), moves };
  });
}

/** Whether a point's screens would be other than they are written: another tip, length or offset, more or fewer. */
export function isChanged(
  { made, written, others, moves }: SetPoint,
  toolOffset: Given | null,
): boolean {
  if (!made.settings.some(({ ok }) => ok)) return false;
  const differ = (a: Metres | undefined, b: Metres | undefined) =>
    Math.abs((a ?? 0) - (b ?? 0)) > ROUNDING;
  return (
    others.length > 0 ||
    made.settings.some((setting, i) => {
      const before = written[i] ?? null;
      if (!setting.ok || before === null) return setting.ok !== (before !== null);
      return (
        isMove(moves[i] ?? null) ||
        differ(setting.value.rule.exposed.value, before.planned_exposed_length?.value) ||
        differ(toolOffset?.value, before.tool_offset?.value)
      );
    })
  );
}

/**
 * Planned screens written for every point where a rule can be kept, in place of
 * those planned there before; one step. Screens driven, gauged or sampled are
 * left alone, and so is a point whose rules cannot be kept.
 *
 * @returns null where nothing can be set
 */
export function setScreensEdit(
  set: readonly SetPoint[],
  site: Site,
  unit: LengthUnit,
  toolOffset: number | null,
): Edit | null {
  const used = new Set([
    ...[...site.measuringPoints.values()].map(({ screen }) => screen),
    ...site.waterLevels.map(({ screen }) => screen),
    ...[...site.samples.values()].flatMap(({ screen }) => (screen === null ? [] : [screen])),
  ]);
  const depth = (of: Metres) => inUnits(of, unit).toFixed(usualDecimals(unit));
  const taken = new Set(site.screens.keys());
  const gone: number[] = [];
  const rows = set.flatMap(({ point, made }) => {
    const settings = made.settings.flatMap((setting) => (setting.ok ? [setting.value] : []));
    if (settings.length === 0) return [];
    for (const screen of point.screens) {
      if (used.has(screen.id)) continue;
      gone.push(screen.row - 2);
      taken.delete(screen.id);
    }
    return settings
      .toSorted((a, b) => a.tipDepth.value - b.tipDepth.value)
      .map(({ tipDepth, rule }) => {
        let n = 1;
        while (taken.has(`${point.location.id}-${n}`)) n++;
        const id = `${point.location.id}-${n}`;
        taken.add(id);
        return {
          id,
          location: point.location.id,
          tool_offset: toolOffset === null ? '' : String(toolOffset),
          planned_tip_depth: depth(tipDepth.value),
          planned_exposed_length: depth(rule.exposed.value),
          note: `Set by rule: ${rule.kind}`,
        };
      });
  });
  if (rows.length === 0) return null;
  const add: Edit = { kind: 'add-rows', table: 'screens', rows };
  if (gone.length === 0) return add;
  return {
    kind: 'together',
    edits: [{ kind: 'remove-rows', table: 'screens', rows: gone }, add],
  };
}

/** A move in words: "0.35 ft deeper". */
export const moveWords = (move: Metres, unit: LengthUnit): string =>
  `${length(metres(Math.abs(move)), unit)} ${move > 0 ? 'deeper' : 'shallower'}`;
