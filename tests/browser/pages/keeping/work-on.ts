/**
 * Work as hard on a site as nobody does, and tell what was done and what had
 * shown its mark, until the browser is killed: for tests/faults/kill.ts.
 */
import { flushSync } from 'svelte';
import type { FolderPlace } from '../../../../src/app/keeping/folder-place.svelte';
import type { Edit } from '../../../../src/domain/site/edits/apply';
import { digestOf, tableDigests } from './digest';

/** What the page tells while it works. */
export type Told =
  /** A step is about to be kept: the site will look like this. */
  | {
      readonly kind: 'step';
      readonly step: number;
      readonly digest: string;
      readonly tables: readonly string[];
      readonly deed: string;
    }
  /** A step showed its mark, so long after it was made, in ms. */
  | { readonly kind: 'mark'; readonly step: number; readonly after: number; readonly deed: string }
  /** A save to the folder, or a zip, begins or has ended. */
  | { readonly kind: 'refused'; readonly why: string }
  | { readonly kind: 'save'; readonly what: 'folder' | 'zip'; readonly isOver: boolean };

declare global {
  interface Window {
    tell: (told: Told) => Promise<void>;
  }
}

/** Mulberry32: the same numbers for the same seed (Tommy Ettinger, 2017, public domain). */
export function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** More results than this, and the next import is taken back instead. */
const MOST_RESULTS = 300_000;

/** A deed that was begun, and the promise of its mark where it has one. */
type Under = { readonly mark?: Promise<void> };

const nothing = (): Promise<Under> => Promise.resolve({});
const later = (ms: number) => new Promise<Under>((resolve) => setTimeout(() => resolve({}), ms));

export async function workOn(seed: number): Promise<never> {
  const { keepingPage: page } = window;
  const random = chance(seed);
  const upTo = (most: number) => Math.floor(random() * most);
  const place = await folderPlace();

  /** Tells what is about to be done, does it, and gives the promise of its mark. */
  const keep = async (deed: string, what: Edit | 'undo' | 'redo'): Promise<Under> => {
    const planned = page.plan(what, deed);
    if (!planned || !page.keeper) return {};
    const { after } = planned.step;
    const step = page.keeper.steps + 1;
    const told = { step, digest: digestOf(after), tables: tableDigests(after), deed };
    await window.tell({ kind: 'step', ...told });
    const start = performance.now();
    const mark = page.carryOut(planned).then((isKept) => {
      if (!isKept) return;
      flushSync();
      void window.tell({ kind: 'mark', step, after: performance.now() - start, deed });
    });
    return { mark };
  };

  let isSaving = false;
  const alone = (save: () => Promise<void>): Promise<Under> => {
    if (!isSaving) {
      isSaving = true;
      void save().finally(() => (isSaving = false));
    }
    return nothing();
  };

  const rowsOf = (table: 'results' | 'water_levels') => page.keeper?.site.tables[table]?.size ?? 0;

  const cells = (table: 'results' | 'water_levels', column: string): Edit => ({
    kind: 'write-cells',
    table,
    cells: Array.from({ length: 1 + upTo(3) }, () => ({
      row: upTo(rowsOf(table)),
      column,
      text: `${upTo(4000) / 100}`,
    })),
  });

  const one = (): Edit => ({
    kind: 'add-rows',
    table: 'water_levels',
    rows: [{ screen: 'MW-1', event: 'E2', depth_to_water: `${upTo(3000) / 100}` }],
  });

  const many = (): Edit => ({
    kind: 'together',
    edits: [cells('water_levels', 'own'), page.resultRows(1_000 + upTo(80_000), upTo(1_000_000))],
  });

  const deeds: readonly (readonly [number, () => Promise<Under>])[] = [
    [40, () => keep('write', cells('water_levels', 'depth_to_water'))],
    [14, () => (rowsOf('results') === 0 ? nothing() : keep('write', cells('results', 'value')))],
    [10, () => keep('add', one())],
    [12, () => keep('undo', 'undo')],
    [6, () => keep('redo', 'redo')],
    [6, () => (rowsOf('results') > MOST_RESULTS ? keep('undo', 'undo') : keep('import', many()))],
    // Edits go on during a save.
    [4, () => alone(() => saveFolder(place))],
    [2, () => alone(saveZip)],
    [6, () => later(upTo(120))],
  ];
  const total = deeds.reduce((sum, [weight]) => sum + weight, 0);

  for (;;) {
    let left = upTo(total);
    const deed = deeds.find(([weight]) => (left -= weight) < 0);
    const under = await deed?.[1]();
    // Often the mark is waited for, as a person would; at times the next deed is there before.
    if (random() < 0.7) await under?.mark;
    else await later(upTo(8));
  }
}

async function folderPlace(): Promise<FolderPlace> {
  const { keeping, keeper } = window.keepingPage;
  if (!keeper) throw new Error('no site is open');
  const root = await navigator.storage.getDirectory();
  const folder = await root.getDirectoryHandle(keeper.id, { create: true });
  return (await keeping.folderOf(keeper)) ?? keeping.useFolder(keeper, folder);
}

async function saveFolder(place: FolderPlace): Promise<void> {
  const { keeper } = window.keepingPage;
  if (!keeper) return;
  void window.tell({ kind: 'save', what: 'folder', isOver: false });
  const saved = await place.save(keeper);
  // Nobody else writes there: what a killed save left must be known as ours.
  if (!saved.ok) void window.tell({ kind: 'refused', why: JSON.stringify(saved.problem) });
  void window.tell({ kind: 'save', what: 'folder', isOver: true });
}

async function saveZip(): Promise<void> {
  const { keeper, zipped } = window.keepingPage;
  if (!keeper) return;
  void window.tell({ kind: 'save', what: 'zip', isOver: false });
  await zipped(keeper.whole);
  void window.tell({ kind: 'save', what: 'zip', isOver: true });
}
