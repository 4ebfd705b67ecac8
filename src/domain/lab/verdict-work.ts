import type { Term, Work } from '../work';
import { amountTerm, decimalsFor, writtenOut } from './amount-work';
import type { Amount } from './concentration-units';
import type { Level } from './level';
import { limitOf } from './limit';
import { valueOf } from './reading';
import { ratioToLevel, type Judged } from './screening';
import { becauseOf, levelText, resultText } from './verdict-words';

/** Figures a ratio is shown to. */
const RATIO_FIGURES = 3;

/**
 * The comparison worked out: the reported number, put into the level's unit
 * where the two differ, over the level. Null where nothing was compared.
 * Numbers are in the units named beside them.
 */
export function verdictWork(judged: Judged): Work | null {
  const { reading, match } = judged;
  const ratio = ratioToLevel(judged);
  const { level } = match;
  const compared =
    reading.state === 'not detected' ? level && limitOf(reading, level.decides) : valueOf(reading);
  if (ratio === null || level === null || level.value === null || !compared) return null;

  const symbol = reading.state === 'not detected' ? 'limit' : 'result';
  const into = { unit: level.value.unit, text: level.input.unit.trim() };
  return {
    title: `${reading.result.analyte} in ${reading.result.sample}: ${resultText(reading, compared)} against ${levelText(level)}`,
    symbol: 'ratio',
    formula: `${symbol} / level`,
    terms: [amountTerm(symbol, reading, compared, into), levelTerm(level, level.value)],
    answer: { value: ratio.value, dimension: 'number' },
    decimals: decimalsFor(ratio.value, RATIO_FIGURES),
    note: becauseOf(judged),
  };
}

function levelTerm(level: Level, { text }: Amount): Term {
  const { row, section, source } = level.input;
  const cited = [source, section].filter(Boolean).join(', ') || 'as given';
  return {
    symbol: 'level',
    name: `${level.input.analyte}, ${level.input.set}, ${level.input.unit.trim()}`,
    value: Number(text),
    dimension: 'number',
    text: writtenOut(text),
    from:
      row === undefined
        ? { kind: 'citation', text: cited }
        : { kind: 'cell', table: 'screening_levels', row, column: 'value' },
  };
}
