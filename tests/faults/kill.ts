/**
 * Kills the browser at random moments of hard work on a site, opens it again
 * and looks whether anything that had shown its saved mark is missing:
 *
 *     npx tsx tests/faults/kill.ts 300 [seed]
 *
 * All processes of the browser are killed at once with SIGKILL, as when the
 * battery is pulled, save that what the system had taken to be written is still
 * written: whether a disk keeps its word in a power cut can't be tested here.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright-core';
import { firstThatStarts, thisMachine, type Program } from '../browser/chromium';
import { servePage } from '../browser/pages/serve-page';
import { chance, type Told } from '../browser/pages/keeping/work-on';
import type {} from '../browser/pages/keeping/main';
import { kill, startOn, type Running } from './killable';

export type KillReport = {
  readonly kills: number;
  /** What was going on when the browser was killed, how often; it can be several things at once. */
  readonly during: Readonly<Record<string, number>>;
  readonly steps: number;
  readonly marks: number;
  /** Sites that did not open, or not as they were after some step: must be none. */
  readonly unreadable: readonly string[];
  /** The most steps that had shown their mark and were gone: must be 0. */
  readonly worstLoss: number;
  /** The most steps made, not yet marked, and gone: what a person may have to type again. */
  readonly worstUnmarked: number;
  /** Folders saved to that did not open as a site, each table as after some step, or refused a save: must be none. */
  readonly brokenFolders: readonly string[];
  /** From the step to its mark, in ms. */
  readonly mark: Quantiles;
  readonly markOfEdits: Quantiles;
  readonly markOfImports: Quantiles;
};

export type Quantiles = { readonly median: number; readonly p95: number; readonly most: number };

const quantiles = (times: readonly number[]): Quantiles => {
  const sorted = times.toSorted((a, b) => a - b);
  const at = (share: number) =>
    Math.round(sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0);
  return { median: at(0.5), p95: at(0.95), most: at(1) };
};

/** A browser with the page of the tests open in it. */
async function start(program: Program, profile: string, address: string): Promise<Running> {
  const running = await startOn(program, profile, address);
  await running.page.waitForFunction(() => 'keepingPage' in window);
  return running;
}

/** How the digest of a table without columns ends. */
const EMPTY_FILE = ' 0  0';

/** A new profile after so many kills: a browser that starts with nothing is killed as well. */
const KILLS_A_PROFILE = 15;

export async function killRuns(
  count: number,
  seed = 1,
  say: (line: string) => void = () => undefined,
): Promise<KillReport> {
  const served = await servePage('keeping');
  const random = chance(seed);
  const during: Record<string, number> = {};
  const unreadable: string[] = [];
  const brokenFolders: string[] = [];
  const times: { deed: string; after: number }[] = [];
  let [worstLoss, worstUnmarked, steps, marks] = [0, 0, 0, 0];
  let profile = '';
  let known: Work | null = null;
  const newProfile = () => {
    if (profile !== '') rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
    profile = mkdtempSync(join(tmpdir(), 'downgradient-kill-'));
    known = null;
  };

  newProfile();
  const program = await firstThatStarts(thisMachine, async (each) => {
    await kill(await start(each, profile, served.address), profile);
    return each;
  });
  try {
    for (let run = 1; run <= count + 1; run++) {
      if (run % KILLS_A_PROFILE === 0 && run <= count) {
        // The last state of the old profile is looked at before it goes.
        const last = await start(program, profile, served.address);
        look(await reopen(last.page), known, run);
        await kill(last, profile);
        newProfile();
      }
      const running = await start(program, profile, served.address);
      const found = await reopen(running.page);
      look(found, known, run);
      if (run > count) {
        await kill(running, profile);
        break;
      }
      const work: Work = {
        marked: found?.step ?? 0,
        states: new Map(),
        tables: new Set([...(known?.tables ?? []), ...(found?.tables ?? [])]),
        underWay: new Map(),
      };
      if (found?.digest) work.states.set(found.step, found.digest);
      await running.page.exposeFunction('tell', (told: Told) => {
        hear(work, told);
      });
      const isNew = found === null;
      if (isNew) {
        const blank = await running.page.evaluate(() => {
          const { digestOf, tableDigests, smallFolder } = window.keepingPage;
          const { package: site } = smallFolder();
          return { digest: digestOf(site), tables: tableDigests(site) };
        });
        work.states.set(0, blank.digest);
        for (const table of blank.tables) work.tables.add(table);
        work.underWay.set('site', 'the making of the site');
        await running.page.evaluate(() => void window.keepingPage.begin());
      }
      void running.page
        .evaluate((from) => window.keepingPage.workOn(from), seed * 100_000 + run)
        .catch(() => undefined);
      await new Promise((over) => setTimeout(over, killAfter(random, isNew)));
      const underWay = new Set(work.underWay.values());
      if (underWay.size === 0) underWay.add('nothing');
      await kill(running, profile);
      for (const what of underWay) during[what] = (during[what] ?? 0) + 1;
      known = work;
      if (run % 10 === 0) say(`${run} kills, ${marks} marks, worst loss ${worstLoss}`);
    }
  } finally {
    await served.close();
    rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
  }

  function hear(work: Work, told: Told) {
    if (told.kind === 'step') {
      steps++;
      work.states.set(told.step, told.digest);
      for (const table of told.tables) work.tables.add(table);
      work.underWay.set(told.step, told.deed);
    } else if (told.kind === 'mark') {
      marks++;
      work.marked = Math.max(work.marked, told.step);
      times.push(told);
      work.underWay.delete(told.step);
      work.underWay.delete('site');
    } else if (told.kind === 'refused') brokenFolders.push(told.why);
    else if (told.isOver) work.underWay.delete(told.what);
    else work.underWay.set(told.what, `a save to ${told.what}`);
  }

  /** Compares what opens with what was told before the kill. */
  function look(found: Found | null, before: Work | null, run: number) {
    if (!before) return;
    if (found === null) {
      // Nothing was marked: the site had not been made yet.
      if (before.marked > 0) unreadable.push(`before run ${run}: the site is not there`);
      return;
    }
    const last = Math.max(...before.states.keys());
    if (found.problem !== null) unreadable.push(`before run ${run}: ${found.problem}`);
    else if (found.digest !== before.states.get(found.step) || found.lines !== found.step)
      unreadable.push(
        `before run ${run}: step ${found.step} of ${last} is not as it was, with ${found.lines} lines`,
      );
    // A file that was new in the folder can be empty: the descriptor does not name it yet.
    const torn = found.folderTables.filter(
      (table) => !before.tables.has(table) && !table.endsWith(EMPTY_FILE),
    );
    if (torn.length > 0) brokenFolders.push(`before run ${run}: ${torn.join('; ')}`);
    if (found.folder !== null) brokenFolders.push(`before run ${run}: ${found.folder}`);
    worstLoss = Math.max(worstLoss, before.marked - found.step);
    worstUnmarked = Math.max(worstUnmarked, last - Math.max(found.step, before.marked));
  }

  const isImport = ({ deed }: { deed: string }) => deed === 'import';
  const afterOf = (some: readonly { after: number }[]) => quantiles(some.map((s) => s.after));
  return {
    kills: count,
    during,
    steps,
    marks,
    unreadable,
    worstLoss,
    worstUnmarked,
    brokenFolders,
    mark: afterOf(times),
    markOfEdits: afterOf(times.filter((each) => !isImport(each))),
    markOfImports: afterOf(times.filter(isImport)),
  };
}

/** What the page told of one run. */
type Work = {
  marked: number;
  /** Digest of the site after each step. */
  readonly states: Map<number, string>;
  /** Digests of the tables of all of these, and of the states before. */
  readonly tables: Set<string>;
  readonly underWay: Map<number | string, string>;
};

/** What opens after a kill. */
type Found = {
  readonly step: number;
  readonly digest: string;
  readonly lines: number;
  /** Why the site does not open whole; null when it does. */
  readonly problem: string | null;
  /** Why the folder it was saved to does not open; null when it does, or is not there. */
  readonly folder: string | null;
  readonly tables: readonly string[];
  readonly folderTables: readonly string[];
};

/** Mostly within the first second of work, at times within the first moments, at times long after. */
function killAfter(random: () => number, isNew: boolean): number {
  const most = isNew ? 600 : [60, 1_000, 1_000, 3_000][Math.floor(random() * 4)];
  return random() * (most ?? 1_000);
}

/** Opens the one site kept; null when there is none. */
const reopen = (page: Page): Promise<Found | null> =>
  page.evaluate(async () => {
    const { keeping, open, digestOf, tableDigests, openFolder } = window.keepingPage;
    await keeping.sweep();
    await keeping.refresh();
    const nothing = { step: 0, digest: '', lines: 0, folder: null, tables: [], folderTables: [] };
    if (keeping.problem !== null) return { ...nothing, problem: keeping.problem };
    const [site] = keeping.sites;
    if (!site) return null;
    const problem = await open(site.id);
    const { keeper } = window.keepingPage;
    if (problem !== null || !keeper) return { ...nothing, problem };
    const root = await navigator.storage.getDirectory();
    const folder = await root.getDirectoryHandle(site.id).catch(() => null);
    const isSaved = await folder?.getFileHandle('datapackage.json').catch(() => null);
    const opened = folder && isSaved ? await openFolder(folder) : null;
    return {
      step: keeper.steps,
      digest: digestOf(keeper.site),
      lines: keeper.whole.lines.length,
      problem: keeper.problems[0] ?? null,
      folder: opened && !opened.ok ? opened.problem : null,
      tables: tableDigests(keeper.site),
      folderTables: opened?.ok ? tableDigests(opened.value.site.package) : [],
    };
  });

const isMain = import.meta.url === pathToFileURL(process.argv[1] ?? '').href;
if (isMain) {
  const [count = '300', seed = '1'] = process.argv.slice(2);
  const report = await killRuns(Number(count), Number(seed), (line) => console.log(line));
  console.log(JSON.stringify(report, null, 2));
  const isSound =
    report.unreadable.length === 0 && report.brokenFolders.length === 0 && report.worstLoss <= 0;
  process.exitCode = isSound ? 0 : 1;
}
