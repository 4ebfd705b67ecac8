import { expect, test } from 'vitest';
import { renameEdit, renaming } from '../../../src/domain/layout/renumber';
import { apply } from '../../../src/domain/site/edits/apply';
import { readSite } from '../../../src/domain/site/site';
import { flatGrid, packageFrom } from '../site-from';

const before = packageFrom({
  locations: [
    'id,easting,northing,kind,status',
    'DP-01,0,0,direct push,pushed',
    'X-1,1,0,direct push,planned',
    'X-2,2,0,direct push,planned',
  ],
  screens: ['id,location,planned_tip_depth', 'X-1-1,X-1,10', 'DP-01-1,DP-01,12'],
  decisions: [
    'what,on,reason,who,when',
    'clear point,X-2,ticket 1; cleared by RK,RK,2026-05-01T08:00',
  ],
});
const locations = [...readSite(before, flatGrid()).locations.values()];

test('planned points are named anew, stepping over the name a pushed point keeps', () => {
  expect(renaming(locations, 'DP-[number 01]')).toEqual({
    ok: true,
    value: [
      { from: 'X-1', to: 'DP-02' },
      { from: 'X-2', to: 'DP-03' },
    ],
  });
  expect(renaming(locations, 'DP-[row A]').ok).toBe(false);
});

test('screens and clearances follow their point, in one step', () => {
  const made = renaming(locations, 'DP-[number 01]');
  if (!made.ok) throw new Error(made.problem);
  const edit = renameEdit(before, made.value);
  const after = edit && apply(before, edit);
  if (!after?.ok) throw new Error('not renamed');
  const site = readSite(after.value, flatGrid());
  expect(site.problems).toEqual([]);
  expect(site.screens.get('X-1-1')?.location).toBe('DP-02');
  expect(site.screens.get('DP-01-1')?.location).toBe('DP-01');
  expect(site.decisions[0]?.on).toBe('DP-03');
  expect(renameEdit(before, [])).toBeNull();
});
