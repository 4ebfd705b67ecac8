/** Workers end without a word when memory is short, and some never start. */
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { Slow } from '../../../src/app/check/slow.svelte';
import { ImportingAway } from '../../../src/app/import/importing-away';
import { unzipped, zipped } from '../../../src/app/keeping/pack';
import { filesOf } from '../../../src/io/keeping/whole-site';
import { zipOf } from '../../../src/io/package/files';
import { smallSite, wholeOf } from './stand-ins';

let ended = 0;

/** A worker that is asked and never answers; and, where it can, says that it has ended. */
class DeadWorker {
  static says: string | null = null;
  onerror: ((event: { message: string }) => void) | null = null;
  postMessage() {
    const { says } = DeadWorker;
    if (says !== null) queueMicrotask(() => this.onerror?.({ message: says }));
  }
  addEventListener() {}
  removeEventListener() {}
  terminate() {
    ended++;
  }
}

beforeEach(() => {
  ended = 0;
  vi.stubGlobal('Worker', DeadWorker);
});
afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

describe('the worker that packs a site', () => {
  const site = wholeOf(smallSite(), { lines: ['{"did":"edit"}'] });

  test('ends with an error: the page packs the same bytes itself', async () => {
    DeadWorker.says = 'out of memory';
    expect(await zipped(site)).toEqual(zipOf(filesOf(site)));
    expect(ended).toBe(1);
  });

  test('ends without a word: the page waits, and packs the same bytes itself', async () => {
    DeadWorker.says = null;
    vi.useFakeTimers();
    const files = unzipped(site);
    await vi.advanceTimersByTimeAsync(60_000);
    expect(new Map(await files)).toEqual(new Map(filesOf(site)));
    expect(ended).toBe(1);
  });
});

test('the worker of a slow calculation ends: it is said, nothing stands as if it were still at work, and it can be asked again', async () => {
  DeadWorker.says = 'out of memory';
  const slow = new Slow<number, number>((water) =>
    (water.triangles as unknown as () => Promise<number>)(),
  );
  void slow.ask(1);
  await vi.waitFor(() => expect(slow.working).toBe(false));
  expect(slow.trouble).toBe(
    'It could not be worked out: the browser ended the calculation (out of memory). Ask again.',
  );
  expect(slow.answer).toBeNull();
  void slow.ask(2);
  await vi.waitFor(() => expect(ended).toBe(2));
});

test('the worker of an import ends: who waits is told, and the next file gets a new one', async () => {
  DeadWorker.says = '';
  const away = new ImportingAway();
  const asked = () => away.ask((room) => room.edits());
  await expect(asked()).rejects.toThrow('the browser ended its worker');
  await expect(asked()).rejects.toThrow('the browser ended its worker');
  expect(ended).toBe(2);
});
