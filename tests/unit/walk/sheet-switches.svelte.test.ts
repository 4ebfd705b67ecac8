/** A sheet is begun from what the desk shows; from then on its switches are its own. */
import { describe, expect, test } from 'vitest';
import { OpenSite } from '../../../src/app/open-site.svelte';
import { Figure } from '../../../src/app/walk/figure.svelte';
import { signedOf } from '../../../src/app/walk/signed.svelte';
import { openFolder } from '../folder';

const opened = () =>
  new OpenSite({ package: openFolder('demo-sites/osier-bend').package, problems: [] });

describe('a figure sheet', () => {
  test('begins with what the desk shows, and changes nothing of it', () => {
    const site = opened();
    site.show({ event: '2026-03', analyte: 'Benzene' });
    const figure = new Figure(site);
    expect(figure.shown).toEqual(site.shown);
    figure.show({ verdicts: false, event: '2025-09', analyte: null });
    expect(figure.shown).toMatchObject({ verdicts: false, event: '2025-09', analyte: null });
    expect(figure.answers.flow?.event).toBe('2025-09');
    expect(site.shown).toMatchObject({ verdicts: true, event: '2026-03', analyte: 'Benzene' });
    expect(site.flow?.event).toBe('2026-03');
  });

  test('is not changed by what the desk shows later', () => {
    const site = opened();
    const figure = new Figure(site);
    const before = figure.shown;
    site.show({ event: '2025-09', heads: false });
    expect(figure.shown).toEqual(before);
  });

  test('names in its heading what its table of results is of', () => {
    const site = opened();
    site.show({ event: '2026-09', analyte: 'Benzene' });
    const figure = new Figure(site);
    figure.set({ kind: 'table', table: 'results' });
    expect(figure.table?.title).toBe('Results: Benzene');
    expect(new Set(figure.table?.rows.map((row) => row[2]))).toEqual(new Set(['Benzene']));
  });

  test('hands its names on to the next sheet and to the memo', () => {
    const site = opened();
    new Figure(site).set({ preparer: 'R. Vance', revision: '1', title: 'Heads' });
    expect(signedOf(site)).toMatchObject({ preparer: 'R. Vance', revision: '1' });
    expect(new Figure(site).form).toMatchObject({ preparer: 'R. Vance', revision: '1' });
    expect(new Figure(opened()).form.preparer).toBe('');
  });
});
