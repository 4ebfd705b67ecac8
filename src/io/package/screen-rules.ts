import type { ExpectedWater, ScreenRules, TypedRule } from '../../domain/layout/set-screens';

type Json = Readonly<Record<string, unknown>>;

const isJson = (given: unknown): given is Json =>
  typeof given === 'object' && given !== null && !Array.isArray(given);

/** One of the words, else null. */
const oneOf = <Word extends string>(given: unknown, words: readonly Word[]): Word | null =>
  words.find((word) => word === given) ?? null;

/** A number, or null where there was none; undefined where it is something else. */
const amountOf = (given: unknown): number | null | undefined =>
  given === null || given === undefined || typeof given === 'number' ? (given ?? null) : undefined;

const KINDS = [
  'straddle',
  'below water',
  'elevation',
  'depth',
  'layer',
  'bottom of boring',
] as const;

function readRule(given: unknown): TypedRule | null {
  if (!isJson(given)) return null;
  const kind = oneOf(given.kind, KINDS);
  const part = oneOf(given.part, ['top', 'mid', 'base']);
  const at = oneOf(given.at, ['top', 'bottom']);
  const [exposed, amount] = [amountOf(given.exposed), amountOf(given.amount)];
  const { layer } = given;
  if (!kind || !part || !at || exposed === undefined || amount === undefined) return null;
  // A field left blank is kept as one.
  const blank = { exposed: exposed ?? NaN, amount: amount ?? NaN };
  return typeof layer === 'string' ? { kind, part, at, layer, ...blank } : null;
}

/** How screens are set, out of a descriptor; null where it is not such. */
export function readScreenRules(given: unknown): ScreenRules | null {
  if (!isJson(given) || !Array.isArray(given.rules) || given.rules.length === 0) return null;
  const rules = given.rules.map(readRule);
  const read = rules.filter((rule) => rule !== null);
  const [leastGap, toolOffset, boringDepth] = [
    amountOf(given.leastGap),
    amountOf(given.toolOffset),
    amountOf(given.boringDepth),
  ];
  if (read.length < rules.length || typeof leastGap !== 'number') return null;
  if (toolOffset === undefined || boringDepth === undefined) return null;
  return { rules: read, leastGap, toolOffset, boringDepth };
}

/** Where water is expected, out of a descriptor; null where it is not such. */
export function readExpectedWater(given: unknown): ExpectedWater | null {
  if (!isJson(given)) return null;
  const [depth, error] = [amountOf(given.depth), amountOf(given.error)];
  return depth === undefined || error === undefined || (error ?? 0) < 0 ? null : { depth, error };
}
