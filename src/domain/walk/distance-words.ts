import { length } from '../show';
import type { Site } from '../site/site';
import { metres } from '../units';

/**
 * A distance over the ground as a room hears it, to a foot or a metre. The US survey
 * foot is longer than the foot by two in a million: both are "ft".
 */
export function distanceWords({ settings }: Pick<Site, 'settings'>, ground: number): string {
  const { unit } = settings.grid;
  return length(metres(ground), unit === 'us-ft' ? 'ft' : unit, 0);
}
