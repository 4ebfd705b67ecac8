import { proxy, wrap, type Remote } from 'comlink';
import { openWorker } from './open-worker';
import type { SlowWater } from './surface-worker';

/** One slow calculation, as the worker offers it. */
type Ask<Question, Answer> = (
  water: Remote<SlowWater>,
  question: Question,
  report: (share: number) => void,
) => Promise<Answer>;

/**
 * The newest answer of a slow calculation in a worker, how far it has got, and
 * a way to stop it. An answer overtaken by a later question is dropped, so what
 * shows is never stale.
 */
export class Slow<Question, Answer> {
  #ask: Ask<Question, Answer>;
  #worker: Worker | null = null;
  #water: Remote<SlowWater> | null = null;
  #asked = 0;

  answer: Answer | null = $state.raw(null);
  working = $state(false);
  /** 0 to 1. */
  share = $state(0);
  /** Why there is no answer, in words; null when there is one or none was asked for. */
  trouble: string | null = $state(null);

  constructor(ask: Ask<Question, Answer>) {
    this.#ask = ask;
  }

  async ask(question: Question): Promise<void> {
    // A question overtaken is not worth finishing.
    if (this.working) this.#end();
    const turn = ++this.#asked;
    this.working = true;
    this.share = 0;
    this.trouble = null;
    const report = (share: number) => {
      if (turn === this.#asked) this.share = share;
    };
    try {
      const answer = await this.#ask(this.#open(), question, proxy(report));
      if (turn !== this.#asked) return;
      this.answer = answer;
    } catch (error) {
      if (turn !== this.#asked) return;
      this.answer = null;
      this.trouble = `It could not be worked out: ${error instanceof Error ? error.message : String(error)}`;
    }
    this.working = false;
  }

  /** Give up what is being worked out; the last answer stays. */
  stop = () => {
    this.#asked++;
    this.working = false;
    this.#end();
  };

  #open(): Remote<SlowWater> {
    if (this.#water) return this.#water;
    this.#worker = openWorker();
    this.#worker.onerror = ({ message }) => this.#died(message);
    this.#water = wrap<SlowWater>(this.#worker);
    return this.#water;
  }

  /** The worker ended by itself: whoever waits is told, and the next question gets a new one. */
  #died(said: string) {
    this.#asked++;
    this.answer = null;
    this.trouble = `It could not be worked out: the browser ended the calculation${said ? ` (${said})` : ''}. Ask again.`;
    this.working = false;
    this.#end();
  }

  #end() {
    this.#worker?.terminate();
    this.#worker = null;
    this.#water = null;
  }
}
