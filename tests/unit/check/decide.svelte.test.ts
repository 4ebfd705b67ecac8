import { expect, test } from 'vitest';
import { OpenSite } from '../../../src/app/open-site.svelte';
import { findingsInView } from '../../../src/app/check/findings-in-view.svelte';
import { signedOf } from '../../../src/app/walk/signed.svelte';
import { GOOD, levelsOf, linesOf } from '../findings/a-site';
import { packageFrom } from '../site-from';

const rounds = packageFrom({
  ...linesOf(GOOD),
  events: [
    'id,title,first_day,last_day',
    'E1,First,2025-09-01,2025-09-01',
    'E2,Second,2026-03-01,2026-03-01',
  ],
  water_levels: [
    ...levelsOf(GOOD, 'E1', '2025-09-01'),
    ...levelsOf(GOOD, 'E2', '2026-03-01').slice(1),
  ],
});
const opened = () => new OpenSite({ package: rounds, problems: [] });

test('one decision on readings of two events is one step, with who made it, and one step back', () => {
  const site = opened();
  site.initials = 'A.B.';
  const before = site.site.decisions.length;
  const readings = ['E2', 'E1'].map((event) => `W-5 @ ${event}`);
  expect(site.decide('Leave W-5 out', 'exclude', readings, 'Its mark is off.').ok).toBe(true);
  const made = site.site.decisions.slice(before);
  expect(made.map(({ on, who }) => [on, who])).toEqual(readings.map((on) => [on, 'A.B.']));
  expect(made.every(({ when }) => /^\d{4}-\d\d-\d\dT\d\d:\d\d$/.test(when ?? ''))).toBe(true);
  expect(site.undoLabel).toBe('Leave W-5 out');
  site.undo();
  expect(site.site.decisions).toHaveLength(before);
});

test('without a reason none of them is left out', () => {
  const site = opened();
  const before = site.site.decisions.length;
  expect(site.decide('Leave out', 'exclude', ['W-1 @ E1', 'W-2 @ E1'], ' ').ok).toBe(false);
  expect(site.site.decisions).toHaveLength(before);
});

test('the findings in view are those of the event shown, and can be asked for', () => {
  const site = opened();
  const view = findingsInView(site);
  site.show({ event: 'E1' });
  expect(view.all.map(({ about }) => about)).toEqual(site.findings.map(({ about }) => about));
  expect(view.isChecking).toBe(false);
  view.reveal();
  expect(view.revealed).toBe(1);
});

test('who prepares and who reviews is typed once for the sheet and the memo', () => {
  const site = opened();
  signedOf(site).reviewer = 'K.B.';
  expect(signedOf(site).reviewer).toBe('K.B.');
  expect(signedOf(opened()).reviewer).toBe('');
});
