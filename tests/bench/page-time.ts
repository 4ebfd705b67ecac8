/** What a page's time and memory went to, for the measures in this folder. */
import { readFileSync, writeFileSync } from 'node:fs';
import type { Browser, Locator, Page } from 'playwright-core';

/** Watches from now on how long the page could not have answered a click. */
export const watchGaps = (page: Page) =>
  page.evaluate(() => {
    const watched = window as unknown as { gaps?: { longest: number; recent: number } };
    if (watched.gaps) return;
    const gaps = (watched.gaps = { longest: 0, recent: 0 });
    let last = performance.now();
    setInterval(() => {
      const now = performance.now();
      gaps.longest = Math.max(gaps.longest, now - last);
      gaps.recent = Math.max(gaps.recent, now - last);
      last = now;
    }, 4);
  });

/** The longest gap since it was last asked to begin anew, in ms; `recent` the longest since it was last asked at all. */
export const gapsOf = (
  page: Page,
): Promise<{ readonly longest: number; readonly recent: number }> =>
  page.evaluate(() => {
    const { gaps } = window as unknown as { gaps: { longest: number; recent: number } };
    const { longest, recent } = gaps;
    gaps.recent = 0;
    return { longest, recent };
  });

/** The longest gap since it was last asked, in ms. */
export const longestGap = (page: Page): Promise<number> =>
  page.evaluate(() => {
    const { gaps } = window as unknown as { gaps: { longest: number } };
    const { longest } = gaps;
    gaps.longest = 0;
    return Math.round(longest);
  });

type Spent = { readonly script: number; readonly task: number };

/**
 * What the page spent on script and on all its work since it was last asked, in
 * ms of the processor's time: what else the machine does is not counted.
 */
export async function scriptMeter(page: Page): Promise<() => Promise<Spent>> {
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  let before: Spent = { script: 0, task: 0 };
  return async () => {
    const { metrics } = await session.send('Performance.getMetrics');
    const total = (name: string) => 1000 * (metrics.find((each) => each.name === name)?.value ?? 0);
    const now = { script: total('ScriptDuration'), task: total('TaskDuration') };
    const spent = { script: now.script - before.script, task: now.task - before.task };
    before = now;
    return spent;
  };
}

/** Numbers of the processes that draw pages and run their workers. */
async function renderers(browser: Browser): Promise<readonly number[]> {
  const session = await browser.newBrowserCDPSession();
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  await session.detach();
  return processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => id);
}

/** The most memory any process that draws pages has held, in MB, since it was last forgotten; null but on Linux. */
export async function peakMemory(browser: Browser): Promise<number | null> {
  const peaks = (await renderers(browser)).map((id) => {
    try {
      const status = readFileSync(`/proc/${id}/status`, 'utf8');
      return Number(/VmHWM:\s*(\d+) kB/.exec(status)?.[1] ?? 0) / 1024;
    } catch {
      return 0;
    }
  });
  const most = Math.round(Math.max(0, ...peaks));
  return most > 0 ? most : null;
}

/** Forget the most memory held so far, what a peer took for instance (proc(5), clear_refs). Whether that could be done. */
export async function forgetPeak(browser: Browser): Promise<boolean> {
  try {
    for (const id of await renderers(browser)) writeFileSync(`/proc/${id}/clear_refs`, '5');
    return true;
  } catch {
    return false;
  }
}

/**
 * How long the app itself takes to answer another choice, in ms by the clock of
 * the page: from the change till all that hangs from it has been worked out and
 * stands in the document. Left out are finding the field, and the frames in
 * which the map and the browser draw it later.
 */
export const answerTo = (field: Locator, value: string): Promise<number> =>
  field.evaluate(async (element, chosen) => {
    (element as HTMLSelectElement).value = chosen;
    const start = performance.now();
    element.dispatchEvent(new Event('change', { bubbles: true }));
    // Svelte answers in the microtasks that follow, before any other task of the page.
    for (let i = 0; i < 20; i++) await Promise.resolve();
    return Math.round(performance.now() - start);
  }, value);

export const seconds = (ms: number) => `${(ms / 1000).toFixed(2)} s`;

/**
 * How long from what a person does to what it brings, by the clock of the page:
 * from the change of a field till a selector is there.
 */
export async function fromChangeTill(
  page: Page,
  till: string,
  change: () => Promise<unknown>,
): Promise<number> {
  const timed = await page.evaluateHandle(
    (selector) =>
      ({
        took: new Promise<number>((done) => {
          addEventListener(
            'change',
            () => {
              const start = performance.now();
              // Anonymous throughout: what runs this names functions by a helper the page lacks.
              const looking = setInterval(() => {
                // The page has first to take down what stood there before.
                if (performance.now() - start < 1 || !document.querySelector(selector)) return;
                clearInterval(looking);
                done(performance.now() - start);
              }, 4);
            },
            { capture: true, once: true },
          );
        }),
      }) as const,
    till,
  );
  await change();
  const took = await timed.evaluate(({ took: promised }) => promised);
  await timed.dispose();
  return took;
}
