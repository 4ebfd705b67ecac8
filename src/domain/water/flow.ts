import { trueAzimuth } from '../grid';
import type { Site } from '../site/site';
import type { Azimuth, Degrees, Metres } from '../units';
import type { Worked } from '../work';
import { headsOf, type GaugedScreen } from './event-heads';
import { flowPoints, type FlowPoints } from './flow-points';
import {
  DEPTHS_APART_WORDS,
  findingsOn,
  problemWords,
  unnamedZoneWords,
  unresolvedWords,
} from './flow-words';
import { azimuthOf, gradientOf, trueAzimuthOf } from './flow-work';
import { confidenceOf, type Confidence } from './plane-confidence';
import { fitPlane, type Plane } from './plane';

/** A screen whose head is in the plane, and what the plane makes of it. */
export type FittedScreen = {
  readonly gauged: GaugedScreen;
  /** Ground metres east and north of the centre of the wells used. */
  readonly x: Metres;
  readonly y: Metres;
  readonly head: Metres;
  readonly fitted: Metres;
  /** Measured minus fitted. */
  readonly residual: Metres;
};

/**
 * Which way the water of one zone goes in one event, and how sure that is.
 * Directions are of flow, clockwise; null wherever the data cannot answer, and
 * `reason` says why.
 */
export type Flow = {
  readonly event: string;
  readonly zone: string | null;
  /** Everything gauged in the zone, in the order of the readings, counted or not. */
  readonly gauged: readonly GaugedScreen[];
  readonly fitted: readonly FittedScreen[];
  /** Null where no plane can be laid through the heads. */
  readonly plane: Plane | null;
  readonly confidence: Confidence | null;
  /** Middle of the wells used: metres in the grid; null with none. */
  readonly centre: { readonly easting: Metres; readonly northing: Metres } | null;
  /** Drop in head per ground distance; null without a plane. */
  readonly gradient: Worked<number> | null;
  readonly gradientStandardError: number | null;
  readonly azimuthGrid: Worked<Azimuth> | null;
  readonly azimuthTrue: Worked<Azimuth> | null;
  /** True minus grid azimuth; null for a local grid. */
  readonly convergence: Degrees | null;
  readonly azimuthStandardError: Degrees | null;
  /** Half the width of the fan, at the site's confidence. */
  readonly azimuthHalfWidth: Degrees | null;
  readonly gradientHalfWidth: number | null;
  readonly rSquared: number | null;
  /** Whether the direction can be told from the errors at all. */
  readonly resolved: boolean;
  /** Why it is not resolved; null when it is. */
  readonly reason: string | null;
  /** Whether the heads lie on one plane within their errors; null where that can't be tested. */
  readonly isPlane: boolean | null;
  /** What was tested and found, in words: resolved or not, a plane or not. */
  readonly findings: readonly string[];
};

/** Zones gauged among these readings, in order of first appearance; null for readings without one. */
export function zonesOf(gauged: readonly GaugedScreen[]): readonly (string | null)[] {
  const zones = [...new Set(gauged.map(({ screen }) => screen.zone))];
  const named = zones.filter((zone) => zone !== null);
  return named.length > 0 ? named : zones;
}

export type FlowOptions = {
  /** Weigh heads by their stated errors, as is usual; else all alike. */
  readonly weighted?: boolean;
};

/**
 * The flow of one zone in one event, from every head of it that counts.
 * Distances are on the ground: those in the grid over the combined factor.
 */
export function flowOf(
  site: Site,
  event: string,
  zone: string | null,
  heads: readonly GaugedScreen[] = headsOf(site, event),
  { weighted = true }: FlowOptions = {},
): Flow {
  const gauged = heads.filter(({ screen }) => screen.zone === zone);
  const placed = flowPoints(site, gauged);
  const base = { event, zone, gauged, convergence: site.grid.convergence, centre: placed.middle };
  const none = (reason: string): Flow => ({ ...base, ...UNANSWERED, reason });

  if (site.gridProblem !== null) return none(site.gridProblem);
  if (gauged.some(({ leftOut }) => leftOut === 'depths-apart')) return none(DEPTHS_APART_WORDS);
  const fit = fitPlane(placed.points, { weighted });
  if (!fit.ok) return none(problemWords(fit.problem));
  const answer = answered(site, placed, fit.value);
  return zone === null
    ? { ...base, ...answer, findings: [unnamedZoneWords(placed.points.length), ...answer.findings] }
    : { ...base, ...answer };
}

const UNANSWERED = {
  fitted: [],
  plane: null,
  confidence: null,
  gradient: null,
  gradientStandardError: null,
  azimuthGrid: null,
  azimuthTrue: null,
  azimuthStandardError: null,
  azimuthHalfWidth: null,
  gradientHalfWidth: null,
  rSquared: null,
  resolved: false,
  isPlane: null,
  findings: [],
} as const;

function answered(site: Site, placed: FlowPoints, plane: Plane) {
  const confidence = confidenceOf(plane, site.settings.confidence);
  const { resolved, isPlane, governing } = confidence;
  const widths = confidence[governing];
  const azimuthGrid =
    resolved && plane.azimuth !== null ? azimuthOf(site, placed, plane, plane.azimuth) : null;
  const { convergence } = site.grid;
  const toTrue = azimuthGrid && trueAzimuth(azimuthGrid.value, convergence);
  return {
    fitted: placed.points.map(({ gauged, x, y, head }, i) => ({
      gauged,
      x,
      y,
      head,
      fitted: plane.fitted[i] ?? head,
      residual: plane.residuals[i] ?? (0 as Metres),
    })),
    plane,
    confidence,
    gradient: gradientOf(site, placed, plane),
    gradientStandardError: plane[governing]?.gradient ?? null,
    azimuthGrid,
    azimuthTrue:
      azimuthGrid && toTrue !== null && convergence !== null
        ? trueAzimuthOf(azimuthGrid, convergence, toTrue, site.grid.name)
        : null,
    azimuthStandardError: resolved ? (plane[governing]?.azimuth ?? null) : null,
    azimuthHalfWidth: resolved ? (widths?.azimuth ?? null) : null,
    gradientHalfWidth: widths?.gradient ?? null,
    rSquared: plane.rSquared,
    resolved,
    reason: resolved ? null : unresolvedWords(confidence),
    isPlane,
    findings: findingsOn(site, plane, confidence),
  };
}
