import type { Term, Work } from '../work';
import { amountTerm, decimalsFor, type NamedUnit } from './amount-work';
import { unitOf } from './concentration-units';
import { limitOf } from './limit';
import { valueOf, type Reading } from './reading';
import type { Sum } from './sums';

const FIGURES = 4;

/** Symbols of the terms, in the order they are added. */
const SYMBOLS = 'abcdefghij';

/**
 * A sum worked out, at its least or at its most. Non-detects stand in it as the
 * rule chosen for them says, each with its limit. Null where nothing is added,
 * or nothing bounds the most.
 */
export function sumWork(sum: Sum, end: 'least' | 'most'): Work | null {
  const value = end === 'least' ? sum.low : sum.high;
  const unit = workedIn(sum);
  if (value === null || unit === null) return null;
  const terms: Term[] = [];
  const added: string[] = [];
  sum.parts.forEach(({ name, readings }, i) => {
    for (const reading of readings) {
      const share = shareOf(reading, sum, end);
      const amount = limitOf(reading, sum.level?.decides ?? 'reporting limit') ?? valueOf(reading);
      const symbol = SYMBOLS[terms.length];
      if (share === null || amount === null || symbol === undefined) continue;
      terms.push(amountTerm(symbol, reading, amount, unit, name));
      const divisor = sum.rule.parts[i]?.divisor;
      added.push(`${symbol}${share}${divisor === undefined ? '' : ` / ${divisor}`}`);
    }
  });
  if (terms.length === 0) return null;
  return {
    title: `${sum.rule.name}, at ${end}${sum.unit ? `, ${sum.unit.text}` : ''}`,
    symbol: 'sum',
    formula: added.join(' + '),
    terms,
    answer: { value, dimension: 'number' },
    decimals: decimalsFor(value, FIGURES),
    note: `${sum.rule.source}. Non-detects: ${RULE_WORDS[sum.nonDetects]}. ${sum.why}`,
  };
}

const RULE_WORDS: Readonly<Record<Sum['nonDetects'], string>> = {
  range: 'nothing at least, the limit at most',
  zero: 'taken as nothing',
  'half the limit': 'taken as half the limit',
  'the limit': 'taken at the limit',
};

/** An index is worked in the unit of its divisors. */
function workedIn({ rule, unit }: Sum): NamedUnit | null {
  if (rule.index === null) return unit;
  const own = unitOf(rule.index.unit);
  return own && { unit: own, text: rule.index.unit };
}

/** What follows the term in the formula; null where it adds nothing. */
function shareOf({ state }: Reading, { nonDetects }: Sum, end: 'least' | 'most'): string | null {
  if (state !== 'not detected') return '';
  if (nonDetects === 'zero' || (nonDetects === 'range' && end === 'least')) return null;
  return nonDetects === 'half the limit' ? ' / 2' : '';
}
