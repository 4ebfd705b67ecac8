/**
 * A laboratory file of 1,000,000 rows (about 80 MB): read, checked, converted
 * and given verdicts, against PapaParse alone on the same bytes in the same run.
 * The aim is at most twice its time. Before the table, one round of each with
 * its parts and the memory it came to.
 */
import Papa from 'papaparse';
import { bench, describe } from 'vitest';
import { apply } from '../../src/domain/site/edits/apply';
import type { Target } from '../../src/io/import/context';
import { proposeMapping } from '../../src/io/import/match-columns';
import { preview } from '../../src/io/import/preview';
import { readDelimited } from '../../src/io/import/read-delimited';
import { verdictCounts } from '../../src/io/import/verdicts';
import { emptySite, importInto, sourceOf, targetOf } from '../unit/import/target';
import { labFile, LEVELS } from './lab-file';
import { note } from './rounds';

const ROWS = 1_000_000;
const bytes = labFile(ROWS);
const file = new Blob([bytes]);

const levels = sourceOf('levels.csv', ...LEVELS.trimEnd().split('\n'));
const site = importInto(emptySite(), levels, { 'is screening_levels.set': 'Levels' }).after;

const ANSWERS = {
  'new locations': 'monitoring well',
  'is samples.kind': 'field sample',
  rounds: 'year',
};

const papaAlone = () => Papa.parse<string[]>(new TextDecoder().decode(bytes)).data.length;

/** The same reading by pieces, as a large file has to be read, and nothing done with it. */
function papaByPieces(): number {
  const parser = new Papa.Parser({ delimiter: ',', newline: '\n' });
  const decoder = new TextDecoder();
  const piece = 1 << 16;
  let [left, rows] = ['', 0];
  for (let at = 0; at < bytes.length; at += piece) {
    const text = left + decoder.decode(bytes.subarray(at, at + piece), { stream: true });
    const isLast = at + piece >= bytes.length;
    const read = parser.parse(text, 0, !isLast) as { data: unknown[]; meta: { cursor: number } };
    rows += read.data.length;
    left = text.slice(read.meta.cursor);
  }
  return rows;
}

type Part = (what: string) => void;

async function wholeImport(target: Target, part: Part = () => undefined) {
  const steps = readDelimited('lab.csv', file);
  let step = await steps.next();
  while (!step.done) step = await steps.next();
  if (!step.value.ok) throw new Error(step.value.problem);
  part('read');
  const { mapping } = proposeMapping(step.value.value);
  const made = preview(step.value.value, mapping, ANSWERS, target);
  part('checked and converted');
  const counts = verdictCounts(made.edit, target);
  part('given verdicts');
  if (made.account.added !== ROWS || !made.edit) throw new Error('rows are missing');
  const judged = Object.values(counts[0]?.counts ?? {}).reduce((sum, n) => sum + n, 0);
  if (judged !== ROWS) throw new Error(`${judged} verdicts`);
  return made.edit;
}

const seconds = (ms: number) => `${(ms / 1000).toFixed(2)} s`;
const megabytes = () => Math.round(process.memoryUsage().rss / 1e6);

// Two rounds of each first: the second is what a warm engine does.
for (const round of ['first', 'second']) {
  const target = targetOf(site);
  const times: string[] = [];
  let last = performance.now();
  papaAlone();
  const alone = performance.now() - last;
  last = performance.now();
  papaByPieces();
  const byPieces = performance.now() - last;
  const start = (last = performance.now());
  let most = megabytes();
  const edit = await wholeImport(target, (what) => {
    const now = performance.now();
    times.push(`${what} ${seconds(now - last)}`);
    last = now;
    most = Math.max(most, megabytes());
  });
  const took = performance.now() - start;
  const made = apply(site, edit);
  if (!made.ok) throw new Error(made.problem);
  note(
    `${round} round, ${(bytes.length / 1e6).toFixed(0)} MB, one reader in Node`,
    `PapaParse alone ${seconds(alone)}, by pieces ${seconds(byPieces)}; import ${seconds(took)} (${times.join(', ')}), ${(took / alone).toFixed(2)} × PapaParse alone, ${(took / byPieces).toFixed(2)} × by pieces; resident ${most} MB, the file itself in memory included.`,
  );
}

describe('a laboratory file of 1,000,000 rows', () => {
  const options = { iterations: 3, time: 0, warmupIterations: 0, warmupTime: 0 };
  bench('PapaParse alone', () => void papaAlone(), options);
  bench('read, checked, converted, given verdicts', async () => void (await wholeImport(targetOf(site))), options); // prettier-ignore
});
