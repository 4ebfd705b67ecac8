/**
 * `npm run faults`: everything that can go wrong around the app, tried, and one
 * table of what came of it. It takes the better part of an hour; `npm run faults
 * -- short` takes some minutes.
 */
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { openHostile } from './hostile';
import { killRuns } from './kill';
import { isFair, isGross, isLarge, measure, rateOf } from './measure';
import { feedMutations } from './mutate';
import { cutShort, filesIn, oneByteChanged, type ZipTally } from './zips';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const isShort = process.argv.includes('short');
const SETTING = isShort
  ? { kills: 10, mutations: 400, planted: 90, every: 4_096 }
  : { kills: 300, mutations: 20_000, planted: 2_000, every: 1_024 };

type Row = {
  readonly fault: string;
  readonly tried: number;
  readonly held: number;
  /** Null where a rate is reported, and nothing must hold every time. */
  readonly faults: number | null;
  readonly says: string;
};

const rows: Row[] = [];
const add = (row: Row) => {
  rows.push(row);
  console.log(`${row.fault}: ${row.held} of ${row.tried}. ${row.says}`);
};

async function kills() {
  const report = await killRuns(SETTING.kills, 1, (line) => console.log(line));
  const faults =
    report.unreadable.length + report.brokenFolders.length + (report.worstLoss > 0 ? 1 : 0);
  for (const line of [...report.unreadable, ...report.brokenFolders]) console.log(line);
  add({
    fault: 'the browser is killed in the middle of work',
    tried: report.kills,
    held: report.kills - faults,
    faults,
    says: `${report.marks} edits had shown their mark; worst loss of these ${Math.max(0, report.worstLoss)}; mark after ${Math.round(report.mark.p95)} ms (95th percentile), ${Math.round(report.mark.most)} ms at most`,
  });
}

async function mutations() {
  const tally = await feedMutations(SETTING.mutations, 1, (done) => {
    if (done % 2_000 === 0) console.log(`${done} mutated files`);
  });
  const faults = [...tally.crashes, ...tally.slow, ...tally.unaccounted];
  for (const { seed, number, what } of faults) console.log(`${seed}, input ${number}: ${what}`);
  add({
    fault: 'mutated files of every format',
    tried: tally.inputs,
    held: tally.inputs - faults.length,
    faults: faults.length,
    says: `${tally.read} read, ${tally.refused} refused; longest ${Math.round(tally.longest)} ms; ${tally.unaccounted.length} with a row unaccounted for`,
  });
}

async function hostile() {
  const tally = await openHostile(5);
  for (const line of tally.faults) console.log(line);
  add({
    fault: 'files made to do harm',
    tried: tally.tried,
    held: tally.held.length,
    faults: tally.faults.length,
    says: 'refused in words, or in as the text they are',
  });
}

function zips() {
  const sites = ['demo-sites/osier-bend', 'demo-sites/quellmoor', 'tests/fixtures/inl-southwest/site']; // prettier-ignore
  const both: readonly (readonly [string, (folder: string) => ZipTally])[] = [
    [
      `a zip cut short at every ${SETTING.every / 1_024} kB`,
      (folder) => cutShort(filesIn(folder), SETTING.every),
    ],
    ['a zip with one byte changed', (folder) => oneByteChanged(filesIn(folder), SETTING.every)],
  ];
  for (const [fault, tryAll] of both) {
    const tallies = sites.map(tryAll);
    const sum = (of: (tally: ZipTally) => number) =>
      tallies.reduce((total, each) => total + of(each), 0);
    for (const line of tallies.flatMap(({ faults }) => faults)) console.log(line);
    add({
      fault,
      tried: sum(({ tried }) => tried),
      held: sum(({ refused, same }) => refused + same),
      faults: sum(({ faults }) => faults.length),
      says: `${sum(({ refused }) => refused)} refused, ${sum(({ same }) => same)} the same site`,
    });
  }
}

function planted() {
  const { demos, inl } = measure(
    Math.round(0.7 * SETTING.planted),
    Math.round(0.3 * SETTING.planted),
  );
  const kinds = [
    ['demo sites: over four times the scatter', demos.filter(isLarge)],
    ['demo sites: over five times, leverage under 0.5', demos.filter(isFair)],
    ['INL data: ten feet and more', inl.filter(isGross)],
  ] as const;
  for (const [what, all] of kinds) {
    const { of, named } = rateOf(all);
    add({
      fault: `a mistake planted in a round, ${what}`,
      tried: of,
      held: named,
      faults: null,
      says: `named ${((100 * named) / Math.max(1, of)).toFixed(1)} %`,
    });
  }
}

/** Faults tried by tests of their own: which titles are about which. */
const BY_TESTS: readonly (readonly [string, RegExp])[] = [
  ['the clock goes backwards', /clock/],
  ['storage cleared under the app', /storage.*cleared/],
  ['a worker that dies', /worker .*(?:ends|dies)/],
  ['two windows editing', /two windows|second window|window that comes second/],
  ['a site or database of a newer version', /newer (?:version|format)|a newer one/],
  ['a full disk', /disk.* full|room runs out/],
  ['cut off at any write, in memory', /wherever it was cut off/],
  ['no database at all', /no database|keeps nothing/],
  ['the network cut', /network cut/],
  ['a folder changed by somebody else', /somebody else changed/],
  ['WebGL lost or absent', /WebGL|lost on the way/],
];

const FILES = [
  'tests/unit/keeping',
  'tests/browser/keeping.test.ts',
  'tests/browser/keeping-faults.test.ts',
  'tests/browser/keeping-offline.test.ts',
  'tests/browser/kept-at-the-desk.test.ts',
  'tests/browser/map-screen.test.ts',
];

type Listed = {
  readonly testResults: readonly {
    readonly assertionResults: readonly { readonly fullName: string; readonly status: string }[];
  }[];
};

async function byTests() {
  const folder = mkdtempSync(join(tmpdir(), 'downgradient-faults-'));
  const file = join(folder, 'tests.json');
  const child = spawn(
    process.execPath,
    [join(ROOT, 'node_modules/vitest/vitest.mjs'), 'run', '--reporter=json', `--outputFile=${file}`, ...FILES], // prettier-ignore
    { cwd: ROOT, stdio: ['ignore', 'ignore', 'inherit'] },
  );
  await new Promise((over) => child.once('close', over));
  const listed = existsSync(file)
    ? (JSON.parse(readFileSync(file, 'utf8')) as Listed)
    : { testResults: [] };
  rmSync(folder, { recursive: true, force: true });
  const tests = listed.testResults.flatMap(({ assertionResults }) => assertionResults);
  for (const [fault, isAbout] of BY_TESTS) {
    const own = tests.filter(({ fullName }) => isAbout.test(fullName));
    const held = own.filter(({ status }) => status === 'passed').length;
    for (const { fullName, status } of own) if (status !== 'passed') console.log(`${status}: ${fullName}`); // prettier-ignore
    add({
      fault,
      tried: own.length,
      held,
      // A fault nobody tried did not hold.
      faults: own.length === 0 ? 1 : own.length - held,
      says: own.length === 1 ? 'one test' : `${own.length} tests`,
    });
  }
}

zips();
await hostile();
planted();
await mutations();
await byTests();
await kills();

const widest = Math.max(...rows.map(({ fault }) => fault.length));
console.log(`\n${'fault'.padEnd(widest)}   tried    held  faults`);
for (const { fault, tried, held, faults, says } of rows)
  console.log(
    `${fault.padEnd(widest)} ${String(tried).padStart(7)} ${String(held).padStart(7)} ${String(faults ?? '–').padStart(7)}  ${says}`,
  );
process.exitCode = rows.some(({ faults }) => (faults ?? 0) > 0) ? 1 : 0;
