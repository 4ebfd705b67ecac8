import { cell } from '../../site/cite';
import type { Site } from '../../site/site';
import type { GaugedScreen } from '../../water/event-heads';
import type { Flow } from '../../water/flow';
import { flowPoints } from '../../water/flow-points';
import { leaveOneOut } from '../../water/leave-one-out';
import { metres } from '../../units';
import type { Finding, Rule } from '../finding';
import { headsAt, previousEvent } from '../history';
import { finding, said } from '../words';
import { exchangeFinding, exchangeInChanges } from './change-exchange';
import { likelyError } from './likely-error';

export type Change = {
  readonly now: GaugedScreen;
  readonly then: GaugedScreen;
  readonly change: number;
};

/** With so few others their range is the measure, so many times over; with more, a plane of the changes. */
const FEWEST = 4;
const FEWEST_FOR_A_PLANE = 6;
const RANGES_BEYOND = { three: 1.5, more: 1 };

/** Change of one head against another's, from two readings each of 0.01 ft, so many times over. */
const LEAST = 5 * Math.SQRT2 * 0.003048; // m

/**
 * A head whose change since the last event is out of line with the other wells
 * of its zone: the reading then, or now, or a mark that moved. Marks that were
 * wrong both times do not show here.
 */
export const changeOutOfLine: Rule = ({ site, event, flows }) => {
  const earlier = event === null ? null : previousEvent(site, event);
  if (earlier === null) return [];
  return flows.flatMap((flow): Finding[] => {
    const changes = changesOf(site, flow, earlier);
    const exchange = changes.length < FEWEST_FOR_A_PLANE ? exchangeInChanges(changes) : null;
    if (exchange) return [exchangeFinding(site, exchange)];
    const odd =
      changes.length >= FEWEST_FOR_A_PLANE ? byPlane(site, changes) : byRange(site, changes);
    return odd ? [changeFinding(site, event, earlier, odd)] : [];
  });
};

/** Heads that count in a zone at both events, in the order of the readings now. */
function changesOf(site: Site, { gauged }: Flow, earlier: string): Change[] {
  const then = new Map(headsAt(site, earlier).map((one) => [one.screen.id, one]));
  return gauged.flatMap((now): Change[] => {
    const before = then.get(now.screen.id);
    if (!now.head || !before?.head || now.leftOut !== null || before.leftOut !== null) return [];
    return [{ now, then: before, change: now.head.value - before.head.value }];
  });
}

type Odd = {
  readonly one: Change;
  /** Change less what the others make of it; one standard error of that. */
  readonly off: number;
  readonly error: number;
  readonly others: string;
};

const signed = (site: Site, value: number) => `${value < 0 ? '' : '+'}${said(site, value)}`;

/** Of changes many are looked at, so one that stands out must do so plainly. A judgement, no source. */
const PLAINLY = 0.01;

function byPlane(site: Site, changes: readonly Change[]): Odd | null {
  const placed = flowPoints(
    site,
    changes.map(({ now }) => now),
  ).points;
  const points = placed.map((point, i) => ({ ...point, head: metres(changes[i]?.change ?? 0) }));
  const left = leaveOneOut(points, { weighted: false, confidence: site.settings.confidence });
  if (!left.ok || left.value.culprit.kind !== 'named') return null;
  const { id, predictionResidual: off, studentised, probability } = left.value.culprit;
  const one = changes.find(({ now }) => now.screen.id === id);
  if (!one || Math.abs(off) < LEAST || probability > PLAINLY) return null;
  return {
    one,
    off,
    error: Math.abs(off / studentised),
    others: `the other ${changes.length - 1} wells would make it ${signed(site, one.change - off)}`,
  };
}

function byRange(site: Site, changes: readonly Change[]): Odd | null {
  if (changes.length < FEWEST) return null;
  const times = changes.length === FEWEST ? RANGES_BEYOND.three : RANGES_BEYOND.more;
  const odd = changes.flatMap((one): (Odd & { beyond: number })[] => {
    const others = changes.filter((other) => other !== one).map(({ change }) => change);
    const [least, most] = [Math.min(...others), Math.max(...others)];
    const beyond = Math.max(one.change - most, least - one.change);
    if (beyond <= Math.max(LEAST, times * (most - least))) return [];
    return [
      {
        one,
        beyond,
        off: one.change - (least + most) / 2,
        error: (most - least) / 2,
        others: `the other ${others.length} wells changed by ${signed(site, least)} to ${signed(site, most)}`,
      },
    ];
  });
  return odd.toSorted((a, b) => b.beyond - a.beyond)[0] ?? null;
}

function changeFinding(
  site: Site,
  event: string | null,
  earlier: string,
  { one: { now, then, change }, off, error, others }: Odd,
): Finding {
  const { screen, location } = now;
  // Read from one mark both times, a mistake in that mark would not change the head.
  const sameMark = now.measuringPoint !== null && now.measuringPoint === then.measuringPoint;
  const slip = likelyError(site, now, off, error, sameMark ? 'depth' : null);
  return finding('change out of line', screen.id, event, {
    severity: 'caution',
    who: [location.id],
    says: `The head in ${screen.id} changed by ${signed(site, change)} since ${earlier}; ${others}.${slip ? ` If the reading now is wrong, ${slip.says}.` : ''}`,
    todo: 'Compare the readings of both events with the field forms; ask whether the mark was moved or the well pumped.',
    cells: [
      cell('water_levels', then.reading, 'depth_to_water'),
      cell('water_levels', now.reading, 'depth_to_water'),
    ],
  });
}
