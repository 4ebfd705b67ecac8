import { cell } from '../../site/cite';
import type { Site } from '../../site/site';
import type { GaugedScreen } from '../../water/event-heads';
import type { Flow } from '../../water/flow';
import type { Source } from '../../work';
import type { Finding } from '../finding';
import { standingOf } from '../ground/mark-height';
import { headsAt } from '../history';
import { outOfLine, purgedIn, purgedWords, type Purged } from '../levels/purge-depth';
import { counted, listed, said } from '../words';
import { elsewhere, type Elsewhere, type OffBy } from './elsewhere';
import { likelyError, type SlipIn } from './likely-error';

/** What else the site knows of a head that is off the plane of the others. */
export type Evidence = {
  /** Which of its two numbers is wrong, as far as other events and the purging tell; null where they don't. */
  readonly where: SlipIn | null;
  /** A slip of the pen would explain it. */
  readonly isSlip: boolean;
  /** Sentences: the slip, other events, the purging, the height of the mark. */
  readonly says: readonly string[];
  readonly cells: readonly Source[];
  /** Other events where the reading counts and the same mark puts it off alike, by id. */
  readonly offToo: readonly string[];
};

/** What a purging leaves open about a depth: the drawdown of this well is not that of the others. */
const PURGING_TELLS = 0.03048; // m, a tenth of a foot. A judgement, no source

/** Everything that speaks to a head being off by so much: the mark, the depth, and the slip that would do it. */
export function evidenceOn(
  site: Site,
  flow: Flow,
  gauged: GaugedScreen,
  { off, error }: OffBy,
): Evidence {
  const others = elsewhere(site, flow, gauged, { off, error });
  const purged = purgedIn(site, headsAt(site, flow.event)).find((one) => one.gauged === gauged);
  const drawn = purged && agrees(purged, off) ? purged : null;
  const where = whereOf(others, drawn !== null);
  const slip = likelyError(site, gauged, off, error, where);
  const reading = cell('water_levels', gauged.reading, 'depth_to_water');
  const mark =
    gauged.measuringPoint && cell('measuring_points', gauged.measuringPoint, 'elevation');
  return {
    where,
    isSlip: slip !== null,
    says: [
      slip ? `${slip.says.charAt(0).toUpperCase()}${slip.says.slice(1)}.` : '',
      elsewhereWords(others),
      drawn ? purgedWords(site, drawn) : '',
      where === 'depth' ? '' : standingWords(site, gauged, off),
    ].filter(Boolean),
    cells: [
      ...(slip?.cells ?? [reading, ...(mark ? [mark] : [])]),
      ...(drawn ? [cell('purge_readings', drawn.reading, 'depth_to_water')] : []),
    ],
    offToo: others.counts,
  };
}

/** Where the depth is wrong, the water stood as much lower when purged as the head is too high. */
const agrees = (purged: Purged, off: number) =>
  outOfLine(purged) !== 0 && Math.abs(outOfLine(purged) - off) <= PURGING_TELLS;

function whereOf({ off, fits }: Elsewhere, purgingSaysDepth: boolean): SlipIn | null {
  const says = new Set<SlipIn>([
    ...(off.length > 0 ? (['mark'] as const) : []),
    ...(fits.length > 0 || purgingSaysDepth ? (['depth'] as const) : []),
  ]);
  const [only] = says;
  return says.size === 1 && only ? only : null;
}

function elsewhereWords({ off, fits }: Elsewhere): string {
  const alike = `It is off by as much in ${listed(off)}`;
  const fitting = `in ${listed(fits)}, read from the same mark, it fits`;
  if (off.length > 0 && fits.length > 0) return `${alike}, but ${fitting}.`;
  if (off.length > 0) return `${alike}: the mark, then, and not the reading.`;
  return fits.length > 0
    ? `${fitting.charAt(0).toUpperCase()}${fitting.slice(1)}: the depth, then, and not the mark.`
    : '';
}

/** Where its mark stands past all others described alike, on the side the head is off. */
function standingWords(site: Site, { measuringPoint: mark }: GaugedScreen, off: number): string {
  const standing = mark && standingOf(site, mark);
  if (!standing) return '';
  const { height, others, least, most } = standing;
  if (off > 0 ? height <= most : height >= least) return '';
  const range = `${said(site, least)} to ${said(site, most)}`;
  return `Its mark stands ${said(site, height)} above ground; the ${counted(others, 'other')} described alike ${range}.`;
}

/** What to do about it, by which number is wrong. */
export const evidenceTodo = ({ where }: Evidence): string =>
  where === 'mark'
    ? 'Look up the survey of its mark first; resurvey it, or leave the well out with the reason, in every event it concerns.'
    : where === 'depth'
      ? 'Compare its depth with the field form; correct the cell, or leave the well out with the reason.'
      : 'Compare its depth and its mark with the field form; correct the cell, or leave the well out with the reason.';

/** The readings that would be left out for it: this one while it counts, and those off alike at other events. */
export const toLeaveOut = (
  { screen, reading, leftOut }: GaugedScreen,
  { offToo }: Evidence,
): NonNullable<Finding['leaveOut']> => [
  ...(leftOut === null ? [{ screen: screen.id, event: reading.event }] : []),
  ...offToo.map((event) => ({ screen: screen.id, event })),
];
