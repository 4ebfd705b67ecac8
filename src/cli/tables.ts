import { sentenceOf } from '../domain/site/problem';
import { TABLE_NAMES } from '../domain/site/schema';
import type { OpenedSite } from '../io/open-site';
import type { Answer } from './answer';
import { inColumns } from './columns';

/** Rows of each table: read, with a problem, blank; and every problem in a sentence. */
export function tables({ site, problems }: OpenedSite): Answer {
  const all = [...problems, ...site.problems];
  const present = TABLE_NAMES.filter((name) => site.accounts[name].rows > 0);
  return {
    text: [
      inColumns(
        ['table', 'rows', 'read', 'with a problem', 'blank'],
        present.map((name) => {
          const { rows, read, refused, blank } = site.accounts[name];
          return [name, ...[rows, read, refused, blank].map(String)];
        }),
      ),
      ...(site.gridProblem === null ? [] : [site.gridProblem]),
      all.length === 0 ? 'Every row could be read.' : all.map(sentenceOf).join('\n'),
    ].join('\n\n'),
    json: {
      tables: Object.fromEntries(present.map((name) => [name, site.accounts[name]])),
      grid: site.gridProblem,
      problems: all.map((problem) => ({ ...problem, sentence: sentenceOf(problem) })),
    },
  };
}
