/** The first number of a text: "106°", "0.00428", "1,240 µg/L", "−0.4 ft". */
const NUMBER = /[-−]?\d[\d,]*(?:\.\d+)?/;

/**
 * A number part of the way from one text to another, for a number that changes
 * before people's eyes: with the digits of the text it ends as, a direction by
 * the shorter way round. The last text itself where there is no such way.
 *
 * @param share  0 at the first text, 1 at the last
 */
export function rolled(from: string, to: string, share: number): string {
  const [first, last] = [NUMBER.exec(from)?.[0], NUMBER.exec(to)?.[0]];
  if (share >= 1 || from === to || first === undefined || last === undefined) return to;
  const unitOf = (text: string, number: string) => text.replace(number, '');
  if (unitOf(from, first) !== unitOf(to, last)) return to;
  const [a, b] = [valueOf(first), valueOf(last)];
  const isDirection = to.includes('°');
  const turn = isDirection ? ((b - a + 540) % 360) - 180 : b - a;
  const raw = a + turn * share;
  const value = isDirection ? (raw + 360) % 360 : raw;
  const decimals = last.split('.')[1]?.length ?? 0;
  const digits = Math.abs(value).toFixed(decimals);
  return to.replace(last, value < 0 ? `−${digits}` : digits);
}

const valueOf = (text: string) => Number(text.replaceAll(',', '').replace('−', '-'));
