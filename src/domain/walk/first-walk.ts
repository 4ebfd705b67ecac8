import type { Site } from '../site/site';
import { headsOf } from '../water/event-heads';
import { flowOf } from '../water/flow';
import { whereWeAre, wherePushed, whatLiesBelow } from './ground-stops';
import { whatIsDelineated } from './delineation-stop';
import { whatExceeds, whatPushesFound } from './lab-stops';
import { whatNext } from './next-stop';
import { whatMayBeReached } from './receptors-stop';
import {
  MADE_STOPS,
  type MadeStop,
  type Material,
  type Stop,
  type Telling,
  type WalkOf,
} from './stop';
import { howHigh, whichWay } from './water-stops';

const TELL: Readonly<Record<MadeStop, (material: Material) => Telling | null>> = {
  where: whereWeAre,
  pushes: wherePushed,
  below: whatLiesBelow,
  water: howHigh,
  way: whichWay,
  found: whatPushesFound,
  exceeds: whatExceeds,
  delineated: whatIsDelineated,
  receptors: whatMayBeReached,
  next: whatNext,
};

/**
 * The walk a site makes of itself, in the order it is told. Every sentence is
 * built from computed values and changes with them; what cannot be told is a
 * stop that says so.
 */
export function firstWalk(site: Site, of: WalkOf): Stop[] {
  const heads = of.event === null ? [] : headsOf(site, of.event);
  const flow = of.event === null ? null : flowOf(site, of.event, of.zone, heads);
  const material: Material = { site, of, heads, flow };
  return MADE_STOPS.flatMap((made) => {
    const told = TELL[made](material);
    return told ? [{ id: made, made, hidden: false, ...told }] : [];
  });
}

/** What stands on every stop and sheet until validation is recorded; null once it is. */
export const preliminary = ({ settings }: Site) =>
  settings.validated ? null : 'PRELIMINARY, NOT VALIDATED';
