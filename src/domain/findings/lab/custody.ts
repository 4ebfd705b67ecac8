import { isSure, type Renamed, type Reported, type Sent } from '../../lab/custody';
import { custodyOf } from '../../lab/custody-site';
import { cell } from '../../site/cite';
import type { Site } from '../../site/site';
import type { Source } from '../../work';
import type { Finding, Rule } from '../finding';
import { counted, finding, listed } from '../words';
import { placesOf } from './event-results';

const samplesIn = (site: Site, sent: readonly Sent[]) =>
  sent.flatMap(({ id }) => site.samples.get(id) ?? []);

const custodyCells = (site: Site, sent: readonly Sent[]): Source[] =>
  samplesIn(site, sent).map((sample) => cell('samples', sample, 'custody_number'));

/** "3 results came back for X" of names on no list. */
const resultsSaid = ({ name, results }: Reported) => `${name} (${counted(results, 'result')})`;

/** What a renamed sample is known by, as the end of a sentence. */
export const likenessSaid = ({ by, sent }: Renamed): string => {
  switch (by) {
    case 'laboratory number':
      return `its laboratory number ${sent.labNumber ?? ''} is the same`;
    case 'blind name':
      return 'that is the name it was sent under';
    case 'spelling':
      return 'but for spelling the names are the same';
    case 'screen and day':
      return 'it was taken from the same screen on the same day';
    case 'one slip of the keyboard':
      return 'the names are one slip of the keyboard apart';
  }
};

/** Samples sent to the laboratory of which nothing came back, though others of the list did. */
export const missingFromReport: Rule = ({ site, event }) => {
  const { missing, awaited } = custodyOf(site);
  const own = missing.filter((sent) => sent.event === event);
  const waiting = awaited.filter((sent) => sent.event === event);
  return [
    ...(own.length === 0
      ? []
      : [
          finding('sample not reported', 'samples', event, {
            severity: 'caution',
            who: placesOf(site, samplesIn(site, own)),
            says: `${listed(own.map(({ id, custodyNumber }) => `${id} (${custodyNumber})`))} ${own.length === 1 ? 'is' : 'are'} on the custody list, and no result of ${own.length === 1 ? 'it' : 'them'} came back.`,
            todo: 'Ask the laboratory: bottles break, and samples are reported later or under another name.',
            cells: custodyCells(site, own),
          }),
        ]),
    ...(waiting.length === 0
      ? []
      : [
          finding('custody list awaited', 'samples', event, {
            severity: 'note',
            who: placesOf(site, samplesIn(site, waiting)),
            says: `Nothing is reported yet of ${listed([...new Set(waiting.map(({ custodyNumber }) => custodyNumber))])}, ${counted(waiting.length, 'sample')}.`,
            todo: 'Take the laboratory’s file in when it comes.',
            cells: custodyCells(site, waiting),
          }),
        ]),
  ];
};

/** Results under a name that is on no custody list. Names the site does not know are of no event. */
export const onNoCustodyList: Rule = ({ site, event }) => {
  const own = custodyOf(site).extra.filter((one) => one.event === event || one.event === null);
  if (own.length === 0) return [];
  const samples = own.flatMap(({ name }) => site.samples.get(name) ?? []);
  return [
    finding('on no custody list', 'results', event, {
      severity: 'caution',
      who: placesOf(site, samples),
      says: `Results came back for ${listed(own.map(resultsSaid))}: on no custody list.`,
      todo: 'Ask the laboratory whose bottle it was; write the custody number where the list was not kept here.',
      cells: samples.map((sample) => cell('samples', sample, 'custody_number')),
    }),
  ];
};

/** Results that came back under another name than the custody list has. */
export const renamedByLaboratory: Rule = ({ site, event }) =>
  custodyOf(site)
    .renamed.filter(({ sent }) => sent.event === event)
    .map((pair): Finding => {
      const { sent, reported } = pair;
      return finding('sample renamed', sent.id, event, {
        severity: 'caution',
        who: placesOf(site, samplesIn(site, [sent])),
        says: `${counted(reported.results, 'result')} came back under ${reported.name}, which ${isSure(pair) ? 'is' : 'is most likely'} ${sent.id} of ${sent.custodyNumber}: ${likenessSaid(pair)}.`,
        todo: 'Compare with the custody record, then give the results to the sample of the list.',
        cells: custodyCells(site, [sent]),
      });
    });

/** Samples without a method that every other sample of their list was analysed by. */
export const methodMissing: Rule = ({ site, event }) =>
  custodyOf(site)
    .short.filter(({ sent }) => sent.event === event)
    .map(({ sent, methods }): Finding =>
      finding('analysis not reported', sent.id, event, {
        severity: 'caution',
        who: placesOf(site, samplesIn(site, [sent])),
        says: `${sent.id} has no result by ${listed(methods)}, which every other sample of ${sent.custodyNumber} has.`,
        todo: 'Compare with the analyses asked for on the custody record.',
        cells: custodyCells(site, [sent]),
      }),
    );
