import { expect, test } from 'vitest';
import { eachRow } from '../../../src/domain/site/table';
import { readDelimited } from '../../../src/io/import/read-delimited';
import { readSecondHalf, type SecondRead } from '../../../src/io/import/second-half';
import type { SourceTable } from '../../../src/io/import/source-table';

/** Rows of a laboratory file, about 8.6 MB, numbered so that each is told from the others. */
const ROWS = 130_000;
const rowOf = (i: number) =>
  `MW-${i % 400},MW-${i % 400}-${i},2025-03-${String(1 + (i % 28)).padStart(2, '0')},"cis-1,2-Dichloroethene",${i % 997}.5,ug/L`;
const LINES = Array.from({ length: ROWS }, (_, i) => rowOf(i));
const HEADER = 'location,sample,date,analyte,result,unit';

/** Two lines on both sides of which every half of the file begins or ends. */
const MIDDLE = ROWS / 2;

const fileOf = (lines: readonly string[], letters: 'utf-8' | 'latin1' = 'utf-8') =>
  new Blob([Buffer.from([HEADER, ...lines].join('\n') + '\n', letters)]);

async function read(file: Blob, second: 'alone' | 'with a second reader') {
  const seconds: SecondRead[] = [];
  const reader = {
    read: async (half: Parameters<typeof readSecondHalf>[0]) => {
      const answer = await readSecondHalf(half);
      seconds.push(answer);
      return answer;
    },
    stop: () => undefined,
  };
  const steps = readDelimited('lab.csv', file, {}, second === 'alone' ? null : reader);
  for (;;) {
    const step = await steps.next();
    if (!step.done) continue;
    if (!step.value.ok) throw new Error(step.value.problem);
    return { source: step.value.value, seconds };
  }
}

const rowsOf = (source: SourceTable) => [...eachRow(source.table)].map((cells) => cells.join('|'));

async function expectTheSame(file: Blob) {
  const alone = await read(file, 'alone');
  const both = await read(file, 'with a second reader');
  expect(both.source.table.size).toBe(alone.source.table.size);
  const [ours, theirs] = [rowsOf(both.source), rowsOf(alone.source)];
  expect(ours.findIndex((row, i) => row !== theirs[i])).toBe(-1);
  expect([...both.source.broken]).toEqual([...alone.source.broken]);
  expect(both.source.said).toEqual(alone.source.said);
  expect(both.source.headings).toEqual(alone.source.headings);
  return both;
}

const changed = (changes: Readonly<Record<number, string>>) => {
  const lines = [...LINES];
  for (const [at, line] of Object.entries(changes)) lines[Number(at)] = line;
  return lines;
};

test('a large file read by two is the table one reads alone, row for row', async () => {
  const { source, seconds } = await expectTheSame(fileOf(LINES));
  expect(source.table.size).toBe(ROWS);
  const [second] = seconds;
  expect(second && typeof second === 'object' ? second.table.size : 0).toBeGreaterThan(0.49 * ROWS);
});

test('a row too long and a quote wrongly closed keep their places in the second half', async () => {
  const { source } = await expectTheSame(
    fileOf(
      changed({ [ROWS - 20]: `${rowOf(1)},more`, [ROWS - 10]: 'MW-1,"a"b,2025-03-01,x,1,ug/L' }),
    ),
  );
  expect([...source.broken.keys()]).toEqual([ROWS - 10]);
  expect(source.said.join(' ')).toContain('1 rows run on beyond the header');
});

test('a quoted note that runs over the middle of the file is one cell, and the second reader is not believed', async () => {
  const note = Array.from({ length: 40 }, (_, i) => `line ${i} of the note, with a comma`);
  const before = LINES.slice(0, MIDDLE - 20);
  const { source } = await expectTheSame(
    fileOf([
      ...before,
      `MW-1,"${note.join('\n')}",2025-03-01,x,1,ug/L`,
      ...LINES.slice(MIDDLE + 1),
    ]),
  );
  expect(rowsOf(source)[before.length]).toContain('line 39 of the note');
});

test('a quote that never closes is cut off at its line, in whichever half it stands', async () => {
  for (const at of [100, ROWS - 100]) {
    const { source } = await expectTheSame(
      fileOf(changed({ [at]: `MW-1,"never closed,x,1,ug/L` })),
    );
    expect([...source.broken.keys()]).toEqual([at]);
  }
}, 20_000);

test('letters of Windows-1252 in the second half alone are read as such in both', async () => {
  const { source } = await expectTheSame(
    fileOf(changed({ [ROWS - 5]: 'MW-1,dépôt,2025-03-01,x,1,ug/L' }), 'latin1'),
  );
  expect(rowsOf(source)[ROWS - 5]).toContain('dépôt');
  expect(source.said.join(' ')).toContain('Windows-1252');
});

test('a byte-order mark is one only where a file begins', async () => {
  const { source } = await expectTheSame(
    fileOf(Array.from({ length: ROWS }, (_, i) => `\uFEFF${rowOf(i)}`)),
  );
  expect(rowsOf(source)[ROWS - 1]?.startsWith('\uFEFF')).toBe(true);
});
