import { sampleNamed } from '../../domain/lab/custody-site';
import type { Cell } from './ask';
import type { Made } from './cells';
import type { Context } from './context';
import { BLANKS } from './control-samples';
import { slotsOf, slotTitle } from './forms';
import type { Places } from './places';
import type { Part } from './plan';
import { eventColumn, timeColumn } from './plan-levels';
import { keyOf, missing, required, slotColumns, tableColumns } from './plan-common';
import { readerFor, readWhenText } from './readers';
import type { Rounds } from './rounds';
import { areToldByName, SampleNames, type Told } from './sample-names';

/** Slots that say something of a sample beyond its name. */
const SAMPLE_SLOTS = slotsOf('results').flatMap(({ id, table }) =>
  table === 'samples' && id !== 'samples.id' ? [id] : [],
);

/** Whether a file says something of its samples beyond their names. */
export const tellsOfSamples = (context: Context) =>
  SAMPLE_SLOTS.some((slot) => context.at(slot) !== null);

/** What names the sample of a row; and what its name tells of it, where the file has little else. */
export type NamedSamples = { readonly id: Made; readonly names: NamedColumns | null };

/** @param tells  whether the file says anything of its samples beyond their names */
export function namedSamples(context: Context, places: Places, tells: boolean): NamedSamples {
  if (!tells) return { id: knownSample(context), names: null };
  const names = areToldByName(context) ? namesOf(context, places) : null;
  return { id: names?.id ?? sampleColumn(context), names };
}

/** Columns of the samples that their names tell. */
type NamedColumns = { readonly id: Made; readonly others: readonly Made[] };

function namesOf(context: Context, places: Places): NamedColumns {
  const nameAt = context.at('samples.id') ?? 0;
  const kindAt = context.at('samples.kind');
  const names = new SampleNames(context, places, nameAt);
  const readKind =
    kindAt === null ? null : readerFor(context, context.slot('samples.kind'), kindAt);
  const from = [...names.from, ...(kindAt === null ? [] : [kindAt])];
  const matrixAt = context.at('samples.matrix');
  const [matrix] = matrixAt === null ? [] : slotColumns(context, context.slot('samples.matrix'));
  const column = (name: string, cell: (told: Told) => Cell): Made => ({
    column: name,
    from,
    make: (texts) => {
      const kind = readKind ? readKind(texts.at(-1) ?? '') : null;
      return cell(names.tell(readKind ? texts.slice(0, -1) : texts, kind));
    },
  });
  return {
    id: column('id', ({ id }) => id),
    others: [
      column('screen', ({ screen }) => screen),
      column('kind', ({ kind }) => kind),
      ...(context.at('samples.parent') === null ? [column('parent', ({ parent }) => parent)] : []),
      ...(context.at('samples.blind_alias') === null
        ? [column('blind_alias', ({ alias }) => alias)]
        : []),
      ...(context.at('samples.lab_number') === null
        ? []
        : [column('lab_number', ({ labNumber }) => labNumber)]),
      ...(matrix
        ? [
            {
              ...matrix,
              from: [...matrix.from, ...from],
              make: (texts: readonly string[]) => {
                const cell = matrix.make(texts.slice(0, 1));
                const told = column('kind', ({ kind }) => kind).make(texts.slice(1));
                // A laboratory gives a blank the matrix of the samples it travels with.
                if (cell !== 'groundwater' || typeof told !== 'string' || !BLANKS.has(told))
                  return cell;
                context.say(`“${texts[1] ?? ''}” is a ${told}: its matrix is put down as water, though the file says “${texts[0] ?? ''}”, since it is no groundwater of the site.`); // prettier-ignore
                return 'water';
              },
            },
          ]
        : []),
    ],
  };
}

/** The samples of a laboratory file: one for all results of its name. */
export function samplesPart(
  context: Context,
  { id: sample, names }: NamedSamples,
  places: Places,
  rounds: Rounds,
): Part {
  return {
    table: 'samples',
    key: keyOf('samples'),
    columns: [
      { ...sample, column: 'id' },
      ...(names?.others ?? [
        sampledScreen(context, places),
        ...slotColumns(context, context.slot('samples.kind'), 'field sample'),
      ]),
      eventColumn(context, rounds, 'samples.time'),
      ...timeColumn(context, 'samples.time'),
      ...tableColumns(context, 'samples', [
        'samples.id',
        'samples.screen',
        'samples.event',
        'samples.time',
        'samples.kind',
        ...(names?.others.map(({ column }) => `samples.${column}`) ?? []),
      ]),
    ],
  };
}

/** The name of a sample the site has: the file says nothing of it but that. */
function knownSample(context: Context): Made {
  const at = context.at('samples.id');
  const heading = context.heading(at, 'Sample');
  const { samples } = context.target.site;
  return {
    column: 'id',
    from: at === null ? [] : [at],
    make: ([name = '']) =>
      sampleNamed(samples, name) ?? { column: heading, expected: 'a sample the site has: the file gives no location or date', found: name }, // prettier-ignore
  };
}

/** The sample's name: its own, or its location and day where the file names none. */
function sampleColumn(context: Context): Made {
  const at = context.at('samples.id');
  if (at !== null)
    return required(
      { column: 'id', from: [at], make: ([text = '']) => text },
      context.heading(at, 'Sample'),
      'the name of the sample',
    );
  const [locationAt, timeAt] = [context.at('samples.screen'), context.at('samples.time')];
  if (locationAt === null || timeAt === null) {
    context.askConstant('samples.id', null, 'No column names the sample, nor both its location and its day.'); // prettier-ignore
    const constant = context.constant('samples.id');
    return {
      column: 'id',
      from: [],
      make: () => constant ?? missing(slotTitle(context.slot('samples.id')), 'an answer to what the sample is called'), // prettier-ignore
    };
  }
  context.say('No column names the samples: they are called by their location and day.');
  return {
    column: 'id',
    from: [locationAt, timeAt],
    make: ([location = '', date = '']): Cell => {
      if (location === '')
        return missing(
          context.heading(locationAt, 'Location'),
          'the location, to name the sample by',
        );
      const when = readWhenText(context, timeAt, date);
      return typeof when === 'string' ? `${location} ${when.slice(0, 10)}` : when;
    },
  };
}

/** The screen sampled; blank only for a blank, and for a duplicate whose parent is not told. */
function sampledScreen(context: Context, places: Places): Made {
  const at = context.at('samples.screen');
  const kindAt = context.at('samples.kind');
  const heading = context.heading(at, 'Location');
  const [kind] = slotColumns(context, context.slot('samples.kind'), 'field sample');
  const from = [...(at === null ? [] : [at]), ...(kindAt === null ? [] : [kindAt])];
  return {
    column: 'screen',
    from,
    make: (texts): Cell => {
      const name = at === null ? '' : (texts[0] ?? '');
      const cell = kind?.make(kindAt === null ? [] : texts.slice(-1)) ?? '';
      const isCheck = typeof cell === 'string' && (BLANKS.has(cell) || cell === 'field duplicate');
      if (name !== '') {
        if (!isCheck) return places.screen(name, heading);
        // It may be listed under a name that is no place: the trip, the laboratory, DUP-1.
        const { screens, locations } = context.target.site;
        return screens.has(name) || locations.has(name) ? places.screen(name, heading) : '';
      }
      return isCheck ? '' : missing(heading, 'a location or screen; only a blank or a blind duplicate has none'); // prettier-ignore
    },
  };
}
