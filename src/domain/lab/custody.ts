import { groupBy } from '../group';
import { asSpelt, isOneSlipApart } from './custody-names';

/** A sample on a chain-of-custody list. */
export type Sent = {
  readonly id: string;
  readonly event: string;
  readonly custodyNumber: string;
  /** The laboratory's own number for it; null where the list does not give it. */
  readonly labNumber: string | null;
  /** The name a blind duplicate was sent under; null for a sample sent under its own. */
  readonly blindName: string | null;
  readonly screen: string | null;
  readonly day: string | null;
};

/** A name results came back under. */
export type Reported = {
  readonly name: string;
  /** Null where the site has no sample of that name. */
  readonly event: string | null;
  readonly labNumber: string | null;
  readonly screen: string | null;
  readonly day: string | null;
  readonly results: number;
  /** Methods, each once, in the order they come. */
  readonly methods: readonly string[];
};

/** What speaks for a name being one on the list. */
export type Likeness =
  'laboratory number' | 'blind name' | 'spelling' | 'screen and day' | 'one slip of the keyboard';

export type Renamed = {
  readonly sent: Sent;
  readonly reported: Reported;
  readonly by: Likeness;
};

/** The custody lists against what the laboratory reported: every name is in one of these. */
export type Reconciled = {
  /** On the list and reported under that name. */
  readonly agreed: readonly { readonly sent: Sent; readonly reported: Reported }[];
  /** On a list of which something is reported, and nothing of it. */
  readonly missing: readonly Sent[];
  /** On a list of which nothing is reported yet. */
  readonly awaited: readonly Sent[];
  /** Reported, and on no list. */
  readonly extra: readonly Reported[];
  /** Reported under another name than the list has, most likely. */
  readonly renamed: readonly Renamed[];
  /** Reported, but not by every method that the others of its list all have. */
  readonly short: readonly { readonly sent: Sent; readonly methods: readonly string[] }[];
};

type Pair = (sent: Sent, reported: Reported) => boolean;

const sameEvent: Pair = (sent, reported) =>
  reported.event === null || reported.event === sent.event;

/** What speaks for a pair, the strongest first. */
const LIKENESSES: readonly (readonly [Likeness, Pair])[] = [
  [
    'laboratory number',
    ({ labNumber }, reported) =>
      labNumber !== null && [reported.name, reported.labNumber].includes(labNumber),
  ],
  ['blind name', ({ blindName }, { name }) => blindName !== null && blindName === name],
  [
    'spelling',
    ({ id, blindName }, { name }) =>
      [id, blindName ?? id].some((own) => asSpelt(own) !== '' && asSpelt(own) === asSpelt(name)),
  ],
  [
    'screen and day',
    ({ screen, day }, reported) =>
      screen !== null && day !== null && screen === reported.screen && day === reported.day,
  ],
  ['one slip of the keyboard', ({ id }, { name }) => isOneSlipApart(id, name)],
];

/** The weaker ones hold only within a round. */
const needsEvent = (by: Likeness) => by !== 'laboratory number' && by !== 'blind name';

/** As sure as the paper is: nobody has to judge by likeness. */
export const isSure = ({ by }: Renamed) => by === 'laboratory number' || by === 'blind name';

/** A list needs so many other samples before a method they all have is missed in one. */
const FEWEST_OTHERS = 2;

/**
 * Reconcile custody lists with what came back. A name is taken for another only
 * where no second one on either side is as like it.
 */
export function reconcile(sent: readonly Sent[], reported: readonly Reported[]): Reconciled {
  const byName = new Map(reported.map((each) => [each.name, each]));
  const agreed = sent.flatMap((each) => {
    const own = byName.get(each.id);
    return own ? [{ sent: each, reported: own }] : [];
  });
  const listed = new Set(sent.map(({ id }) => id));
  let silent = sent.filter(({ id }) => !byName.has(id));
  let strange = reported.filter(({ name }) => !listed.has(name));

  const renamed: Renamed[] = [];
  for (const [by, isLike] of LIKENESSES) {
    const pairs = strange.flatMap((one) =>
      silent
        .filter((other) => isLike(other, one) && (!needsEvent(by) || sameEvent(other, one)))
        .map((other): Renamed => ({ sent: other, reported: one, by })),
    );
    const only = pairs.filter(
      (pair) =>
        pairs.filter((p) => p.sent === pair.sent).length === 1 &&
        pairs.filter((p) => p.reported === pair.reported).length === 1,
    );
    renamed.push(...only);
    silent = silent.filter((one) => !only.some((pair) => pair.sent === one));
    strange = strange.filter((one) => !only.some((pair) => pair.reported === one));
  }

  const back = [...agreed, ...renamed];
  const begun = new Set(back.map((pair) => pair.sent.custodyNumber));
  return {
    agreed,
    missing: silent.filter(({ custodyNumber }) => begun.has(custodyNumber)),
    awaited: silent.filter(({ custodyNumber }) => !begun.has(custodyNumber)),
    extra: strange,
    renamed,
    // Rows that are not used yet tell nothing of their methods.
    short: shortOf(back.filter(({ reported: { methods } }) => methods.length > 0)),
  };
}

function shortOf(back: readonly { readonly sent: Sent; readonly reported: Reported }[]) {
  const lists = groupBy(back, ({ sent }) => sent.custodyNumber);
  return [...lists.values()].flatMap((pairs) => {
    const holders = new Map<string, number>();
    for (const { reported } of pairs)
      for (const method of reported.methods) holders.set(method, (holders.get(method) ?? 0) + 1);
    return pairs.flatMap(({ sent, reported }) => {
      const methods = [...holders].flatMap(([method, count]) =>
        !reported.methods.includes(method) &&
        count === pairs.length - 1 &&
        pairs.length > FEWEST_OTHERS
          ? [method]
          : [],
      );
      return methods.length > 0 ? [{ sent, methods }] : [];
    });
  });
}
