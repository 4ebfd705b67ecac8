import { groupBy } from '../group';
import { length, type PrintUnits } from '../show';
import type { Edit } from '../site/edits/apply';
import type { Site } from '../site/site';
import type { Flow } from '../water/flow';
import { inUnits, type LengthUnit, type Metres } from '../units';
import {
  delineate,
  isOpen,
  type Delineation,
  type Reach,
  type SideAnswer,
  type Way,
} from './delineation';
import type { Level } from './level';
import type { JudgedResult } from './site-results';
import { worstOf } from './worst';

/** One analyte above its level, and its sides. */
export type AnalyteDelineation = Delineation & {
  readonly key: string;
  readonly analyte: string;
  readonly level: Level | null;
};

/**
 * Every analyte that exceeds somewhere among these results, the one with the
 * most open sides first. A screen's verdict is the worst of its results.
 */
export function delineationsOf(
  site: Site,
  results: readonly JudgedResult[],
  wayIn: (zone: string | null) => Way,
  reach: Reach,
): AnalyteDelineation[] {
  return [...groupBy(results, ({ reading }) => reading.key)]
    .flatMap(([key, of]) => {
      const [first] = of;
      const screens = [...groupBy(of, ({ screen }) => screen)].flatMap(([screen, here]) => {
        const location = screen && site.locations.get(screen.location);
        const worst = worstOf(here.map(({ judged }) => judged.outcome.verdict));
        const [easting, northing] = [location?.easting?.value, location?.northing?.value];
        if (!screen || !location || worst === null) return [];
        if (easting === undefined || northing === undefined) return [];
        return [
          {
            location: location.id,
            screen: screen.id,
            easting,
            northing,
            depth: screen.tip_depth?.value ?? null,
            zone: screen.zone,
            verdict: worst,
          },
        ];
      });
      const found = delineate(screens, wayIn, reach);
      if (found.exceeding === 0 || !first) return [];
      return [{ ...found, key, analyte: first.row.analyte, level: first.judged.match.level }];
    })
    .toSorted((a, b) => openSides(b).length - openSides(a).length);
}

export const openSides = ({ answers }: Delineation): readonly SideAnswer[] =>
  answers.filter(isOpen);

/** What one side of one point says, as a sentence; distances in the site's units. */
export function sideSentence(
  { location, side, status, by, distance, next }: SideAnswer,
  reach: Reach,
  units: PrintUnits,
): string {
  const unit = side === 'below' ? units.vertical : units.grid;
  const far = (metres: number, decimals = 0) =>
    length(metres as Parameters<typeof length>[0], unit, decimals);
  const at = by
    ? `${by.screen}${distance === null ? '' : `, ${far(distance, side === 'below' ? 1 : 0)} away,`}`
    : '';
  const from = side === 'below' ? `Below ${location}` : `${capital(side)} of ${location}`;
  switch (status) {
    case 'delineated':
      return `${from}: delineated by ${at} which does not exceed.`;
    case 'goes on':
      return `${from}: goes on to ${at} which exceeds too.`;
    case 'limit exceeds level':
      return `${from}: open. In ${at} the limit exceeds the level. Sample it again with a limit at or below the level.`;
    case 'no usable result':
      return `${from}: open. ${at} has no usable result. Sample it again.`;
    case 'depth not known':
      return `${from}: cannot be told. The tip depth of what exceeds is not recorded.`;
    case 'nothing there':
      return next && next.depth !== null
        ? `${from}: open. Nothing within ${far(reach.below)} below. Push to a tip depth of ${far(next.depth, 1)} there.`
        : `${from}: open. Nothing in this zone within ${far(reach.within)}. Push ${far(reach.within / 2)} out.`;
  }
}

const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);

/** One push that would close a side for one or more analytes. */
export type NextPush = {
  readonly answer: SideAnswer;
  readonly analytes: readonly string[];
};

/** Open sides of all analytes, each place and side once, those that serve most analytes first. */
export function nextPushes(delineations: readonly AnalyteDelineation[]): NextPush[] {
  const open = delineations.flatMap((one) =>
    openSides(one).map((answer) => ({ answer, analyte: one.analyte })),
  );
  return [
    ...groupBy(
      open,
      ({ answer: { location, side, status, zone } }) => `${location}|${zone}|${side}|${status}`,
    ).values(),
  ]
    .flatMap((same) => {
      const [first] = same;
      return first ? [{ answer: first.answer, analytes: same.map(({ analyte }) => analyte) }] : [];
    })
    .toSorted((a, b) => b.analytes.length - a.analytes.length);
}

/** Names of planned pushes begin so. */
const PUSH = 'NP-';

/** The edit that plans a push where it would close an open side; null where none would. */
export function plannedPush(
  site: Site,
  { answer, analytes }: NextPush,
): { readonly id: string; readonly edit: Edit } | null {
  const { next } = answer;
  if (!next) return null;
  let number = 1;
  while (site.locations.has(`${PUSH}${number}`)) number++;
  const id = `${PUSH}${number}`;
  const { grid, verticalUnit } = site.settings;
  // A hair west of the grid's origin is written 0.0, not -0.0.
  const written = (metres: number, unit: LengthUnit) =>
    inUnits(metres as Metres, unit)
      .toFixed(1)
      .replace(/^-(?=0\.0$)/, '');
  const location = {
    id,
    kind: 'direct push',
    status: 'planned',
    planned_easting: written(next.easting, grid.unit),
    planned_northing: written(next.northing, grid.unit),
    purpose: `Close the open side ${answer.side} of ${answer.location}: ${analytes.join(', ')}`,
  };
  const locations: Edit = { kind: 'add-rows', table: 'locations', rows: [location] };
  const screen = {
    id: `${id}-S1`,
    location: id,
    zone: answer.zone ?? '',
    ...(next.depth === null ? {} : { planned_tip_depth: written(next.depth, verticalUnit) }),
  };
  const screens: Edit = { kind: 'add-rows', table: 'screens', rows: [screen] };
  return { id, edit: { kind: 'together', edits: [locations, screens] } };
}

/** Which way a zone's water goes, for naming sides; only where the direction is resolved. */
export const wayOf = ({ resolved, azimuthGrid, reason }: Flow): Way =>
  resolved && azimuthGrid
    ? { azimuth: azimuthGrid.value, reason: null }
    : { azimuth: null, reason: reason ?? 'the direction of flow is not resolved.' };
