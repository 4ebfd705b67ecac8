/**
 * What is worked out for a way of working goes on following the site after the part of the page
 * that asked for it first is gone, as when a figure sheet or the walk takes the desk's place.
 */
import { flushSync } from 'svelte';
import { describe, expect, test, vi } from 'vitest';
import { checkViewOf } from '../../../src/app/check/check-view.svelte';
import { layOutOf } from '../../../src/app/lay-out/lay-out.svelte';
import { OpenSite } from '../../../src/app/open-site.svelte';
import { recordingOf } from '../../../src/app/record/recording.svelte';
import { openFolder } from '../folder';

const opened = () =>
  new OpenSite({ package: openFolder('demo-sites/osier-bend').package, problems: [] });

/** A part of the page that shows something, and is then taken away. */
function shownAndGone(show: () => unknown) {
  const leave = $effect.root(() => {
    $effect(() => void show());
  });
  flushSync();
  leave();
}

/** What a part of the page shows, followed; `last` is what it says now. */
function followed<T>(show: () => T) {
  const seen: { last: T | undefined } = { last: undefined };
  const leave = $effect.root(() => {
    $effect(() => void (seen.last = show()));
  });
  flushSync();
  return { seen, leave };
}

describe('after another page took the desk’s place', () => {
  test('another spacing lays another grid, its count and its names', () => {
    const warned = vi.spyOn(console, 'warn').mockImplementation(() => {});
    const site = opened();
    const laid = () => layOutOf(site).laying.clear.length;
    shownAndGone(laid);
    const { laying } = layOutOf(site);
    const page = followed(() => [
      laying.clear.length,
      laying.named.ok && laying.named.value.length,
    ]);
    laying.spacing = 100;
    flushSync();
    const [at100, named100] = page.seen.last ?? [];
    laying.spacing = 60;
    flushSync();
    const [at60, named60] = page.seen.last ?? [];
    expect(at60).toBeGreaterThan(2 * Number(at100));
    expect([named100, named60]).toEqual([at100, at60]);
    page.leave();
    expect(warned.mock.calls.flat().join(' ')).not.toContain('derived_inert');
    warned.mockRestore();
  });

  test('points that are laid are planned, can have screens, and stand on the sheet', () => {
    const site = opened();
    const counts = () => {
      const { replanning, screens, sheets } = layOutOf(site);
      return [replanning.planned.length, screens.set.length, sheets.rows.length];
    };
    shownAndGone(counts);
    const page = followed(counts);
    const before = page.seen.last ?? [];
    const { laying } = layOutOf(site);
    laying.spacing = 100;
    flushSync();
    const more = laying.clear.length;
    expect(more).toBeGreaterThan(10);
    expect(laying.lay()).toBe(true);
    flushSync();
    expect(page.seen.last).toEqual(before.map((n) => n + more));
    page.leave();
  });

  test('what the crew goes through follows a layout laid since, and the contours another event', () => {
    const site = opened();
    const shown = () => ({
      toRecord: recordingOf(site).points.length,
      heads: checkViewOf(site).surface.points.map(({ head }) => head),
    });
    shownAndGone(shown);
    const page = followed(shown);
    const before = page.seen.last;
    layOutOf(site).laying.lay();
    site.show({ event: '2025-09' });
    flushSync();
    expect(page.seen.last?.toRecord).toBeGreaterThan(before?.toRecord ?? Infinity);
    expect(page.seen.last?.heads).not.toEqual(before?.heads);
    page.leave();
  });
});
