import type { SiteColumns } from './column-writer';
import type { Selection } from './selection';

/** The rows of a selection by sample, the samples by point and depth; those of no point last. */
export type SampleRows = {
  /** Places of the samples in the columns, in the order of the table. */
  readonly samples: Uint32Array;
  /** The rows of a sample, by its place in the columns, in the order of the results. */
  readonly rowsOf: (sample: number) => Uint32Array;
};

const groupsBefore = new WeakMap<SiteColumns, Uint32Array>();

/** One a sample: where its point and depth come in the order of the table; equals have the same. */
function placesInTable(columns: SiteColumns): Uint32Array {
  const before = groupsBefore.get(columns);
  if (before) return before;
  const points = columns.samples.map(({ location }) => location?.id ?? '￿');
  const depths = columns.samples.map(({ screen }) => screen?.tip_depth?.value ?? 0);
  const rank = ranksOf([...new Set(points)]);
  const order = points.map((_, sample) => sample);
  const compare = (a: number, b: number) =>
    (rank.get(points[a] ?? '') ?? 0) - (rank.get(points[b] ?? '') ?? 0) ||
    (depths[a] ?? 0) - (depths[b] ?? 0);
  order.sort(compare);
  const made = new Uint32Array(order.length);
  let place = 0;
  order.forEach((sample, i) => {
    if (i > 0 && compare(order[i - 1] ?? 0, sample) !== 0) place++;
    made[sample] = place;
  });
  groupsBefore.set(columns, made);
  return made;
}

/** Names in the order a person counts them; names the order does not tell apart have the same rank. */
function ranksOf(names: readonly string[]): ReadonlyMap<string, number> {
  const { compare } = new Intl.Collator('en', { numeric: true });
  const ranks = new Map<string, number>();
  let rank = 0;
  let before: string | null = null;
  for (const name of names.toSorted(compare)) {
    if (before !== null && compare(before, name) !== 0) rank++;
    ranks.set(name, rank);
    before = name;
  }
  return ranks;
}

const sampleRowsBefore = new WeakMap<Uint32Array, SampleRows>();

/** The rows of a selection by sample, worked out once for a selection. */
export function sampleRows({ columns, rows }: Selection): SampleRows {
  const before = sampleRowsBefore.get(rows);
  if (before) return before;
  const { sample, samples } = columns;
  const bySample = sorted(rows, (row) => sample[row] ?? 0, samples.length);
  const met: number[] = [];
  const isMet = new Uint8Array(samples.length);
  for (const row of rows) {
    const which = sample[row] ?? 0;
    if (isMet[which] === 0) met.push(which);
    isMet[which] = 1;
  }
  const places = placesInTable(columns);
  const made = {
    samples: sorted(met, (which) => places[which] ?? 0, samples.length).things,
    rowsOf: (which: number) =>
      bySample.things.subarray(bySample.starts[which] ?? 0, bySample.starts[which + 1] ?? 0),
  };
  sampleRowsBefore.set(rows, made);
  return made;
}

/** Ids of the screens more than one sample of a selection is from: there a screen's name does not say which. */
export function screensSampledAgain(of: Selection): ReadonlySet<string> {
  const seen = new Set<string>();
  const again = new Set<string>();
  for (const which of sampleRows(of).samples) {
    const id = of.columns.samples[which]?.screen?.id;
    if (id !== undefined) (seen.has(id) ? again : seen).add(id);
  }
  return again;
}

/** Numbers sorted by a key below a bound, equals in the order they came; and where each key's begin. */
function sorted(
  numbers: ArrayLike<number> & Iterable<number>,
  keyOf: (one: number) => number,
  bound: number,
) {
  const starts = new Uint32Array(bound + 1);
  for (const one of numbers) starts[keyOf(one) + 1] = (starts[keyOf(one) + 1] ?? 0) + 1;
  for (let key = 0; key < bound; key++)
    starts[key + 1] = (starts[key + 1] ?? 0) + (starts[key] ?? 0);
  const next = starts.slice();
  const things = new Uint32Array(numbers.length);
  for (const one of numbers) {
    const at = next[keyOf(one)] ?? 0;
    things[at] = one;
    next[keyOf(one)] = at + 1;
  }
  return { things, starts };
}
