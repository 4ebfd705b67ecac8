import { groupBy } from '../group';
import { FLAG } from './qualifiers';
import type { Reading } from './reading';

/**
 * Several runs of one analyte in one sample. A result over the calibration
 * range is replaced by the dilution run that measured it; a dilution run made
 * for another analyte's sake, with its raised limits, gives way to a first run
 * that was in range. (EPA 540/R-99/008, 1999, on E and D; the second half is
 * common practice, no source.) Where that does not settle it, every run stays,
 * and the worst of them shows.
 */
export type RunChoice = {
  readonly used: readonly Reading[];
  readonly replaced: readonly {
    readonly reading: Reading;
    readonly by: Reading;
    readonly why: 'over range, measured in a dilution' | 'diluted run, first run in range';
  }[];
};

const overRange = ({ flags }: Reading) => (flags & FLAG.overRange) !== 0;

export const isDilution = ({ result, flags }: Reading) =>
  result.run === 'dilution' || (result.run !== 'initial' && (flags & FLAG.dilution) !== 0);

const isInitial = (reading: Reading) =>
  (reading.result.run ?? 'initial') === 'initial' && !isDilution(reading);

const runGroup = ({ result, key, basis }: Reading) =>
  JSON.stringify([result.sample, key, result.fraction, result.method, basis]);

/** Which runs to use, in the order given, and which others give way to what. */
export function chosenRuns(readings: readonly Reading[]): RunChoice {
  const replacements = new Map<Reading, RunChoice['replaced'][number]>();
  for (const runs of groupBy(readings, runGroup).values()) {
    if (runs.length < 2) continue;
    const measured = runs.find((run) => isDilution(run) && run.state === 'detected');
    const inRange = runs.find((run) => isInitial(run) && stands(run) && !overRange(run));
    for (const run of runs) {
      if (measured && run !== measured && overRange(run) && run.state === 'more than')
        replacements.set(run, {
          reading: run,
          by: measured,
          why: 'over range, measured in a dilution',
        });
      else if (inRange && isDilution(run) && gives(run, inRange))
        replacements.set(run, {
          reading: run,
          by: inRange,
          why: 'diluted run, first run in range',
        });
    }
  }
  return {
    used: readings.filter((reading) => !replacements.has(reading)),
    replaced: readings.flatMap((reading) => replacements.get(reading) ?? []),
  };
}

const stands = ({ state }: Reading) => state === 'detected' || state === 'not detected';

/** A detection in a diluted run never gives way to a non-detect. */
const gives = (diluted: Reading, first: Reading) =>
  diluted.state === 'not detected' || (stands(diluted) && first.state === 'detected');
