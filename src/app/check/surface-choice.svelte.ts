import { unitsOf } from '../../domain/site/settings';
import type { Site } from '../../domain/site/site';
import { azimuth, inUnits, metres } from '../../domain/units';
import type { SurfaceMethod, SurfaceQuestion } from '../../domain/water/drawn-surface';
import type { Flow } from '../../domain/water/flow';
import { noFlowLines, surfacePoints } from '../../domain/water/surface-words';
import { usualInterval } from '../../domain/water/surface/contour-interval';
import { usualReach } from '../../domain/water/surface/contour-pieces';
import type { VariogramShape } from '../../domain/water/surface/variogram-model';
import {
  modelOf,
  termsOf,
  variogramSeen,
  type VariogramTerms,
} from '../../domain/water/variogram-terms';

/** What a person has chosen of a surface; where nothing is chosen, what is usual. */
export class SurfaceChoice {
  #site: () => Site;
  #flow: () => Flow | null;

  method: SurfaceMethod = $state('triangulated');
  contours = $state(true);
  flowLines = $state(false);
  arrows = $state(false);
  error = $state(false);
  heedNoFlow = $state(false);
  byError = $state(false);
  /** In the site's vertical unit; null: the usual one. */
  intervalTyped: number | null = $state(null);
  /** In the grid's unit; null: the usual one. */
  reachTyped: number | null = $state(null);
  shape: VariogramShape | null = $state(null);
  termsTyped: VariogramTerms | null = $state.raw(null);
  /** Range across the long axis over that along it: 1, alike in all directions. */
  ratio = $state(1);
  /** Clockwise from grid north; means nothing while the ratio is 1. */
  longAxis = $state(0);

  constructor(site: () => Site, flow: () => Flow | null) {
    this.#site = site;
    this.#flow = flow;
  }

  readonly units = $derived.by(() => unitsOf(this.#site().settings));
  readonly points = $derived.by(() => {
    const flow = this.#flow();
    return flow ? surfacePoints(flow) : [];
  });
  readonly usualInterval = $derived.by(() => {
    const usual = usualInterval(this.points, this.units.vertical);
    return usual === null ? null : inUnits(usual, this.units.vertical);
  });
  readonly interval = $derived(this.intervalTyped ?? this.usualInterval);
  readonly usualReach = $derived.by(() => {
    const usual = usualReach(this.points);
    return usual === null ? null : Math.round(inUnits(usual, this.units.grid));
  });
  readonly reach = $derived(this.reachTyped ?? this.usualReach);
  readonly seen = $derived(
    this.method === 'triangulated' ? null : variogramSeen(this.points, this.method, this.shape),
  );
  readonly terms = $derived(this.termsTyped ?? (this.seen && termsOf(this.seen.model, this.units)));
  readonly model = $derived(
    this.terms && {
      ...modelOf(this.terms, this.units),
      anisotropy: this.ratio === 1 ? null : { longAxis: azimuth(this.longAxis), ratio: this.ratio },
    },
  );
  readonly noFlow = $derived.by(() => {
    const flow = this.#flow();
    return flow ? noFlowLines(this.#site(), flow) : [];
  });

  /** Null where there is nothing to ask: no heads, heads all alike, no interval. */
  readonly question = $derived.by((): SurfaceQuestion | null => {
    const { interval, reach } = this;
    if (this.points.length < 3 || interval === null || !(interval > 0) || reach === null)
      return null;
    return {
      points: this.points,
      method: this.method,
      model: this.method === 'triangulated' ? null : this.model,
      interval: metres(interval, this.units.vertical),
      reach: metres(reach, this.units.grid),
      byError: this.byError && this.method !== 'triangulated',
      noFlow: this.heedNoFlow ? this.noFlow : [],
    };
  });
}
