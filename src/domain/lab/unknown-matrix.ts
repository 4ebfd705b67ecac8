import { groupBy } from '../group';
import { keptWhile } from '../kept';
import type { Sample } from '../site/schema';
import type { Site } from '../site/site';
import { covers } from './level';
import type { LevelSet } from './screening';

/** A matrix that is a plain word for something sampled; not one of the codes laboratories write. */
const KNOWN = /water|soil|sediment|solid|sludge|rock|gas|vapou?r|\bair\b|product|napl|leachate/i;

/** A word for a matrix that nobody here knows, and the samples that have it. */
export type UnknownMatrix = { readonly word: string; readonly samples: readonly Sample[] };

export type UnknownMatrices = {
  readonly unknown: readonly UnknownMatrix[];
  /** Matrices the levels are for, in the order they first appear. */
  readonly levelsAreFor: readonly string[];
};

const kept = keptWhile<UnknownMatrices>();

/**
 * Words for matrices of a site's samples that are not known here and that none
 * of a set's levels is for: "WG". Results of such samples are not compared with
 * levels for a matrix.
 */
export const unknownMatrices = (site: Site, { levels }: LevelSet): UnknownMatrices =>
  kept(site.samples, [levels], () => {
    const levelsAreFor = [...new Set(levels.flatMap(({ input }) => input.matrix?.trim() || []))];
    const isUnknown = (word: string) =>
      word !== '' && !KNOWN.test(word) && !levelsAreFor.some((matrix) => covers(matrix, word));
    const byWord = groupBy(site.samples.values(), ({ matrix }) => matrix?.trim() ?? '');
    const unknown = [...byWord].flatMap(([word, samples]) =>
      levelsAreFor.length > 0 && isUnknown(word) ? [{ word, samples }] : [],
    );
    return { unknown, levelsAreFor };
  });
