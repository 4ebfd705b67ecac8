import { flushSync } from 'svelte';
import * as history from '../../../../src/app/history';
import { openFolder, pickFolder } from '../../../../src/app/keeping/folder-place.svelte';
import { appOnDevice } from '../../../../src/app/keeping/app-on-device.svelte';
import { Keeping } from '../../../../src/app/keeping/keeping.svelte';
import { zipped } from '../../../../src/app/keeping/pack';
import type { SiteKeeper, Step } from '../../../../src/app/keeping/site-keeper.svelte';
import { apply, type Edit } from '../../../../src/domain/site/edits/apply';
import type { DataPackage } from '../../../../src/domain/site/data-package';
import { cellText, tableOf, type Block } from '../../../../src/domain/site/table';
import { readCsv } from '../../../../src/io/csv';
import { openWhole, type WholeSite } from '../../../../src/io/keeping/whole-site';
import { bytesOf } from '../../../../src/io/package/files';
import { digestOf, tableDigests } from './digest';
import { showState } from './show-state.svelte';
import { workOn } from './work-on';

/** A small site, as a folder's files. */
const smallFolder = () => {
  const downgradient = {
    format: 1,
    verticalUnit: 'm',
    grid: { unit: 'm' },
    soundingTolerance: 0.06,
  };
  const levels = ['screen,event,depth_to_water,own', 'MW-1,E1,8.20,x', 'DP-2,E1,9.10,'];
  const opened = openWhole(
    new Map([
      ['datapackage.json', bytesOf(JSON.stringify({ title: 'Test yard', downgradient }))],
      ['locations.csv', bytesOf('id,easting,northing\nMW-1,1,2\nDP-2,3,4\n')],
      ['water_levels.csv', bytesOf(`${levels.join('\n')}\n`)],
      ['README.md', bytesOf('A yard that is not there.\n')],
      ['images/plan.png', new Uint8Array([137, 80, 78, 71])],
    ]),
  );
  if (!opened.ok) throw new Error('the test’s own site does not open');
  return opened.value.site;
};

const ANALYTES = ['benzene', 'toluene', 'o-xylene', 'naphthalene'];

const resultRow = (i: number): Record<string, string> => ({
  sample: `S-${Math.floor(i / 60)}`,
  cas: '71-43-2',
  analyte: ANALYTES[i % 4] ?? '',
  value: i % 3 === 0 ? '' : `${(i * 7919) % 10_007}.${i % 10}`,
  unit: 'ug/L',
  detected: i % 3 === 0 ? 'no' : 'yes',
  lab_qualifier: i % 3 === 0 ? 'U' : '',
  reporting_limit: '0.50',
  method: '8260D',
});

export const resultRows = (count: number, from = 0): Edit => ({
  kind: 'add-rows',
  table: 'results',
  rows: Array.from({ length: count }, (_, i) => resultRow(from + i)),
});

/** 5,000 locations, 50,000 water levels, and so many results. */
function largeSite(results: number): WholeSite {
  const small = smallFolder();
  const columns = Object.keys(resultRow(0));
  const blocks: Block[] = [];
  for (let at = 0; at < results; at += 16_384) {
    const count = Math.min(16_384, results - at);
    const rows = Array.from({ length: count }, (_, i) => Object.values(resultRow(at + i)));
    blocks.push(...tableOf(columns, rows).blocks);
  }
  const locations = Array.from({ length: 5_000 }, (_, i) => [`L-${i}`, `${i}`, `${i * 2}`]);
  const levels = Array.from({ length: 50_000 }, (_, i) => [
    `L-${i % 5_000}`,
    `E-${Math.floor(i / 5_000)}`,
    `${(i * 31) % 40}.${i % 100}`,
  ]);
  const tables: DataPackage['tables'] = {
    locations: tableOf(['id', 'easting', 'northing'], locations),
    water_levels: tableOf(['screen', 'event', 'depth_to_water'], levels),
    results: { columns, blocks, size: results },
  };
  return { ...small, package: { ...small.package, tables } };
}

export type Planned = { readonly history: history.History<DataPackage>; readonly step: Step };

const keeping = new Keeping();
void appOnDevice.start();

/** The site open in this page, with its undo, as the app has it. */
const page = {
  appOnDevice,
  keeping,
  keeper: null as SiteKeeper | null,
  history: null as history.History<DataPackage> | null,
  heard: 0,
  smallFolder,
  largeSite,
  resultRows,
  readCsv,
  zipped,
  openFolder,
  pickFolder,
  digestOf,
  tableDigests,
  workOn,

  take(keeper: SiteKeeper) {
    page.keeper = keeper;
    page.history = history.begin(keeper.site);
    showState(keeper);
    return keeper.id;
  },

  begin: (site: WholeSite = smallFolder()) => page.take(keeping.begin(site)),

  /** Null, or why it does not open. */
  async open(id: string): Promise<string | null> {
    const opened = await keeping.open(id, (site) => {
      page.heard++;
      page.history = history.begin(site);
    });
    if (opened.ok) page.take(opened.value);
    return opened.ok ? null : opened.problem;
  },

  /** What would be done, without doing it: null where there is nothing to undo or redo. */
  plan(deed: Edit | 'undo' | 'redo', label = 'Edit'): Planned | null {
    if (!page.history) throw new Error('no site is open');
    const before = page.history.now.value;
    if (deed === 'undo' || deed === 'redo') {
      const next = history[deed](page.history);
      const after = next.now.value;
      return after === before
        ? null
        : { history: next, step: { did: deed, label: deed, edit: null, before, after } };
    }
    const made = apply(before, deed);
    if (!made.ok) throw new Error(made.problem);
    const after = made.value;
    const next = history.perform(page.history, label, after);
    return { history: next, step: { did: 'edit', label, edit: deed, before, after } };
  },

  carryOut(planned: Planned | null): Promise<boolean> {
    if (!planned || !page.keeper) return Promise.resolve(true);
    page.history = planned.history;
    return page.keeper.keep(planned.step);
  },

  edit: (label: string, edit: Edit): Promise<boolean> => page.carryOut(page.plan(edit, label)),

  write: (text: string, row = 0): Promise<boolean> =>
    page.edit(`Write ${text}`, {
      kind: 'write-cells',
      table: 'water_levels',
      cells: [{ row, column: 'depth_to_water', text }],
    }),

  level(row = 0): string {
    const table = page.keeper?.site.tables.water_levels;
    return table ? cellText(table, row, 'depth_to_water') : '';
  },

  /** What the page shows of the keeping. */
  shown(): string {
    flushSync();
    return document.getElementById('state')?.textContent ?? '';
  },
};

declare global {
  interface Window {
    keepingPage: typeof page;
  }
}

window.keepingPage = page;
