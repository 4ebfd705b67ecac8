import { expect, test } from 'vitest';
import { acceptedBy, examine, findingsOf } from '../../../src/domain/findings/findings-of';
import { apply } from '../../../src/domain/site/edits/apply';
import { readSite } from '../../../src/domain/site/site';
import { flatGrid, packageFrom } from '../site-from';
import { but, found, GOOD, linesOf, one, siteOfWells } from './a-site';

const WRONG = but('W-5', { mark: '103.39' }, but('W-2', { status: 'recovering' }));

test('the worst comes first, and each thing is said once', () => {
  const all = found(siteOfWells([...WRONG]));
  const rank = { serious: 0, caution: 1, note: 2 };
  const ranks = all.map(({ severity }) => rank[severity]);
  expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
  expect(new Set(all.map(({ about }) => about)).size).toBe(all.length);
  expect(all[0]?.severity).toBe('serious');
});

test('a finding has the same name again, whatever its numbers are', () => {
  const again = found(siteOfWells(but('W-5', { mark: '104.39' })));
  expect(one(found(siteOfWells(WRONG)), 'residual stands out').about).toBe(
    'residual stands out: W-5 @ E1',
  );
  expect(one(again, 'residual stands out').about).toBe('residual stands out: W-5 @ E1');
});

test('a finding accepted with a reason stays in the list, with who accepted it and why', () => {
  const before = packageFrom(linesOf(WRONG));
  const site = readSite(before, flatGrid());
  const finding = one(found(site), 'residual stands out');
  expect(finding.accepted).toBeNull();
  const accept = {
    kind: 'decide',
    what: 'accept finding',
    on: finding.about,
    who: 'K.B.',
    when: '2025-10-01T10:00',
  } as const;
  expect(apply(before, { ...accept, reason: ' ' })).toEqual({ ok: false, problem: 'no-reason' });
  const edited = apply(before, { ...accept, reason: 'Resurveyed: the mark is right' });
  if (!edited.ok) throw new Error(edited.problem);
  const accepted = readSite(edited.value, flatGrid());
  const same = one(found(accepted), 'residual stands out');
  expect(same).toMatchObject({ severity: 'serious', says: finding.says });
  expect(same.accepted).toMatchObject({ reason: 'Resurveyed: the mark is right', who: 'K.B.' });
  expect(acceptedBy(accepted, same)).toBe(same.accepted);
  expect(found(accepted)).toHaveLength(found(site).length);
});

test('without an event the site alone is looked at', () => {
  const site = siteOfWells(but('W-5', { mark: '113.39' }));
  expect(findingsOf(examine(site, null)).map(({ rule }) => rule)).toEqual(['height of a mark']);
  expect(found(site).map(({ rule }) => rule)).toContain('height of a mark');
});

test('an event nobody gauged has no findings of its own, and an empty site none at all', () => {
  const site = siteOfWells(GOOD, {
    events: [
      'id,title,first_day,last_day',
      'E1,First,2025-09-01,2025-09-01',
      'E2,Second,2026-03-01,2026-03-01',
    ],
  });
  expect(found(site, 'E2')).toEqual([]);
  expect(found(readSite(packageFrom({}), flatGrid()), null)).toEqual([]);
});

test('every finding says what it rests on in cells that are there', () => {
  const site = siteOfWells(WRONG);
  for (const { cells } of found(site))
    for (const cell of cells)
      expect(cell.kind === 'cell' && cell.row >= 2 && cell.row <= GOOD.length + 1).toBe(true);
});
