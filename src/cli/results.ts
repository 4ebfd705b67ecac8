import { countsOf, judgedAgainst, levelSetsOf } from '../domain/lab/site-results';
import { VERDICTS, VERDICT_WORDS } from '../domain/lab/verdict';
import { becauseOf } from '../domain/lab/verdict-words';
import { totalOf, worseResultFirst } from '../domain/lab/worst';
import type { OpenedSite } from '../io/open-site';
import type { Answer } from './answer';
import type { Asked } from './arguments';
import { inColumns } from './columns';

/** Results of field samples against each set of levels, and the counts of all nine verdicts. */
export function results({ site }: OpenedSite, { event, zone, set }: Asked): Answer {
  const sets = [...levelSetsOf(site).keys()].filter((name) => set === null || name === set);
  const judged = sets.map((name) => ({
    name,
    results: judgedAgainst(site, name, { event, zone, fieldSamples: true }),
    all: judgedAgainst(site, name, { event, zone }),
  }));
  if (judged.length === 0)
    return {
      text: 'The site has no screening levels of that name, so nothing is compared.',
      json: [],
    };

  const text = judged.flatMap(({ name, results: field, all }) => {
    const [ofField, ofAll] = [countsOf(field), countsOf(all)];
    const listed = field
      .filter(({ judged: { outcome } }) => outcome.verdict !== 'no-level')
      .toSorted((a, b) => worseResultFirst(a.judged, b.judged));
    return [
      name,
      inColumns(
        ['verdict', 'field samples', 'with duplicates and blanks'],
        [
          ...VERDICTS.map((v) => [VERDICT_WORDS[v], String(ofField[v]), String(ofAll[v])]),
          ['all', String(totalOf(ofField)), String(totalOf(ofAll))],
        ],
      ),
      inColumns(
        ['verdict', 'screen', 'sample', 'analyte', 'because'],
        listed.map(({ row, screen, judged: one }) => [
          VERDICT_WORDS[one.outcome.verdict],
          screen?.id ?? '',
          row.sample,
          row.analyte,
          becauseOf(one),
        ]),
      ),
    ];
  });
  return {
    text: [
      ...text,
      'Levels change and states differ; at a cleanup site they are levels somebody chose.',
    ].join('\n\n'),
    json: judged.map(({ name, results: field, all }) => ({
      set: name,
      fieldSamples: countsOf(field),
      all: countsOf(all),
      results: all.map(({ row, sample, screen, location, judged: one }) => ({
        sample: row.sample,
        kind: sample.kind,
        event: sample.event,
        screen: screen?.id ?? null,
        location: location?.id ?? null,
        cas: row.cas,
        analyte: row.analyte,
        value: row.value,
        unit: row.unit,
        verdict: one.outcome.verdict,
        reason: one.outcome.reason,
        because: becauseOf(one),
      })),
    })),
  };
}
