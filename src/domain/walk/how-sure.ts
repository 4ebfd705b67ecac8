import { flowAt, gaugedEvents } from '../findings/history';
import { namedIn } from '../findings/planes/elsewhere';
import { flowWithout, wayWords } from '../findings/planes/with-and-without';
import { direction, directionDoubt, wind } from '../show';
import type { Site } from '../site/site';
import { turn } from '../units';
import type { Flow } from '../water/flow';
import { flowPoints } from '../water/flow-points';
import { confidenceOf } from '../water/plane-confidence';
import { fitPlane } from '../water/plane';
import { counted, listed, said, type Sentence } from './stop';

/** A confidence as a room hears it: 0.95 is "19 times in 20". */
export function odds(confidence: number): string {
  const tries = [10, 20, 100].find((n) => Number.isInteger(Number((n * confidence).toFixed(9))));
  const of = tries ?? 1000;
  return `${Math.round(of * confidence)} times in ${of}`;
}

/** An event by its month, as it stands beside a number: "2026-09". */
const monthOf = (site: Site, event: string) =>
  site.events.get(event)?.first_day.slice(0, 7) ?? event;

/** A direction in one event of a zone, and half the width of its fan; null where that is not known. */
export type EventWay = {
  readonly event: string;
  readonly azimuth: number;
  readonly half: number | null;
};

/** Events in which a zone was gauged, earliest first. */
export const gaugedWith = (site: Site, zone: string | null): string[] =>
  gaugedEvents(site).filter((event) => flowAt(site, event, zone).gauged.length > 0);

/** The directions resolved in a zone in every event gauged, earliest first, and how many events had none. */
export function waysOf(
  site: Site,
  zone: string | null,
): { readonly ways: readonly EventWay[]; readonly unresolved: number } {
  const flows = gaugedWith(site, zone).map((event) => flowAt(site, event, zone));
  const ways = flows.flatMap(({ event, resolved, azimuthGrid, azimuthHalfWidth: half }) =>
    resolved && azimuthGrid ? [{ event, azimuth: azimuthGrid.value, half }] : [],
  );
  return { ways, unresolved: flows.length - ways.length };
}

/**
 * Whether two directions differ by more than their own errors make: the error of
 * a difference is the root of the sum of the two squares. Where one is not known
 * the answer is no.
 */
const apart = (one: EventWay, other: EventWay): boolean =>
  one.half !== null &&
  other.half !== null &&
  Math.abs(turn(one.azimuth, other.azimuth)) > Math.hypot(one.half, other.half);

/** Two events whose directions differ by more than their errors, those furthest apart; null without any. */
function changedBetween(ways: readonly EventWay[]): readonly [EventWay, EventWay] | null {
  const pairs = ways.flatMap((one, i) =>
    ways.slice(i + 1).map((other): readonly [EventWay, EventWay] => [one, other]),
  );
  const turned = ([one, other]: readonly [EventWay, EventWay]) =>
    Math.abs(turn(one.azimuth, other.azimuth));
  const [furthest] = pairs
    .filter(([one, other]) => apart(one, other))
    .toSorted((a, b) => turned(b) - turned(a));
  return furthest ?? null;
}

/** The directions of all events that gave one, from the first clockwise to the last. */
function inTurn({ azimuthGrid }: Flow, ways: readonly EventWay[]): EventWay[] {
  const from = azimuthGrid?.value ?? 0;
  return ways.toSorted((a, b) => turn(from, a.azimuth) - turn(from, b.azimuth));
}

/** Where water went in other events, where that is another wind: ", in another event toward the south-east". */
export function otherWinds(site: Site, flow: Flow): string {
  if (flow.azimuthGrid === null) return '';
  const here = wind(flow.azimuthGrid.value);
  const others = waysOf(site, flow.zone).ways.filter(({ azimuth }) => wind(azimuth) !== here);
  const winds = [...new Set(inTurn(flow, others).map(({ azimuth }) => wind(azimuth)))];
  if (winds.length === 0) return '';
  return `, in ${others.length === 1 ? 'another event' : 'other events'} toward the ${listed(winds)}`;
}

/** The direction of an event in its own words, and how far it ranges over the events: one sentence. */
export function wayInEvents(site: Site, flow: Flow): Sentence {
  const { event, zone, azimuthGrid, azimuthHalfWidth: half } = flow;
  if (azimuthGrid === null) return [];
  const { ways, unresolved } = waysOf(site, zone);
  const ordered = inTurn(flow, ways);
  const [first, last] = [ordered[0], ordered.at(-1)];
  const [from, to] = [direction(first?.azimuth ?? 0), direction(last?.azimuth ?? 0)];
  const all = ways.length + unresolved;
  const over =
    ways.length > 1
      ? `, and ${from === to ? from : `${from} to ${to}`} over the ${ways.length} events ${unresolved > 0 ? 'that gave one' : 'gauged'}`
      : all > 1
        ? `, the only one of the ${all} events gauged that gave one`
        : '';
  return said(
    'Direction ',
    { text: direction(azimuthGrid.value), work: azimuthGrid.work },
    `${half === null ? '' : ` ${directionDoubt(half)}`} (${monthOf(site, event)})${over}; north on the map is 0°, east 90°.`,
  );
}

/** What the ± of a direction is made of, for people who do not test hypotheses. */
const KIND_OF_ERROR = {
  stated: 'on the errors stated for survey and readings',
  fromResiduals: 'on how far the heads scatter about one even slope',
} as const;

/** What the ± of one event tells, and how often it holds. */
export function whatErrorTells({ settings }: Site, { confidence, fitted, zone }: Flow): string {
  const rests = KIND_OF_ERROR[confidence?.governing ?? 'stated'];
  const heads = `${counted(fitted.length, 'head')}${zone === null ? '' : ` of the ${zone} zone`}`;
  return `The ± is of this event alone and holds ${odds(settings.confidence)}; it rests ${rests}: ${heads}`;
}

/**
 * How far the direction ranges over all events gauged: the readings of one say
 * nothing of that. Each event is held against its own error.
 */
export function overEvents(site: Site, flow: Flow): Sentence[] {
  if (flow.azimuthGrid === null) return [];
  const { ways, unresolved } = waysOf(site, flow.zone);
  const sorted = inTurn(flow, ways);
  const [first, last] = [sorted[0], sorted.at(-1)];
  if (!first || !last) return [];
  const all = ways.length + unresolved;
  if (all === 1)
    return [
      said('Only one event was gauged: how the direction changes over the year is not known.'),
    ];
  const none =
    unresolved > 0
      ? [
          said(
            `In ${unresolved} of the ${all} events gauged no direction could be told, so how far it changes is not known.`,
          ),
        ]
      : [];
  if (ways.length < 2) return none;
  const named = ({ event, azimuth, half }: EventWay) =>
    `${direction(azimuth)}${half === null ? '' : ` ${directionDoubt(half)}`} (${monthOf(site, event)})`;
  const between = changedBetween(ways);
  const verdict = apart(first, last)
    ? 'it changes by more than those errors'
    : between === null
      ? 'no more than those errors make'
      : `between these no more than their errors make, but by more from ${named(between[0])} to ${named(between[1])}`;
  return [
    said(
      `In the ${counted(ways.length, 'event')} ${unresolved > 0 ? 'that gave one' : 'gauged'} it went from ${named(first)} to ${named(last)}: ${verdict}.`,
    ),
    ...none,
  ];
}

/** Wells of a plane past which nobody asks for each what the plane is without it. */
const MOST = 200;

/** Wells without which there is no direction: it rests on each of them alone. */
function restingOn(site: Site, { gauged }: Flow): string[] {
  const { points } = flowPoints(site, gauged);
  if (points.length < 4 || points.length > MOST) return [];
  return points.flatMap((point) => {
    const others = points.filter((other) => other !== point);
    const fit = fitPlane(others, { weighted: true });
    const stands = fit.ok && confidenceOf(fit.value, site.settings.confidence).resolved;
    return stands ? [] : [point.gauged.screen.id];
  });
}

/** Wells that count and do not fit the others, with what the direction would be without them: an open question, told before any other. */
function misfits(site: Site, flow: Flow): Sentence[] {
  const named = namedIn(site, flow);
  if (named.length === 0) return [];
  const [does, it] = named.length === 1 ? ['does', 'it'] : ['do', 'them'];
  const way = wayWords(flowWithout(site, flow, named)).replaceAll('\u00a0', ' ');
  return [
    said(
      `${listed(named)} ${does} not fit the other wells and ${named.length === 1 ? 'is' : 'are'} to be checked; without ${it} the direction would be ${way}.`,
    ),
  ];
}

/** Whether wells do not fit the others, and whether the direction hangs on one well, or on as few as give one. */
export function restsOn(site: Site, flow: Flow): Sentence[] {
  return [...misfits(site, flow), ...hangsOn(site, flow)];
}

function hangsOn(site: Site, flow: Flow): Sentence[] {
  if (flow.fitted.length === 3)
    return [
      said('It rests on three wells, the fewest that give a direction: no reading checks another.'),
    ];
  const alone = restingOn(site, flow);
  if (alone.length === 0) return [];
  return [
    said(
      alone.length === 1
        ? `It rests on one well, ${alone.join('')}: without that well no direction could be told.`
        : `It rests on ${listed(alone)}: without any one of them no direction could be told.`,
    ),
  ];
}
