/** Words a pattern of sample names may hold. */
export const SAMPLE_WORDS = ['location', 'screen', 'day', 'number'] as const;

export const USUAL_SAMPLE_PATTERN = '[screen]-[day]';
