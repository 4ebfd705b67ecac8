/** What the files of a sheet are made with. */
export { fontFile } from '../../io/export/font-file';
export { withDensity } from '../../io/export/png-density';
export { writeCsv } from '../../io/csv';
