import { readShape } from '../../geometry/wkt';
import { cell } from '../../site/cite';
import type { Rule } from '../finding';
import { finding } from '../words';

/** Drawings whose well-known text cannot be read: they are not on the map, and nothing keeps clear of them. */
export const shapes: Rule = ({ site }) =>
  site.features.flatMap((feature) => {
    const shape = readShape(feature.shape);
    if (shape.ok) return [];
    const { at, expected, found } = shape.problem;
    return [
      finding('drawing that cannot be read', feature.id, null, {
        severity: 'caution',
        who: [],
        says: `${site.files.features}, row ${feature.row}, shape: at character ${at} expected ${expected}, found ${found === '' ? 'the end' : `“${found}”`}. ${feature.name ?? feature.id} (${feature.kind}) is not drawn${feature.kind === 'utility' ? ', and no point is kept clear of it' : ''}.`,
        todo: 'Correct the text, such as LINESTRING (489120 1822464, 489114 1822100).',
        cells: [cell('features', feature, 'shape')],
      }),
    ];
  });
