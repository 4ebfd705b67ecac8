import { flowAt } from '../findings/history';
import { groupBy } from '../group';
import { keptWhile } from '../kept';
import { COMPASS_SIDES, FLOW_SIDES, type Side, type SideAnswer } from '../lab/delineation';
import {
  delineationsOf,
  nextPushes,
  openSides,
  sideSentence,
  wayOf,
  type AnalyteDelineation,
} from '../lab/site-delineation';
import { judgedAgainst } from '../lab/site-results';
import { length } from '../show';
import { unitsOf } from '../site/settings';
import type { Site } from '../site/site';
import { metres } from '../units';
import { distanceWords } from './distance-words';
import { bare } from './ground-stops';
import { tooDeepSentences } from './too-deep';
import { pushEvent } from './push-event';
import { counted, listed, said, type Material, type Sentence, type Telling } from './stop';
import { windowAround } from './window';

/** Analytes told on a wall; one fewer where there are more, which then stand in a list. */
const NAMED = 3;

/**
 * How far a point may lie and still close a side, out and below: round numbers in
 * the site's units, as on the sheet. Common practice, no source.
 */
export const reachOf = ({ grid, settings }: Site) => ({
  within: settings.grid.unit === 'm' ? metres(30) : metres(100, settings.grid.unit),
  below: settings.verticalUnit === 'm' ? metres(6) : metres(20, settings.verticalUnit),
  combinedFactor: grid.combinedFactor ?? 1,
});

const sidesKept = keptWhile<AnalyteDelineation[]>();

/** The sides of every point that exceeds in an event, one answer an analyte; worked out once a site. */
export function sidesTold(
  site: Site,
  { event, levelSet }: Pick<Material['of'], 'event' | 'levelSet'>,
): AnalyteDelineation[] {
  const told = event === null ? undefined : site.events.get(event);
  if (!told) return [];
  return sidesKept(told, [site, levelSet], () =>
    delineationsOf(
      site,
      judgedAgainst(site, levelSet, { event: told.id, fieldSamples: true }),
      (zone) => wayOf(flowAt(site, told.id, zone)),
      reachOf(site),
    ),
  );
}

/** A side as a room hears it: "side-gradient, left" is "left of the flow". */
function sideWords(side: Side): string {
  if (side === 'side-gradient, left') return 'left of the flow';
  if (side === 'side-gradient, right') return 'right of the flow';
  return COMPASS_SIDES.some((one) => one === side) ? `to the ${side}` : side;
}

/** Sides of a point as few words: "on every side and below", "on every side but up-gradient". */
export function sidesWords(sides: readonly Side[]): string {
  const around: readonly Side[] = [...new Set(sides)].filter((side) => side !== 'below');
  const names: readonly Side[] = around.some((side) => COMPASS_SIDES.some((one) => one === side))
    ? COMPASS_SIDES
    : FLOW_SIDES;
  const shut = names.filter((side) => !around.includes(side));
  const below = sides.includes('below') ? ['below'] : [];
  if (shut.length > 1) return listed([...around.map(sideWords), ...below]);
  const but = shut.map((side) => ` but ${sideWords(side)}`);
  return below.length > 0 && shut.length > 0
    ? `below, and on every side${but[0]}`
    : listed([`on every side${but[0] ?? ''}`, ...below]);
}

/** Sides in the order they are told: the way the water goes first, down last. */
const TOLD: readonly Side[] = [...FLOW_SIDES, ...COMPASS_SIDES, 'below'];

/** Which points are open where: by name while few are open alike, else how many on which side. */
function openWhere(one: AnalyteDelineation): string {
  const sides = openSides(one);
  const points = [...groupBy(sides, ({ location }) => location)].map(([location, here]) => ({
    location,
    where: sidesWords(here.map(({ side }) => side)),
  }));
  const alike = [...groupBy(points, ({ where }) => where)]
    .toSorted(([, a], [, b]) => b.length - a.length)
    .map(([where, here]) => `${where} at ${listed(here.map(({ location }) => location))}`);
  if (alike.length < 3) return alike.join('; ');
  const counts = [...groupBy(sides, ({ side }) => side)]
    .filter(([side]) => side !== 'below')
    .map(([side, here]) => ({ side, at: new Set(here.map(({ location }) => location)).size }))
    .toSorted((a, b) => b.at - a.at || TOLD.indexOf(a.side) - TOLD.indexOf(b.side));
  const most = counts.filter(({ at }) => at === counts[0]?.at).map(({ side }) => sideWords(side));
  const below = new Set(sides.flatMap(({ side, location }) => (side === 'below' ? location : [])));
  return [
    `at ${counted(points.length, 'point')}`,
    ...(counts[0]
      ? [`most often ${listed(most)} (${counts[0].at} ${most.length > 1 ? 'each' : 'of them'})`]
      : []),
    ...(below.size > 0 ? [`below at ${below.size}`] : []),
  ].join(', ');
}

const isAre = (of: readonly unknown[]) => (of.length > 1 ? 'are' : 'is');

/** Open sides in few words: "61 sides at 21 points, and the depth below 20 points"; points by name while they are few. */
export function openWords(open: readonly SideAnswer[]): string {
  const around = open.filter(({ side }) => side !== 'below');
  const below = [
    ...new Set(open.flatMap(({ side, location }) => (side === 'below' ? [location] : []))),
  ];
  const points = [...new Set(around.map(({ location }) => location))];
  const at = (names: readonly string[]) =>
    names.length > NAMED ? counted(names.length, 'point') : listed(names);
  return [
    ...(points.length > 0 ? [`${counted(around.length, 'side')} at ${at(points)}`] : []),
    ...(below.length > 0 ? [`the depth below ${at(below)}`] : []),
  ].join(', and ');
}

/** How it stood with the pushes, where the walk tells of another event: every analyte together. */
function withThePushes(site: Site, of: Material['of']): Sentence[] {
  const event = pushEvent(site, of);
  const open = event ? nextPushes(sidesTold(site, { ...of, event: event.id })) : [];
  if (!event || open.length === 0) return [];
  return [
    said(
      `Open with the pushes (${event.first_day.slice(0, 7)}): ${openWords(open.map(({ answer }) => answer))}.`,
    ),
  ];
}

/** What is delineated and what is open: the sides of every point that exceeds, and below it. */
export function whatIsDelineated({ site, of }: Material): Telling | null {
  const { event, levelSet } = of;
  const found = sidesTold(site, of);
  if (event === null || found.length === 0) return null;
  const reach = reachOf(site);
  const units = unitsOf(site.settings);
  const open = found.filter((one) => openSides(one).length > 0);
  const named = open.length > NAMED ? NAMED - 1 : NAMED;
  const pushes = nextPushes(found);
  const shut = found.filter((one) => !open.includes(one)).map(({ analyte }) => analyte);
  const sampled = judgedAgainst(site, levelSet, { event, fieldSamples: true });
  return {
    title: open.length > 0 ? 'Where the edge has not been found' : 'Delineated on every side',
    sentences: [
      ...[...groupBy(open.slice(0, named), openWhere)].map(([where, here]) =>
        said(`${listed(here.map(({ analyte }) => analyte))} ${isAre(here)} open ${where}.`),
      ),
      ...(open.length > named
        ? [said(`Open too: ${listed(open.slice(named).map(({ analyte }) => analyte))}.`)]
        : []),
      ...(shut.length > 0 ? [said(`Delineated: ${listed(shut)}.`)] : []),
      ...withThePushes(site, of),
      ...tooDeepSentences(site, found, sampled, reach),
      said(
        `Open: no point of the same event and zone within ${distanceWords(site, reach.within)} that way, or ${length(reach.below, units.vertical, 0)} below, shows that it does not exceed. Where one does, the side is delineated.`,
      ),
    ],
    alsoOf: [pushEvent(site, of)?.id].flatMap((id) => id ?? []),
    notes: pushes
      .map(
        ({ answer, analytes }) => `${sideSentence(answer, reach, units)} (${analytes.join(', ')})`,
      )
      .join('\n'),
    view: {
      shown: { ...bare(of), verdicts: true },
      points: 'sampled',
      contours: false,
      sides: true,
      window: windowAround(
        sampled.flatMap(({ location }) => location ?? []),
        pushes.flatMap(({ answer: { next, side } }) =>
          next && side !== 'below' ? [[next.easting, next.northing] as const] : [],
        ),
      ),
    },
  };
}
