import { fail, ok, type Result } from '../result';
import { metres, type Metres } from '../units';
import { worked } from '../site/cite';
import type { Source, Work, Worked } from '../work';

/** One screen of a nest: its interval and its water level, above the site's datum. */
export type NestScreen = {
  readonly id: string;
  readonly top: Worked<Metres>;
  readonly base: Worked<Metres>;
  readonly head: Worked<Metres>;
  /** One standard error of the head, above 0. */
  readonly sigma: Metres;
};

/** Which way the water presses, said in words on the page. */
export type VerticalWay = 'down' | 'up' | 'cannot be told at this precision';

export type VerticalGradient = {
  readonly shallow: NestScreen;
  readonly deep: NestScreen;
  /** Fall in head per metre of depth: positive downward, no unit. */
  readonly gradient: Worked<number>;
  /** One standard error of the gradient. */
  readonly sigma: Worked<number>;
  /** Down or up where the gradient is beyond 1.96 sigma (95 %). */
  readonly way: VerticalWay;
  /** The screens share some depth, so that the distance between them is a poor number. */
  readonly overlap: boolean;
  /** Screens the water stands in: their middle is that of the wetted part. */
  readonly straddling: readonly string[];
};

export type VerticalProblem =
  /** The water is at or below the base of the screen. */
  | { readonly kind: 'dry-screen'; readonly ids: readonly string[] }
  | { readonly kind: 'no-error-stated'; readonly ids: readonly string[] }
  | { readonly kind: 'screen-upside-down'; readonly ids: readonly string[] }
  /** The middles of the screens are at one depth. */
  | { readonly kind: 'same-depth'; readonly ids: readonly string[] };

/** Two-sided 95 % point of the standard normal distribution. */
const Z95 = 1.959964;

/** Middles closer than this have no distance between them to divide by. */
const LEAST_DISTANCE = metres(0.01);

const NOTE =
  'Positive downward. Distance between the middles of the screens; where the water stands in a screen, the middle of its wetted part. The direction of flow between the screens also depends on what lies between them.';

/**
 * Vertical gradient between two screens of a nest,
 * i = (h_shallow − h_deep) / (z_shallow − z_deep), positive downward, z being the
 * middles of the screens; where the water table is inside a screen, the middle
 * between the water and the base of the screen. Its standard error is
 * √(σ_shallow² + σ_deep²) over the distance. (Common practice.)
 *
 * @param one    either screen of the pair: the one whose middle is higher is the shallow one
 * @param other  the other
 */
export function verticalGradient(
  one: NestScreen,
  other: NestScreen,
): Result<VerticalGradient, VerticalProblem> {
  const pair = [one, other];
  const breaking = (breaks: (screen: NestScreen) => boolean) =>
    pair.filter(breaks).map(({ id }) => id);
  const upsideDown = breaking(({ top, base }) => !(top.value > base.value));
  if (upsideDown.length > 0) return fail({ kind: 'screen-upside-down', ids: upsideDown });
  const dry = breaking(({ head, base }) => !(head.value > base.value));
  if (dry.length > 0) return fail({ kind: 'dry-screen', ids: dry });
  const unstated = breaking(({ sigma }) => !(sigma > 0));
  if (unstated.length > 0) return fail({ kind: 'no-error-stated', ids: unstated });

  const [a, b] = [middleOf(one), middleOf(other)];
  if (Math.abs(a.value - b.value) < LEAST_DISTANCE)
    return fail({ kind: 'same-depth', ids: pair.map(({ id }) => id) });
  const [shallow, deep, z1, z2] =
    a.value > b.value ? ([one, other, a, b] as const) : ([other, one, b, a] as const);

  const gradient = gradientOf(shallow, deep, z1, z2);
  const sigma = sigmaOf(shallow, deep, z1, z2);
  const told = Math.abs(gradient.value) > Z95 * sigma.value;
  return ok({
    shallow,
    deep,
    gradient,
    sigma,
    way: !told ? 'cannot be told at this precision' : gradient.value > 0 ? 'down' : 'up',
    overlap: deep.top.value > shallow.base.value,
    straddling: pair.filter(isStraddling).map(({ id }) => id),
  });
}

const isStraddling = ({ head, top }: NestScreen) => head.value < top.value;

/** Elevation of the middle of the part of a screen that water can come through. */
function middleOf(screen: NestScreen): Worked<Metres> {
  const straddling = isStraddling(screen);
  const upper = straddling ? screen.head : screen.top;
  const value = metres((upper.value + screen.base.value) / 2);
  return {
    value,
    work: {
      title: `Middle of ${screen.id}`,
      symbol: 'z',
      formula: straddling ? '(head + base) / 2' : '(top + base) / 2',
      terms: [
        straddling
          ? worked('head', 'water level, which stands in the screen', upper)
          : worked('top', 'top of the screen', upper),
        worked('base', 'base of the screen', screen.base),
      ],
      answer: { value, dimension: 'length' },
      decimals: Math.max(upper.work.decimals, screen.base.work.decimals),
    },
  };
}

function gradientOf(
  shallow: NestScreen,
  deep: NestScreen,
  z1: Worked<Metres>,
  z2: Worked<Metres>,
): Worked<number> {
  const value = (shallow.head.value - deep.head.value) / (z1.value - z2.value);
  const work: Work = {
    title: `Vertical gradient, ${shallow.id} to ${deep.id}`,
    symbol: 'i_v',
    formula: '(h1 - h2) / (z1 - z2)',
    terms: [
      worked('h1', `head in ${shallow.id}, the shallow screen`, shallow.head),
      worked('h2', `head in ${deep.id}, the deep screen`, deep.head),
      worked('z1', `middle of ${shallow.id}`, z1),
      worked('z2', `middle of ${deep.id}`, z2),
    ],
    answer: { value, dimension: 'slope' },
    decimals: 4,
    note: NOTE,
  };
  return { value, work };
}

function sigmaOf(
  shallow: NestScreen,
  deep: NestScreen,
  z1: Worked<Metres>,
  z2: Worked<Metres>,
): Worked<number> {
  const value = Math.hypot(shallow.sigma, deep.sigma) / (z1.value - z2.value);
  const from: Source = { kind: 'setting', name: 'error of a head' };
  const error = (symbol: string, { id, sigma }: NestScreen) =>
    ({
      symbol,
      name: `error of the head in ${id}`,
      value: sigma,
      dimension: 'length',
      from,
    }) as const;
  return {
    value,
    work: {
      title: `Error of the vertical gradient, ${shallow.id} to ${deep.id}`,
      symbol: 'σ',
      formula: 'sqrt(σ1^2 + σ2^2) / (z1 - z2)',
      terms: [
        error('σ1', shallow),
        error('σ2', deep),
        worked('z1', `middle of ${shallow.id}`, z1),
        worked('z2', `middle of ${deep.id}`, z2),
      ],
      answer: { value, dimension: 'slope' },
      decimals: 5,
    },
  };
}

/**
 * A nest from shallow to deep, each screen with the next: the pairs whose
 * gradients tell how the water presses through the layers in turn.
 */
export function nestPairs(screens: readonly NestScreen[]): (readonly [NestScreen, NestScreen])[] {
  const middle = ({ top, base }: NestScreen) => top.value + base.value;
  const sorted = [...screens].sort((a, b) => middle(b) - middle(a));
  return sorted.slice(1).map((deep, i) => [sorted[i] ?? deep, deep] as const);
}

/** A density of water, kg/m³ or relative, and where it came from. */
export type Density = { readonly value: number; readonly text?: string; readonly from: Source };

/**
 * The head that fresh water would stand at over a screen in saltier water: heads
 * in waters of different density cannot be compared as they are read.
 * h_f = (ρ/ρ_f)·h − ((ρ − ρ_f)/ρ_f)·z, z the middle of the screen. (N. J.
 * Lusczynski, 1961, Head and flow of ground water of variable density, J.
 * Geophys. Res. 66(12), 4247-4256; value from memory.)
 *
 * Null where a density is not above zero.
 */
export function equivalentFreshwaterHead(
  head: Worked<Metres>,
  middle: Worked<Metres>,
  density: Density,
  fresh: Density,
): Worked<Metres> | null {
  if (!(density.value > 0 && fresh.value > 0)) return null;
  const value = metres(
    (density.value / fresh.value) * head.value -
      ((density.value - fresh.value) / fresh.value) * middle.value,
  );
  return {
    value,
    work: {
      title: 'Equivalent freshwater head',
      symbol: 'h_f',
      formula: '(ρ / ρ_f) * h - ((ρ - ρ_f) / ρ_f) * z',
      terms: [
        { symbol: 'ρ', name: 'density of the water', dimension: 'number', ...density },
        { symbol: 'ρ_f', name: 'density of fresh water', dimension: 'number', ...fresh },
        worked('h', 'head as read', head),
        worked('z', 'elevation of the middle of the screen', middle),
      ],
      answer: { value, dimension: 'length' },
      decimals: head.work.decimals,
      note: 'Heads in waters of different density compare only as fresh water (Lusczynski, 1961).',
    },
  };
}
