import { expect, test } from 'vitest';
import { killRuns } from '../faults/kill';

const KILLS = 6;

test(`the browser is killed ${KILLS} times in the middle of work: no edit that had shown its mark is missing`, async () => {
  const report = await killRuns(KILLS, 3);
  expect(report.unreadable).toEqual([]);
  expect(report.brokenFolders).toEqual([]);
  expect(report.worstLoss).toBe(0);
  expect(report.marks).toBeGreaterThan(10);
  // The promise: within a second, 95 times of 100.
  expect(report.mark.p95).toBeLessThan(1_000);
}, 180_000);
