import type { Ask, Cell } from './ask';
import type { Context } from './context';
import { listed } from './listed';

/** What can stand at a location, and how far it has then got. */
export const KINDS: readonly {
  readonly kind: string;
  readonly status: string;
  readonly says: string;
}[] = [
  { kind: 'direct push', status: 'pushed', says: 'direct-push points, pushed' },
  { kind: 'direct push', status: 'planned', says: 'direct-push points, planned' },
  { kind: 'monitoring well', status: 'installed', says: 'monitoring wells, installed' },
  { kind: 'piezometer', status: 'installed', says: 'piezometers, installed' },
  { kind: 'supply well', status: 'installed', says: 'supply wells, installed' },
  { kind: 'staff gauge', status: 'installed', says: 'staff gauges, installed' },
];

/** What stands for one of them as an answer: its kind, and "planned" where nothing stands yet. */
const answerFor = ({ kind, status }: { readonly kind: string; readonly status: string }) =>
  status === 'planned' ? `${kind}, planned` : kind;

const REFUSE = 'refuse';

/** Groups past this many are asked about together. */
const MOST_GROUPS = 12;

/** What names of locations begin with before their number: "TY-MW" of "TY-MW1", "GP" of "GP-01". */
export const stemOf = (name: string): string =>
  (/^\D*/.exec(name)?.[0] ?? '').replace(/[\s._#-]+$/, '');

/** Letters that stand for a kind at the end of a stem (common practice, no source). */
const STEM_KINDS: readonly (readonly [RegExp, string])[] = [
  [/(?:^|[^A-Z])(?:MW|OW|RW|WELL|MONITORING WELL)S?$/i, 'monitoring well'],
  [/(?:^|[^A-Z])(?:GP|DP|DPT|TW|HP|GPT|PUSH|PROBE)$/i, 'direct push'],
  [/(?:^|[^A-Z])(?:PZ|P|PIEZOMETER)$/i, 'piezometer'],
  [/(?:^|[^A-Z])(?:SG|STAFF GAU?GE)$/i, 'staff gauge'],
];

const kindOfStem = (stem: string): string | null =>
  STEM_KINDS.find(([letters]) => letters.test(stem))?.[1] ?? null;

/** Something in the file that says what a location is, with the sentence for it. */
export type Evidence = { readonly kind: string; readonly why: string };

/**
 * What stands at locations no column of the file tells the kind of: one question
 * for each beginning of their names, for a file often has wells and push points.
 */
export class KindGroups {
  private readonly ids = new Map<string, string>();

  /**
   * @param names  locations the site does not have yet
   * @param evidence  what the file says of the kind of a group; null: nothing
   */
  constructor(
    private readonly context: Context,
    names: Iterable<string>,
    private readonly evidence: (names: readonly string[]) => Evidence | null = () => null,
  ) {
    const groups = new Map<string, string[]>();
    for (const name of new Set(names)) {
      const stem = stemOf(name);
      const key = groups.has(stem) || groups.size < MOST_GROUPS ? stem : 'others';
      const group = groups.get(key);
      if (group) group.push(name);
      else groups.set(key, [name]);
    }
    for (const [stem, group] of groups) {
      const ask = this.askOf(stem, group);
      context.ask(ask);
      for (const name of group) this.ids.set(name, ask.id);
    }
  }

  private askOf(stem: string, names: readonly string[]): Ask {
    const said = this.evidence(names);
    const byStem = kindOfStem(stem);
    const why =
      said !== null
        ? said.why
        : byStem !== null
          ? `Names that begin with ${stem} are often of this kind.`
          : 'No column of the file says it.';
    return {
      id: `kind of ${stem}`,
      question: `What ${names.length === 1 ? 'is' : 'are'} ${listed(names, 4)}?`,
      why,
      choices: [
        ...KINDS.map((each) => ({ value: answerFor(each), says: each.says })),
        { value: REFUSE, says: 'Not a location of the site: refuse their rows' },
      ],
      proposed: said?.kind ?? byStem,
      usual: said === null && byStem === null,
      needed: true,
    };
  }

  /** What a person said of a location: its kind and status; null where they have not, or refuse it. */
  private said(name: string) {
    const answer = this.context.answer(this.ids.get(name) ?? '');
    return KINDS.find((each) => answerFor(each) === answer) ?? null;
  }

  /** The cell of its kind or status. */
  cell(name: string, column: 'kind' | 'status', heading: string): Cell {
    const said = this.said(name);
    if (said) return said[column];
    const isRefused = this.context.answer(this.ids.get(name) ?? '') === REFUSE;
    return {
      column: heading,
      expected: isRefused ? 'a location of the site: its like are left out' : 'an answer to what stands there', // prettier-ignore
      found: name,
    };
  }
}
