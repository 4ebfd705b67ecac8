import { keptWhile } from '../kept';
import type { ResultRow } from '../site/schema';
import type { Site } from '../site/site';
import { READ, rowsCoded, type CodedRows } from '../site/table-rows';

/** A run of rows with results of an event. */
type Run = {
  readonly rows: CodedRows<ResultRow>;
  /** The number of the event each code of the run's samples is of; −1 for no known sample. */
  readonly eventOf: Int32Array;
  /** The event's own number in this run. */
  readonly event: number;
};

const kept = keptWhile<ReadonlyMap<string, readonly Run[]>>();

/** The runs of rows that hold results of each event: each sample is looked up once a run. */
function runsByEvent({ results, samples }: Site): ReadonlyMap<string, readonly Run[]> {
  const runs = new Map<string, Run[]>();
  for (const rows of rowsCoded(results)) {
    const numbers = new Map<string, number>();
    const eventOf = Int32Array.from(rows.column('sample').dictionary, (id) => {
      const event = typeof id === 'string' ? samples.get(id)?.event : undefined;
      if (event === undefined) return -1;
      const number = numbers.get(event) ?? numbers.size;
      numbers.set(event, number);
      return number;
    });
    for (const [name, event] of numbers) {
      const before = runs.get(name);
      const run = { rows, eventOf, event };
      if (before) before.push(run);
      else runs.set(name, [run]);
    }
  }
  return runs;
}

/** The rows of `results` that are of one event, in the order of the table: of a million no others are made. */
export function* resultRowsOf(site: Site, event: string): Generator<ResultRow> {
  const runs = kept(site.results, [site.samples], () => runsByEvent(site)).get(event) ?? [];
  for (const { rows, eventOf, event: wanted } of runs) {
    const { codes } = rows.column('sample');
    for (let i = 0; i < rows.size; i++)
      if (eventOf[codes[i] ?? 0] === wanted && rows.state[i] === READ) yield rows.make(i);
  }
}
