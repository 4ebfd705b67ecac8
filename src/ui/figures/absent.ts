/** Stands in for what the PDF writer would load to read web pages, which no sheet asks of it. */
export default null;
