/** The site's map as it stands at the desk. */
import { expect, test } from 'vitest';
import { SHOWN_AT_FIRST } from '../../../src/domain/site/shown';
import { headsOf } from '../../../src/domain/water/event-heads';
import { siteScene } from '../../../src/map/site-scene';
import { openFolder } from '../folder';

const { site } = openFolder('demo-sites/osier-bend');

const NESTS = [
  ['MW-1', 'PZ-1D'],
  ['MW-3', 'PZ-3D'],
  ['MW-6', 'PZ-6D'],
  ['PZ-8', 'PZ-8D'],
] as const;

test.each(['shallow', 'deep'])(
  'where the %s heads are posted, the well of a nest whose head it is takes room for its name first',
  (zone) => {
    const shown = { ...SHOWN_AT_FIRST, event: '2026-09', zone, heads: true };
    const heads = headsOf(site, '2026-09');
    const scene = siteScene({ site, shown, heads, flow: null, results: [], construction: [] });
    const turn = (name: string) => {
      const found = scene.find((item) => item.kind === 'text' && item.text === name);
      return found?.kind === 'text' ? found.priority : NaN;
    };
    for (const [shallow, deep] of NESTS) {
      const [gauged, other] = zone === 'shallow' ? [shallow, deep] : [deep, shallow];
      expect(turn(gauged)).toBeLessThan(turn(other));
    }
  },
);
