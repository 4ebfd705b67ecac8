/**
 * Any work on a site, cut off after any write to the database, with or without
 * the browser having said that the write was done. What opens afterwards must
 * be the site as it was after some step, none earlier than the last one that
 * showed its mark.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { SiteKeeper } from '../../../src/app/keeping/site-keeper.svelte';
import { begin, perform, redo, undo, type History } from '../../../src/app/history';
import { apply, type Edit } from '../../../src/domain/site/edits/apply';
import type { DataPackage } from '../../../src/domain/site/data-package';
import { SiteStore } from '../../../src/io/keeping/site-store';
import {
  contentOf,
  newDatabase,
  resultRows,
  smallSite,
  StandInLocks,
  windowOf,
  wholeOf,
} from './stand-ins';

const WRITES = ['append', 'create', 'putBlocks', 'putFiles', 'putSnapshot'] as const;

/** A store whose window dies at its so-manieth write: nothing comes back from then on. */
class DyingStore extends SiteStore {
  #left: number;
  isDead = false;

  constructor(name: string, writes: number, isLastWritten: boolean) {
    super(name);
    this.#left = writes;
    for (const method of WRITES) {
      const write = this[method].bind(this) as (...given: unknown[]) => Promise<unknown>;
      const dying = async (...given: unknown[]) => {
        if (this.isDead || this.#left-- <= 0) {
          if (!this.isDead && isLastWritten) await write(...given);
          this.isDead = true;
          return new Promise(() => {});
        }
        return write(...given);
      };
      Object.assign(this, { [method]: dying });
    }
  }
}

type Deed = { readonly edit: Edit } | 'undo' | 'redo' | 'wait';

const text = fc.constantFrom('', '8.20', '8.3', '<0.5', 'ß, "q"', '=1+1', '__proto__');
const deed: fc.Arbitrary<Deed> = fc.oneof(
  {
    weight: 5,
    arbitrary: fc
      .record({ row: fc.nat(3), column: fc.constantFrom('depth_to_water', 'note', 'own'), text })
      .map(({ row, ...cell }) => ({
        edit: { kind: 'write-cells', table: 'water_levels', cells: [{ row, ...cell }] } as const,
      })),
  },
  {
    weight: 3,
    arbitrary: fc
      .record({ screen: text, depth_to_water: text })
      .map((row) => ({ edit: { kind: 'add-rows', table: 'water_levels', rows: [row] } as const })),
  },
  {
    weight: 1,
    arbitrary: fc.nat(3).map((row) => ({
      edit: { kind: 'remove-rows', table: 'water_levels', rows: [row] } as const,
    })),
  },
  {
    weight: 1,
    arbitrary: text.map((title) => ({
      edit: { kind: 'change-settings', settings: { title } } as const,
    })),
  },
  {
    weight: 1,
    arbitrary: fc.nat(9).map((from) => ({
      edit: { kind: 'together', edits: [resultRows(2, from), resultRows(3_500, from)] } as const,
    })),
  },
  { weight: 3, arbitrary: fc.constantFrom('undo' as const, 'redo' as const) },
  { weight: 2, arbitrary: fc.constant('wait' as const) },
);

const breath = () => new Promise((resolve) => setTimeout(resolve, 0));

/** Does the deeds as the app does; gives the state after each step kept. */
async function work(
  keeper: SiteKeeper,
  deeds: readonly Deed[],
  onmark: (step: number) => void,
  isOver: () => boolean,
) {
  let history: History<DataPackage> = begin(keeper.site);
  const states: DataPackage[] = [];
  for (const each of deeds) {
    if (isOver()) break;
    const before = history.now.value;
    if (each === 'wait') {
      await breath();
      continue;
    }
    let did: 'edit' | 'undo' | 'redo' = 'edit';
    if (each === 'undo' || each === 'redo') {
      did = each;
      history = each === 'undo' ? undo(history) : redo(history);
      if (history.now.value === before) continue;
    } else {
      const result = apply(before, each.edit);
      if (!result.ok) continue;
      history = perform(history, 'Edit', result.value);
    }
    const after = history.now.value;
    const step = states.push(after);
    const edit = typeof each === 'object' ? each.edit : null;
    void keeper.keep({ did, label: did, edit, before, after }).then((isKept) => {
      if (isKept && !isOver()) onmark(step);
    });
  }
  return states;
}

test('whatever was done and wherever it was cut off, the site opens as of the last saved mark or later', async () => {
  let cutShort = 0;
  await fc.assert(
    fc.asyncProperty(
      fc.array(deed, { minLength: 1, maxLength: 25 }),
      fc.nat(30),
      fc.boolean(),
      fc.constantFrom(1, 2, 5, 64),
      async (deeds, writes, isLastWritten, snapshotEvery) => {
        const name = newDatabase();
        const dying = new DyingStore(name, writes, isLastWritten);
        const keeper = SiteKeeper.begin(
          wholeOf(smallSite()),
          windowOf({ store: dying, snapshotEvery }),
        );
        let marked = 0;
        const states = await work(
          keeper,
          deeds,
          (step) => {
            marked = Math.max(marked, step);
          },
          () => dying.isDead,
        );
        for (let i = 0; i < 50 && !dying.isDead && keeper.state !== 'saved'; i++) await breath();
        if (dying.isDead) cutShort++;
        else expect(keeper.state).toBe('saved');
        dying.isDead = true;

        const around = windowOf({
          store: new SiteStore(name),
          locks: new StandInLocks(),
          snapshotEvery,
        });
        const list = await around.store.list();
        if (!list.ok) throw new Error('the list can’t be read');
        if (list.value.length === 0) {
          expect(marked).toBe(0);
          return;
        }
        const opened = await SiteKeeper.open(keeper.id, around);
        if (!opened.ok) throw new Error(opened.problem.kind);
        const again = opened.value;
        expect(again.problems).toEqual([]);
        expect(again.steps).toBeGreaterThanOrEqual(marked);
        expect(again.whole.lines).toHaveLength(again.steps);
        const expected = again.steps === 0 ? smallSite() : states[again.steps - 1];
        expect(contentOf(again.site)).toEqual(expected && contentOf(expected));

        // And it can be worked on as if nothing had been.
        const more = await work(
          again,
          deeds,
          () => {},
          () => false,
        );
        await again.close();
        const end = await SiteKeeper.open(keeper.id, around);
        if (!end.ok) throw new Error(end.problem.kind);
        expect(contentOf(end.value.site)).toEqual(contentOf(more.at(-1) ?? again.site));
        expect(end.value.problems).toEqual([]);
        await end.value.close();
      },
    ),
    { numRuns: 150 },
  );
  expect(cutShort).toBeGreaterThan(20);
}, 300_000);
