import type { Rule } from './finding';

/** Rules about the site as a whole: its points, holes, intervals and drawings. In the order they are listed. */
export const SITE_RULES: readonly Rule[] = [];

/** Rules about one event: its levels, planes, samples and results. In the order they are listed. */
export const EVENT_RULES: readonly Rule[] = [];
