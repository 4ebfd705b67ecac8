import { linear, roundSteps } from '../chart-scale';
import { significant } from '../show';
import { dayAt, yearsAt, type Series, type SeriesPoint } from './over-time';

/** A chart of one series as places in px. */
export type TimeChart = {
  readonly width: number;
  readonly height: number;
  /** The frame the data lie in. */
  readonly frame: {
    readonly left: number;
    readonly top: number;
    readonly right: number;
    readonly bottom: number;
  };
  readonly marks: readonly {
    readonly x: number;
    readonly y: number;
    readonly kind: 'detected' | 'not detected' | 'at least';
    readonly says: string;
  }[];
  /** From one detection to the next, broken at every non-detect: what lies between is not known. */
  readonly lines: readonly (readonly (readonly [number, number])[])[];
  readonly level: number | null;
  readonly yTicks: readonly { readonly y: number; readonly text: string }[];
  readonly xTicks: readonly { readonly x: number; readonly text: string }[];
};

const FRAME = { left: 52, top: 10, right: 12, bottom: 24 };

/** Concentration upward from zero, time to the right. */
export function timeChart(
  { points, level, unit }: Pick<Series, 'points' | 'level' | 'unit'>,
  width: number,
  height: number,
): TimeChart {
  const frame = {
    left: FRAME.left,
    top: FRAME.top,
    right: width - FRAME.right,
    bottom: height - FRAME.bottom,
  };
  const times = points.map(({ time }) => time);
  const [first, last] = [Math.min(...times), Math.max(...times)];
  const room = Math.max((last - first) * 0.06, 0.05);
  const steps = roundSteps(0, Math.max(...points.map(({ value }) => value), level?.amount ?? 0), 4);
  const top = steps.at(-1) ?? 1;
  const x = linear([first - room, last + room], [frame.left, frame.right]);
  const y = linear([0, top], [frame.bottom, frame.top]);
  const at = ({ time, value }: SeriesPoint) => [x(time), y(value)] as const;
  return {
    width,
    height,
    frame,
    marks: points.map((point) => {
      const [px, py] = at(point);
      const kind = !point.detected ? 'not detected' : point.atLeast ? 'at least' : 'detected';
      return { x: px, y: py, kind, says: saysOf(point, unit) };
    }),
    lines: runs(points).map((run) => run.map(at)),
    level: level ? y(level.amount) : null,
    yTicks: steps.map((value) => ({ y: y(value), text: plain(value) })),
    xTicks: yearTicks(first, last).map(({ time, text }) => ({ x: x(time), text })),
  };
}

const plain = (value: number) =>
  value === 0 ? '0' : Number.isInteger(value) ? String(value) : significant(value, 2);

/** "2025-09-15: 3.7 µg/L", "2025-09-15: not detected, limit 25 µg/L". */
function saysOf({ day, value, detected, atLeast }: SeriesPoint, unit: string): string {
  const number = `${significant(value, 3)} ${unit}`;
  if (!detected) return `${day}: not detected, limit ${number}`;
  return `${day}: ${atLeast ? 'at least ' : ''}${number}`;
}

/** Detections in a row, two and more. */
function runs(points: readonly SeriesPoint[]): SeriesPoint[][] {
  const found: SeriesPoint[][] = [[]];
  for (const point of points)
    if (point.detected) found.at(-1)?.push(point);
    else found.push([]);
  return found.filter((run) => run.length > 1);
}

/** First of January of each year within, or the two ends where there are none. */
function yearTicks(first: number, last: number): { time: number; text: string }[] {
  const ends = [first, last].map((time) => ({ time, text: dayAt(time).slice(0, 7) }));
  const from = Number(dayAt(first).slice(0, 4)) + 1;
  const to = Number(dayAt(last).slice(0, 4));
  if (to - from < 1) return first === last ? ends.slice(0, 1) : ends;
  const every = Math.ceil((to - from + 1) / 6);
  return Array.from({ length: Math.floor((to - from) / every) + 1 }, (_, i) => {
    const year = String(from + i * every);
    return { time: yearsAt(`${year}-01-01`) ?? 0, text: year };
  });
}
