import { cell } from '../../site/cite';
import type { Site } from '../../site/site';
import type { GaugedScreen } from '../../water/event-heads';
import type { Finding } from '../finding';
import { finding, locationsOf, said } from '../words';
import type { Change } from './change';

/** Two readings of one event, this one or the one before, that seem to stand in each other's rows. */
export type ExchangeInChanges = {
  readonly one: Change;
  readonly other: Change;
  /** What the changes of all wells ran over, as recorded and with the two exchanged, metres. */
  readonly before: number;
  readonly after: number;
};

const FEWEST = 4;

/** An exchange shows where it draws the changes together to this part, and the next best does not to twice that. */
const DRAWN_TOGETHER = 0.25;

/** Less than this is nothing to draw together: a tenth of a foot. */
const LEAST = 0.03048; // m

/**
 * The two readings whose exchange, at one of two events, draws the changes of
 * all wells together: for zones of four or five wells, of which a plane can
 * name none. A judgement, no source.
 */
export function exchangeInChanges(changes: readonly Change[]): ExchangeInChanges | null {
  if (changes.length < FEWEST) return null;
  const before = rangeOf(changes.map(({ change }) => change));
  if (before < LEAST) return null;
  const tried = changes.flatMap((one, i) =>
    changes.slice(i + 1).map((other) => {
      const after = (when: 'now' | 'then') =>
        rangeOf(changes.map((change) => exchangedChange(change, one, other, when)));
      return { one, other, before, after: Math.min(after('now'), after('then')) };
    }),
  );
  const [best, next] = tried.toSorted((a, b) => a.after - b.after);
  return best && next && best.after < DRAWN_TOGETHER * before && next.after > 2 * best.after
    ? best
    : null;
}

const rangeOf = (values: readonly number[]) => Math.max(...values) - Math.min(...values);

const depthOf = ({ reading }: GaugedScreen) => reading.depth_to_water?.value ?? 0;

function exchangedChange(of: Change, one: Change, other: Change, when: 'now' | 'then'): number {
  if (of !== one && of !== other) return of.change;
  const partner = of === one ? other : one;
  // The head with the partner's depth, less the head as recorded.
  const rise = depthOf(of[when]) - depthOf(partner[when]);
  return of.change + (when === 'now' ? rise : -rise);
}

export const exchangeFinding = (
  site: Site,
  { one, other, before, after }: ExchangeInChanges,
): Finding => {
  const [a, b] = [one.now.screen.id, other.now.screen.id];
  const { event } = one.now.reading;
  return finding('readings exchanged', `${a} and ${b}`, event, {
    severity: 'caution',
    who: locationsOf([one.now, other.now]),
    says: `The depths of ${a} and ${b} may stand in each other’s rows, in ${event} or in ${one.then.reading.event}: exchanged, the changes between the two run over ${said(site, after)} among the wells, as recorded over ${said(site, before)}.`,
    todo: 'Compare both with the field forms and exchange them if they say so.',
    cells: [one.now, other.now, one.then, other.then].map(({ reading }) =>
      cell('water_levels', reading, 'depth_to_water'),
    ),
  });
};
