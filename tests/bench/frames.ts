/** How much script a page runs in each frame, by Chromium's own record of what it did. */
import type { Browser, Page } from 'playwright-core';

/** What Chromium calls its own stretches of script; those within others are not counted twice. */
const SCRIPT = new Set([
  'FireAnimationFrame',
  'FunctionCall',
  'RunMicrotasks',
  'TimerFire',
  'EventDispatch',
  'EvaluateScript',
  'HandlePostMessage',
]);
const FRAME = 'BeginMainThreadFrame';

type Traced = {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  /** µs */
  readonly ts: number;
  readonly dur?: number;
  readonly args?: { readonly name?: string };
};

/** Script of each frame in which a page does something, ms, in the order of the frames. */
export async function scriptByFrame(
  browser: Browser,
  page: Page,
  doing: () => Promise<unknown>,
): Promise<number[]> {
  const session = await browser.newBrowserCDPSession();
  const events: Traced[] = [];
  session.on('Tracing.dataCollected', ({ value }) =>
    events.push(...(value as unknown as Traced[])),
  );
  await page.bringToFront();
  await session.send('Tracing.start', {
    traceConfig: {
      includedCategories: [
        'devtools.timeline',
        'devtools.timeline.frame',
        'disabled-by-default-devtools.timeline',
        'disabled-by-default-devtools.timeline.frame',
      ],
    },
  });
  await doing();
  const complete = new Promise<void>((done) => {
    session.once('Tracing.tracingComplete', () => done());
  });
  await session.send('Tracing.end');
  await complete;
  await session.detach();
  return framesOf(events);
}

/** The frames of the page that ran most script: the browser has pages of its own. */
function framesOf(events: readonly Traced[]): number[] {
  const threads = new Map<string, Traced[]>();
  for (const event of events) {
    if (!SCRIPT.has(event.name) && event.name !== FRAME) continue;
    const key = `${event.pid} ${event.tid}`;
    const before = threads.get(key);
    if (before) before.push(event);
    else threads.set(key, [event]);
  }
  const all = [...threads.values()].map(framesOfThread);
  const sum = (frames: readonly number[]) => frames.reduce((a, b) => a + b, 0);
  return all.toSorted((a, b) => sum(b) - sum(a))[0] ?? [];
}

function framesOfThread(events: readonly Traced[]): number[] {
  const sorted = events.toSorted((a, b) => a.ts - b.ts || (b.dur ?? 0) - (a.dur ?? 0));
  const frames: number[] = [];
  let end = -Infinity;
  for (const { name, ts, dur = 0 } of sorted) {
    if (name === FRAME) {
      frames.push(0);
      continue;
    }
    if (ts + dur <= end) continue;
    const from = Math.max(ts, end);
    end = ts + dur;
    if (frames.length > 0) frames[frames.length - 1] = (frames.at(-1) ?? 0) + (end - from) / 1000;
  }
  return frames;
}

const part = (sorted: readonly number[], share: number) =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN;

/** "median 1.20 ms, nine of ten within 1.50 ms, most 3.10 ms, over 120 frames" */
export function saidOf(frames: readonly number[]): string {
  if (frames.length === 0) return 'no frame was drawn';
  const sorted = frames.toSorted((a, b) => a - b);
  const ms = (share: number) => `${part(sorted, share).toFixed(2)} ms`;
  return `median ${ms(0.5)}, nine of ten within ${ms(0.9)}, most ${ms(1)}, over ${frames.length} frames`;
}
