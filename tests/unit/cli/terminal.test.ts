/** The terminal door, run as a person runs it. */
import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readArguments } from '../../../src/cli/arguments';
import { TOP } from '../folder';

type Run = { readonly code: number; readonly out: string; readonly err: string };

const run = (...given: string[]): Promise<Run> =>
  new Promise((done) => {
    execFile(
      process.execPath,
      [join(TOP, 'node_modules/tsx/dist/cli.mjs'), 'src/cli/main.ts', ...given],
      { cwd: TOP, maxBuffer: 1e8 },
      (error, out, err) =>
        done({ code: typeof error?.code === 'number' ? error.code : 0, out, err }),
    );
  });

describe('flow --json', () => {
  test('is an array, one object for each event and zone, null where there is no answer', async () => {
    const { code, out } = await run('flow', 'demo-sites/quellmoor', '--json');
    expect(code).toBe(0);
    const flows = JSON.parse(out) as Record<string, unknown>[];
    expect(flows.map(({ event, zone }) => [event, zone])).toEqual([
      ['2025-10', 'sand'],
      ['2026-05', 'sand'],
    ]);
    expect(flows[0]).toMatchObject({
      wells: 5,
      azimuthGrid: null,
      azimuthTrue: null,
      azimuthStandardError: null,
      resolved: false,
    });
    expect(flows[0]?.reason).toMatch(/no more than the stated errors/);
    expect(flows[1]).toMatchObject({ wells: 6, resolved: true, reason: null });
    for (const key of ['gradient', 'azimuthGrid', 'azimuthTrue', 'convergence', 'rSquared'])
      expect(flows[1]?.[key]).toEqual(expect.any(Number));
  });
});

test('a non-detect at 25 against a level of 5 is “cannot tell” in the terminal', async () => {
  const { code, out } = await run('results', 'demo-sites/osier-bend', '--event', '2025-09');
  expect(code).toBe(0);
  const line = out.split('\n').find((text) => text.includes('limit of 25 µg/L'));
  expect(line).toMatch(/^limit exceeds level \(cannot tell\)/);
});

test('heads and findings print tables a person can read', async () => {
  const heads = await run('heads', 'demo-sites/osier-bend', '--event', '2026-09', '--work');
  expect(heads.out).toMatch(/MW-5 +.*no: product floats on it and no density was measured/);
  expect(heads.out).toMatch(/= 974\.34 - 14\.14\n/);
  const found = await run('findings', 'demo-sites/osier-bend', '--event', '2026-09');
  expect(found.out).toMatch(/MW-5 and its density was not measured/);
});

test.each([
  [['flow', 'nowhere'], 1, /nowhere could not be read/],
  [['flow', 'tests'], 1, /datapackage\.json: expected this file in the folder/],
  [['flow', 'demo-sites/osier-bend', '--event', '1999'], 1, /Expected an event of the site/],
  [['levels', 'demo-sites/osier-bend'], 2, /expected one of heads, flow, results/],
  [['flow'], 2, /expected the folder or zip of a site/],
])('%j ends with %i and a sentence', async (given, code, sentence) => {
  const ended = await run(...given);
  expect(ended.code).toBe(code);
  expect(ended.err).toMatch(sentence);
});

test('an option nobody knows is refused, not passed over', () => {
  expect(readArguments(['flow', 'site', '--evnt', '2026'])).toMatchObject({ ok: false });
});
