/** How long a sample of some analytes may be held, in hours from one step to the next. */
export type HoldingLimit = {
  readonly name: string;
  /** CAS numbers it is for. */
  readonly analytes: readonly string[];
  /** Parts of method names it is for, in capitals. */
  readonly methods: readonly string[];
  readonly preservation: string;
  /** Null where nothing is extracted: then `toAnalysis` runs from sampling. */
  readonly toExtraction: number | null;
  readonly toAnalysis: number | null;
  readonly source: string;
};

const DAYS = 24;
const TABLE = '40 CFR 136.3, Table II (value from memory)';

/**
 * A first list for water, to be edited: limits differ by method, edition,
 * preservation and programme. All values are from memory.
 */
export const USUAL_HOLDING_LIMITS: readonly HoldingLimit[] = [
  {
    name: 'Mercury',
    analytes: ['7439-97-6'],
    methods: ['245.1', '7470'],
    preservation: 'nitric acid to pH below 2',
    toExtraction: null,
    toAnalysis: 28 * DAYS,
    source: TABLE,
  },
  {
    name: 'Hexavalent chromium',
    analytes: ['18540-29-9'],
    methods: ['7196', '7199', '218.6'],
    preservation: 'cooled, not otherwise preserved',
    toExtraction: null,
    toAnalysis: 24,
    source: 'SW-846 chapter 3 (value from memory)',
  },
  {
    name: 'Nitrate or nitrite alone',
    analytes: ['14797-55-8', '14797-65-0'],
    methods: [],
    preservation: 'cooled, not otherwise preserved',
    toExtraction: null,
    toAnalysis: 48,
    source: TABLE,
  },
  {
    name: 'Cyanide',
    analytes: ['57-12-5'],
    methods: ['335.4', '9012'],
    preservation: 'sodium hydroxide to pH above 10',
    toExtraction: null,
    toAnalysis: 14 * DAYS,
    source: TABLE,
  },
  {
    name: 'Chloride, fluoride, sulfate, bromide',
    analytes: ['16887-00-6', '16984-48-8', '14808-79-8', '24959-67-9'],
    methods: ['300.0', '9056'],
    preservation: 'cooled',
    toExtraction: null,
    toAnalysis: 28 * DAYS,
    source: TABLE,
  },
  {
    name: 'Volatile organic compounds',
    analytes: [],
    methods: ['8260', '524.2', '524.3', '524.4', '624'],
    preservation: 'hydrochloric acid to pH below 2; 7 days if not preserved',
    toExtraction: null,
    toAnalysis: 14 * DAYS,
    source: TABLE,
  },
  {
    name: 'Semivolatile organic compounds',
    analytes: [],
    methods: ['8270', '625'],
    preservation: 'cooled',
    toExtraction: 7 * DAYS,
    toAnalysis: 40 * DAYS,
    source: TABLE,
  },
  {
    name: 'Metals',
    analytes: [],
    methods: ['6010', '6020', '200.7', '200.8'],
    preservation: 'nitric acid to pH below 2',
    toExtraction: null,
    toAnalysis: 180 * DAYS,
    source: TABLE,
  },
  {
    name: 'PFAS in drinking water',
    analytes: [],
    methods: ['537.1'],
    preservation: 'as the method says, cooled',
    toExtraction: 14 * DAYS,
    toAnalysis: 28 * DAYS,
    source: 'EPA Method 537.1 (value from memory)',
  },
];
