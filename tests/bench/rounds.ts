/**
 * Tasks against a peer, in rounds: each round does all of them once, one after
 * another, and ratios are taken within a round, since whatever else the machine
 * does slows all of them alike.
 */
import { appendFileSync } from 'node:fs';

export type Task = { readonly name: string; readonly run: () => unknown };

export type Compared = {
  readonly title: string;
  /** The first is the peer; a ratio under 1 is faster than it. */
  readonly tasks: readonly {
    readonly name: string;
    readonly milliseconds: number;
    readonly ratio: number;
    readonly least: number;
    readonly most: number;
  }[];
};

/** Where `npm run bench` collects what each script found; unset, it is only printed. */
const COLLECTED = process.env.BENCH_COLLECTED;

const median = (numbers: readonly number[]): number =>
  [...numbers].sort((a, b) => a - b)[Math.floor(numbers.length / 2)] ?? NaN;

/** Runs the tasks in so many rounds after one that is not counted, and reports them. */
export async function inRounds(
  title: string,
  tasks: readonly Task[],
  rounds = 7,
): Promise<Compared> {
  const times = tasks.map((): number[] => []);
  for (let round = -1; round < rounds; round++)
    for (const [i, { run }] of tasks.entries()) {
      const start = performance.now();
      await run();
      if (round >= 0) times[i]?.push(performance.now() - start);
    }
  return report({
    title,
    tasks: tasks.map(({ name }, i) => {
      const ratios = (times[i] ?? []).map((time, round) => time / (times[0]?.[round] ?? NaN));
      return {
        name,
        milliseconds: median(times[i] ?? []),
        ratio: median(ratios),
        least: Math.min(...ratios),
        most: Math.max(...ratios),
      };
    }),
  });
}

export function report(compared: Compared): Compared {
  console.log(`\n${compared.title}`);
  for (const { name, milliseconds, ratio, least, most } of compared.tasks)
    console.log(
      `  ${milliseconds.toFixed(2).padStart(10)} ms  ${ratio.toFixed(2)}× (${least.toFixed(2)} to ${most.toFixed(2)})  ${name}`,
    );
  if (COLLECTED) appendFileSync(COLLECTED, `${JSON.stringify(compared)}\n`);
  return compared;
}

/** A plain line for the page: a size, a memory peak, what has no peer. */
export function note(title: string, says: string): void {
  console.log(`\n${title}: ${says}`);
  if (COLLECTED) appendFileSync(COLLECTED, `${JSON.stringify({ title, says })}\n`);
}
