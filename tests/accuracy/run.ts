/**
 * Works out every case anew, prints the table and writes it into the README.
 *
 *     npm run accuracy
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { agrees, allCases, tableOf, withTable } from './table';

const README = fileURLToPath(new URL('../../README.md', import.meta.url));

const cases = allCases();
const table = tableOf(cases);
console.log(table);
const page = withTable(readFileSync(README, 'utf8'), table);
if (page === null) throw new Error('README.md has lost the marks the table stands between.');
writeFileSync(README, page);
const off = cases.filter((one) => !agrees(one));
for (const { quantity, source, difference, tolerance } of off)
  console.error(`off: ${quantity} (${source}), by ${difference}, more than ${tolerance}`);
console.log(`${cases.length - off.length} of ${cases.length} cases agree within their tolerance.`);
process.exitCode = off.length > 0 ? 1 : 0;
