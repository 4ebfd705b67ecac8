/** The numbers of a text: "106°", "0.00428", "1,240 µg/L", "−0.4 ft". */
const NUMBERS = /[-−]?\d[\d,]*(?:\.\d+)?/g;

/**
 * A text part of the way from another, for numbers that change before people's
 * eyes: with the digits of the text it ends as, a direction by the shorter way
 * round. The last text itself where the two differ in more than their numbers.
 *
 * @param share  0 at the first text, 1 at the last
 */
export function rolled(from: string, to: string, share: number): string {
  if (share >= 1 || from === to) return to;
  const [words, wordsBefore] = [to.split(NUMBERS), from.split(NUMBERS)];
  if (words.length !== wordsBefore.length || words.some((word, i) => word !== wordsBefore[i]))
    return to;
  const before = from.match(NUMBERS) ?? [];
  let i = 0;
  return to.replace(NUMBERS, (last) => {
    const [ahead = '', behind = ''] = [words[i], words[i + 1]];
    const first = before[i++] ?? last;
    const isDirection = behind.startsWith('°') && !ahead.includes('±');
    return numberBetween(first, last, share, isDirection);
  });
}

function numberBetween(first: string, last: string, share: number, isDirection: boolean): string {
  if (first === last) return last;
  const [a, b] = [valueOf(first), valueOf(last)];
  const turn = isDirection ? ((b - a + 540) % 360) - 180 : b - a;
  const raw = a + turn * share;
  const value = isDirection ? (raw + 360) % 360 : raw;
  const decimals = last.split('.')[1]?.length ?? 0;
  // A bearing has three digits: "024°".
  const least = /^0\d/.test(last) || /^0\d/.test(first) ? Math.max(last.length, first.length) : 0;
  const digits = Math.abs(value).toFixed(decimals).padStart(least, '0');
  return value < 0 ? `−${digits}` : digits;
}

const valueOf = (text: string) => Number(text.replaceAll(',', '').replace('−', '-'));
