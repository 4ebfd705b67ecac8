import { fixed, significant } from '../show';
import { toGround } from '../grid';
import type { Result } from '../result';
import type { Site } from '../site/site';
import { metres, type Metres } from '../units';
import type { GaugedScreen } from './event-heads';
import { intervalOf } from './screen-interval';
import {
  nestPairs,
  verticalGradient,
  type NestScreen,
  type VerticalGradient,
  type VerticalProblem,
} from './vertical';

/** Wells this near each other are read as a nest. Common practice, no source. */
export const NEST = metres(5);

/** Screens at one place, read in one event. */
export type Nest = {
  /** Its locations, in the order of the readings. */
  readonly locations: readonly string[];
  /** From shallow to deep, each screen with the next. */
  readonly pairs: readonly Result<VerticalGradient, VerticalProblem>[];
  /** Screens read here whose interval or elevation is not known. */
  readonly withoutInterval: readonly string[];
};

/**
 * Nests among the wells of an event, across zones: what presses the water up or
 * down. Levels of temporary push points count only where somebody included them.
 */
export function nestsOf(site: Site, heads: readonly GaugedScreen[]): Nest[] {
  const read = heads.filter(
    ({ head, leftOut }) =>
      head && (leftOut === null || leftOut === 'no-zone' || leftOut === 'depths-apart'),
  );
  return placesTogether(site, read, NEST)
    .filter((group) => group.length > 1)
    .map((group) => {
      const screens = group.map((one) => ({ one, screen: nestScreen(one) }));
      return {
        locations: [...new Set(group.map(({ location }) => location.id))],
        pairs: nestPairs(screens.flatMap(({ screen }) => screen ?? [])).map(([a, b]) =>
          verticalGradient(a, b),
        ),
        withoutInterval: screens.flatMap(({ one, screen }) => (screen ? [] : [one.screen.id])),
      };
    });
}

/** Screens at one location, or so near the first of their group on the ground, together; in the order of the readings. */
export function placesTogether(
  site: Site,
  screens: readonly GaugedScreen[],
  within: Metres,
): GaugedScreen[][] {
  const groups: GaugedScreen[][] = [];
  const near = nearby(within);
  for (const one of screens) {
    const found = near
      .of(one)
      .toSorted((a, b) => a - b)
      .find((at) => groups[at]?.[0] && isNear(site, groups[at][0], one, within));
    if (found !== undefined) groups[found]?.push(one);
    else {
      near.add(one, groups.length);
      groups.push([one]);
    }
  }
  return groups;
}

/**
 * Which groups may be near a screen: those of its location, and those that begin
 * in its square of the grid or one beside it. Of hundreds of wells few are.
 */
function nearby(within: Metres) {
  const groups = new Map<string | number, number[]>();
  const keep = (key: string | number, group: number) => {
    const before = groups.get(key);
    if (before) before.push(group);
    else groups.set(key, [group]);
  };
  /** Squares that share a number only make more to look at. */
  const square = (e: number, n: number) => e * 2 ** 26 + n;
  // Twice the distance: wider than it is on the ground, whatever the grid's scale.
  const across = (along: Metres) => Math.floor(along / (2 * within));
  const place = ({ location: { easting, northing } }: GaugedScreen) =>
    easting && northing ? ([across(easting.value), across(northing.value)] as const) : null;
  return {
    add: (one: GaugedScreen, group: number) => {
      keep(one.location.id, group);
      const at = place(one);
      if (at) keep(square(...at), group);
    },
    of: (one: GaugedScreen): number[] => {
      const found = [...(groups.get(one.location.id) ?? [])];
      const at = place(one);
      if (at)
        for (const e of [-1, 0, 1])
          for (const n of [-1, 0, 1])
            found.push(...(groups.get(square(at[0] + e, at[1] + n)) ?? []));
      return found;
    },
  };
}

function isNear(
  site: Site,
  { location: one }: GaugedScreen,
  { location: other }: GaugedScreen,
  within: Metres,
) {
  if (one.id === other.id) return true;
  if (!one.easting || !one.northing || !other.easting || !other.northing) return false;
  const apart = Math.hypot(
    one.easting.value - other.easting.value,
    one.northing.value - other.northing.value,
  );
  return toGround(metres(apart), site.grid) <= within;
}

function nestScreen({ screen, location, head, sigma }: GaugedScreen): NestScreen | null {
  const interval = intervalOf(screen, location);
  if (!interval.ok || !head) return null;
  const { topElevation: top, baseElevation: base } = interval.value;
  return top && base ? { id: screen.id, top, base, head, sigma } : null;
}

/** Which way, in a sentence that does not need the sign. */
export function verticalWords({
  way,
  shallow,
  deep,
  overlap,
  straddling,
}: VerticalGradient): string {
  const said =
    way === 'down'
      ? `Downward, from ${shallow.id} to ${deep.id}.`
      : way === 'up'
        ? `Upward, from ${deep.id} to ${shallow.id}.`
        : 'Up or down cannot be told at this precision.';
  const wet =
    straddling.length > 0
      ? ` The water stands in the screen of ${straddling.join(' and ')}: the middle of its wetted part is taken.`
      : '';
  const same = overlap
    ? ' The screens share some depth, and the distance between them is a poor number.'
    : '';
  return said + wet + same;
}

/** Why a pair has no gradient, in a sentence. */
export function verticalProblemWords({ kind, ids }: VerticalProblem): string {
  const names = ids.join(' and ');
  switch (kind) {
    case 'dry-screen':
      return `${names}: the water is at or below the base of the screen.`;
    case 'no-error-stated':
      return `${names}: no error is stated for the head.`;
    case 'screen-upside-down':
      return `${names}: the top of the screen is not above its base.`;
    case 'same-depth':
      return `${names}: the middles of the screens are at one depth.`;
  }
}

/** "0.0191 ± 0.0014": twice the standard error, to its first two figures. */
export function verticalText({ gradient, sigma }: VerticalGradient): string {
  const decimals = Math.min(6, Math.max(2, 1 - Math.floor(Math.log10(1.96 * sigma.value))));
  return `${fixed(gradient.value, decimals)} ± ${significant(1.96 * sigma.value, 2)}`;
}
