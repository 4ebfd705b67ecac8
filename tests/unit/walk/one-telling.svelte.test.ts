/** While a walk is told, what one stop shows does not change what the others tell of. */
import { flushSync } from 'svelte';
import { expect, test } from 'vitest';
import { OpenSite } from '../../../src/app/open-site.svelte';
import { Walk } from '../../../src/app/walk/walk.svelte';
import { plain } from '../../../src/domain/walk/stop';
import { openFolder } from '../folder';

const WINDOW = { west: 0, south: 0, east: 10, north: 10 };

test('a stop that was kept of the deep zone leaves the others in the shallow one, and leaving the walk lets go', () => {
  const site = new OpenSite({ package: openFolder('demo-sites/osier-bend').package, problems: [] });
  const walk = new Walk(site);
  const wordsOf = () =>
    walk.stops.map(({ title, sentences }) => [title, ...sentences.map(plain)].join(' '));
  let retold = 0;
  const end = $effect.root(() => {
    $effect(() => {
      if (walk.stops.length > 0) retold++;
    });
  });
  site.show({ event: '2026-09', zone: 'deep' });
  walk.keep(WINDOW, 'Deep');
  site.show({ zone: 'shallow' });
  flushSync();
  const before = wordsOf();
  walk.start();
  flushSync();
  retold = 0;
  walk.go(walk.told.length - 1);
  flushSync();
  expect(site.shown.zone).toBe('deep');
  expect(wordsOf()).toEqual(before);
  for (let stop = 0; stop < walk.told.length; stop++) {
    walk.go(stop);
    flushSync();
  }
  expect(retold).toBe(0);
  walk.leave();
  site.show({ zone: 'deep' });
  flushSync();
  expect(wordsOf()).not.toEqual(before);
  end();
});
