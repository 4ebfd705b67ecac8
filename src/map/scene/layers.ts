/**
 * Every layer of a drawing, bottom first. `LayerId` comes from this list, so a
 * new layer must be given its place before it compiles. Labels are placed from
 * the top down: points take their room first, and no label may cover one; nor
 * what `keep-clear` holds, which is itself not seen.
 */
export const LAYERS = [
  'pictures',
  'graticule',
  'surface-error',
  'extent-chance',
  'surface-water',
  'hiding-places',
  'fan',
  'buildings',
  'source-areas',
  'exclusions',
  'utility-buffers',
  'utilities',
  'no-flow-lines',
  'receptors',
  'boundary',
  'section-lines',
  'contours',
  'extent-outline',
  'flow-lines',
  'local-arrows',
  'arrow',
  'construction',
  'stake-offsets',
  'feature-labels',
  'point-labels',
  'posted-heads',
  'captions',
  'bars',
  'draft',
  'selection',
  'points',
  'verdicts',
  'keep-clear',
] as const;

export type LayerId = (typeof LAYERS)[number];
