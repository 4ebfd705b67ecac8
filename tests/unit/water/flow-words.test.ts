import { describe, expect, test } from 'vitest';
import { flowOf } from '../../../src/domain/water/flow';
import { findingsOn, problemWords, unresolvedWords } from '../../../src/domain/water/flow-words';
import { fitPlane, type HeadPoint } from '../../../src/domain/water/plane';
import { confidenceOf } from '../../../src/domain/water/plane-confidence';
import { siteFrom } from '../site-from';
import { SIX_IN_FEET, valueOf, well } from './wells';

const site = siteFrom({});
const said = (points: readonly HeadPoint[], weighted = true, level = 0.95) => {
  const plane = valueOf(fitPlane(points, { weighted }));
  const confidence = confidenceOf(plane, level);
  return { findings: findingsOn(site, plane, confidence), why: unresolvedWords(confidence) };
};
const grid = (heads: readonly number[], side = 50, sigma = 0.01) =>
  heads.map((head, i) => well(`${i}`, side * (i % 3), side * Math.floor(i / 3), head, sigma));

describe('why no plane can be laid', () => {
  test('too few heads, counted', () => {
    const few = (have: number) => problemWords({ kind: 'too-few-wells', have, need: 3 });
    expect(few(0)).toBe('No head counts in this zone at this event; three are needed.');
    expect(few(1)).toBe('Only 1 head counts in this zone at this event; three are needed.');
    expect(few(2)).toBe('Only 2 heads count in this zone at this event; three are needed.');
  });

  test('in a line, or at too few places', () => {
    const line = (...at: (readonly [number, number])[]) => {
      const made = fitPlane(
        at.map(([x, y], i) => well(`${i}`, x, y, 10 - i)),
        { weighted: true },
      );
      return made.ok ? null : problemWords(made.problem);
    };
    expect(line([0, 0], [10, 10], [20, 20])).toBe(
      'The wells are in a line: heads along a line say nothing of the fall across it.',
    );
    expect(line([0, 0], [10, 10], [10, 10])).toBe('The heads are at 2 places; three are needed.');
    expect(line([5, 5], [5, 5], [5, 5])).toBe('The heads are at 1 place; three are needed.');
  });

  test('a head that is no number, an error that is not stated: named by well', () => {
    expect(problemWords({ kind: 'not-a-number', ids: ['A', 'B'] })).toBe(
      'The head of A, B is not a number.',
    );
    expect(problemWords({ kind: 'no-error-stated', ids: ['A'] })).toBe(
      'No error is stated for the head of A.',
    );
  });
});

describe('what was tested and found', () => {
  test('six wells of the basis at 0.01 ft: resolved, and not one plane; F as worked by hand', () => {
    const { findings, why } = said(SIX_IN_FEET);
    expect(findings[0]).toMatch(
      /^The direction is resolved at 95 %: χ²\(2\) is \d+ against 5.99; F\(2, 3\) is 91.8 against 9.55\.$/,
    );
    expect(findings[1]).toMatch(
      /^The heads do not lie on one plane to within their errors: χ²\(3\) is 100 against 7.81\. The surface is curved/,
    );
    expect(findings[2]).toMatch(/^Scatter about the plane .* ft; the ± rests on the scatter\.$/);
    expect(findings).toHaveLength(3);
    expect(why).toBe('');
  });

  test('three wells always make a plane, and there is no scatter to print', () => {
    const { findings } = said(grid([10, 9.5, 9, 9.8]).filter((_, i) => i !== 2));
    expect(findings.some((one) => one.startsWith('Three heads always make a plane'))).toBe(true);
    expect(findings.join(' ')).not.toContain('Scatter');
  });

  test('heads on one plane within their errors, the ± resting on those', () => {
    const { findings } = said(grid([10, 9.5, 9, 9.8, 9.3, 8.8]));
    expect(
      findings.some((one) =>
        one.startsWith('The heads lie on one plane to within their errors: χ²(3) is '),
      ),
    ).toBe(true);
    expect(findings.join(' ')).toContain('the ± rests on the stated errors');
    expect(findings.join(' ')).not.toContain('do not lie');
    expect(findings.join(' ')).toContain('F(2, 3)');
  });

  test('a slope that error could make is not resolved, and why is said once for each test', () => {
    const slight = said(grid([10, 10.001, 9.999, 10.002, 10, 10.001]));
    expect(slight.findings.join(' ')).not.toContain('resolved at');
    expect(slight.why).toMatch(
      /^The slope is no more than the stated errors of the heads could make: χ²\(2\) is [\d.]+ against 5.99\./,
    );
    expect(slight.why).toContain(
      'The slope is no more than the scatter of the heads about the plane could make: F(2, 3) is',
    );
  });

  test('a level surface has no direction; more confidence asked is printed', () => {
    const flat = said(grid([10, 10, 10, 10]));
    expect(flat.why).toBe('The heads do not differ: the surface is level and has no direction.');
    expect(said(SIX_IN_FEET, true, 0.9).findings[0]).toContain('resolved at 90 %');
  });

  test('wells nearly in a line are named so, from a spread of a tenth down', () => {
    const band = (width: number) =>
      said([
        well('1', 0, 0, 10),
        well('2', 100, 0, 9.5),
        well('3', 200, width, 9),
        well('4', 300, 0, 8.5),
      ]).findings.join(' ');
    expect(band(5)).toMatch(
      /The wells are nearly in a line: their spread across it is [\d.]+ % of that along it\./,
    );
    expect(band(100)).not.toContain('nearly in a line');
  });

  test('a direction too unsure for a simple ± has to be simulated', () => {
    const { findings } = said(
      [
        [0, 0],
        [50, 0],
        [25, 43.3],
      ].map(([x, y], i) => well(`${i}`, x!, y!, 20 - 0.0009 * y!, 0.01)),
      true,
      0.8,
    );
    expect(findings.join(' ')).toContain('has to be simulated');
    expect(said(SIX_IN_FEET).findings.join(' ')).not.toContain('simulated');
  });

  test('heads on a plane to the last bit: F is without bound', () => {
    const exact = [[0, 0, 10], [64, 0, 9], [0, 64, 9.5], [64, 64, 8.5], [32, 16, 9.375]].map(
      ([x, y, head], i) => well(`${i}`, x!, y!, head!),
    ); // prettier-ignore
    expect(said(exact, false).findings[0]).toContain('F(2, 2) is without bound against');
  });
});

test('a site without a grid it can use says so instead of a direction', () => {
  const flow = flowOf({ ...site, gridProblem: 'The grid is not known.' }, 'E1', null);
  expect(flow).toMatchObject({
    plane: null,
    gradient: null,
    reason: 'The grid is not known.',
    resolved: false,
  });
  expect(flow.centre).toBeNull();
});
