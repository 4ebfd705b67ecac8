import { flushSync } from 'svelte';
import { describe, expect, test } from 'vitest';
import { OpenSite } from '../../../src/app/open-site.svelte';
import type { DataPackage } from '../../../src/domain/site/data-package';
import { GOOD, levelsOf, linesOf } from '../findings/a-site';
import { packageFrom } from '../site-from';

const opened = (site: DataPackage) => new OpenSite({ package: site, problems: [] });

const wells = linesOf(GOOD);

/** Two rounds of the wells, and five grab samples nobody gauged. */
const rounds = {
  ...wells,
  events: [
    'id,title,first_day,last_day',
    'E1,Round,2025-09-01,2025-09-01',
    'E2,Samples,2025-10-01,2025-10-01',
  ],
};

const zoneWritten = (zone: string, rows: readonly number[] = GOOD.map((_, i) => i)) =>
  ({
    kind: 'write-cells',
    table: 'screens',
    cells: rows.map((row) => ({ row, column: 'zone', text: zone })),
  }) as const;

describe('what is shown stays something the site has', () => {
  test('the only zone is renamed: the plane is shown under its new name, and undo shows the old', () => {
    const site = opened(packageFrom(wells));
    const stop = $effect.root(() => {
      $effect(() => void site.flow);
    });
    flushSync();
    expect(site.shown.zone).toBe('sand');
    site.edit('Name the zone', zoneWritten('shallow'));
    flushSync();
    expect([site.shown.zone, site.zones, site.flow?.fitted.length]).toEqual([
      'shallow',
      ['shallow'],
      8,
    ]);
    site.undo();
    flushSync();
    expect([site.shown.zone, site.flow?.fitted.length]).toEqual(['sand', 8]);
    stop();
  });

  test('a zone chosen comes back with the event it was gauged in', () => {
    const site = opened(
      packageFrom({ ...rounds, water_levels: levelsOf(GOOD, 'E1', '2025-09-01') }),
    );
    site.edit('Name another', zoneWritten('deep', [5, 6, 7]));
    site.show({ zone: 'deep' });
    site.show({ event: 'E2' });
    expect([site.shown.zone, site.zones]).toEqual([null, []]);
    site.show({ event: 'E1' });
    expect(site.shown.zone).toBe('deep');
  });

  test('rows put into an empty site bring their event, which stays when a later one comes', () => {
    const site = opened(packageFrom({}));
    expect([site.shown.event, site.flow]).toEqual([null, null]);
    const add = (id: string, day: string) =>
      site.edit('Add an event', {
        kind: 'add-rows',
        table: 'events',
        rows: [{ id, title: id, first_day: day, last_day: day }],
      });
    add('E1', '2025-09-01');
    expect(site.shown.event).toBe('E1');
    add('E2', '2025-10-01');
    expect(site.shown.event).toBe('E1');
    site.undo();
    site.undo();
    expect(site.shown.event).toBeNull();
  });

  test('an event taken away again is no longer shown', () => {
    const site = opened(packageFrom(rounds));
    site.show({ event: 'E2' });
    site.edit('Take it away', { kind: 'remove-rows', table: 'events', rows: [1] });
    expect(site.shown.event).toBe('E1');
  });

  test('results of a zone that is renamed are not left asked for under a name nobody has', () => {
    const site = opened(
      packageFrom({
        ...wells,
        samples: ['id,screen,event,kind,matrix', 'S-1,W-1,E1,field sample,groundwater'],
        results: ['sample,cas,analyte,value,unit,detected', 'S-1,71-43-2,Benzene,7,µg/L,yes'],
      }),
    );
    site.asked = { ...site.asked, zone: 'sand', matrix: 'groundwater' };
    expect(site.asked.zone).toBe('sand');
    site.edit('Name the zone', zoneWritten('shallow'));
    expect([site.asked.zone, site.asked.matrix]).toEqual([null, 'groundwater']);
  });

  test('a three-point construction goes with the zone it was made in', () => {
    const site = opened(packageFrom(wells));
    site.show({ construction: ['W-1', 'W-2', 'W-4'] });
    expect(site.shown.construction).toHaveLength(3);
    site.edit('Name the zone', zoneWritten('shallow'));
    expect(site.shown.construction).toEqual([]);
  });
});
