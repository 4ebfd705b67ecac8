/** What a person did not touch stays as it was: corners of an outline, the way of working, initials. */
import { describe, expect, test } from 'vitest';
import { putInHand, takeInHand } from '../../../src/app/keeping/in-hand';
import type { SiteKeeper } from '../../../src/app/keeping/site-keeper.svelte';
import { layOutOf } from '../../../src/app/lay-out/lay-out.svelte';
import { OpenSite } from '../../../src/app/open-site.svelte';
import { packageFrom } from '../site-from';

const SURVEYED =
  'POLYGON ((0.12345 0.5, 100.98765 0.25, 100.5 100.33333, 0.75 100.125, 0.12345 0.5))';

const opened = (keeper?: SiteKeeper) =>
  new OpenSite({
    package: packageFrom({
      features: ['id,kind,name,shape', `F-1,boundary,Lot line,"${SURVEYED}"`],
    }),
    problems: [],
    ...(keeper ? { keeper } : {}),
  });

const changing = () => {
  const site = opened();
  const { draft } = layOutOf(site);
  const [boundary] = site.site.features;
  if (!boundary) throw new Error('no boundary');
  draft.change(boundary);
  return { site, draft, shape: () => site.site.features[0]?.shape };
};

describe('a boundary from a survey, changed', () => {
  test('keeps every digit where only its buffer is another', () => {
    const { draft, shape, site } = changing();
    draft.attributes.buffer = '10';
    expect(draft.keep()).toBe(true);
    expect(site.site.features[0]?.buffer?.text).toBe('10');
    expect(shape()).toBe(SURVEYED);
  });

  test('keeps those of the corners that were not moved', () => {
    const { draft, shape } = changing();
    draft.move(2, [90.123, 95.456]);
    expect(draft.keep()).toBe(true);
    expect(shape()).toBe(
      'POLYGON ((0.12345 0.5, 100.98765 0.25, 90.12 95.46, 0.75 100.125, 0.12345 0.5))',
    );
  });
});

describe('the same window loaded again', () => {
  const keeper = (id: string) => ({ id, isWriting: true }) as unknown as SiteKeeper;

  test('opens its last site the way it was in, with the initials given there', () => {
    const before = opened(keeper('yard'));
    before.way = 'lay-out';
    before.initials = 'RV';
    putInHand(before);
    const after = opened(keeper('yard'));
    takeInHand(after);
    expect([after.way, after.initials]).toEqual(['lay-out', 'RV']);
    const other = opened(keeper('mill'));
    takeInHand(other);
    expect([other.way, other.initials]).toEqual(['check', '']);
  });

  test('opens the usual way where what was put down cannot be read', () => {
    sessionStorage.setItem('downgradient:in-hand', '{"site":"yard","way":"elsewhere"');
    const site = opened(keeper('yard'));
    takeInHand(site);
    expect(site.way).toBe('check');
  });
});
