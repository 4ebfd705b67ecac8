import type { DrawnResult } from '../../domain/lab/drawn-results';
import { byLocation } from '../../domain/lab/site-results';
import { raisedByParticles, turbidSamples } from '../../domain/lab/turbid';
import type { Site } from '../../domain/site/site';
import { SIZES } from '../look/look';
import { placeOf } from './from-locations';
import type { TextItem } from './scene';

/** The word beside each point with a total metal or a clinging compound from turbid water. */
export function turbidItems(site: Site, results: readonly DrawnResult[]): TextItem[] {
  if (turbidSamples(site).size === 0) return [];
  return [...byLocation(results)].flatMap(([id, here]): TextItem[] => {
    const location = site.locations.get(id);
    const at = location ? placeOf(location) : null;
    if (!at || !here.some((result) => raisedByParticles(site, result))) return [];
    return [
      {
        kind: 'text',
        layer: 'captions',
        who: id,
        at,
        text: 'turbid',
        sides: ['s', 'n', 'e', 'w'],
        away: 11,
        size: SIZES.fine,
        face: 'italic',
        colour: 'signal',
        priority: 1,
        means: 'From a turbid sample: total metals and clinging compounds may be too high',
      },
    ];
  });
}
