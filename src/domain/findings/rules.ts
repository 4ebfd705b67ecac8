import type { Rule } from './finding';
import { clearance } from './ground/clearance';
import { control } from './ground/control';
import { coordinates } from './ground/coordinates';
import { crossesContact } from './ground/contacts';
import { decisionsOnNothing } from './ground/decisions';
import { groundElevation } from './ground/ground-elevation';
import { holesReach, openHole } from './ground/holes';
import { interval, sounding } from './ground/interval';
import { markHeight } from './ground/mark-height';
import { shapes } from './ground/shapes';
import { stakedOffset } from './ground/staked';
import { analyteNames, noLimit, unknownLetters, withoutResult } from './lab/as-reported';
import { blanks } from './lab/blanks';
import {
  methodMissing,
  missingFromReport,
  onNoCustodyList,
  renamedByLaboratory,
} from './lab/custody';
import { duplicateDisagrees, duplicateExceeds, duplicateParents } from './lab/duplicates';
import { holdingTime, receiptTemperature, sampleTimes } from './lab/handling';
import { sampledTwice } from './lab/sampled-twice';
import { turbidity } from './lab/turbidity';
import { dragDown, sampledInterval, uncertainInterval } from './lab/where-sampled';
import { headAboveGround, levelAboveMark } from './levels/above-ground';
import { mixedDatums } from './levels/datums';
import { dry } from './levels/dry';
import { elevationKnown } from './levels/elevation-known';
import { gaugingSpread, outsideEvent } from './levels/gauging-time';
import { decidedByHand, triedAgain, unusable } from './levels/left-out';
import { markChanged, markNamed } from './levels/mark';
import { product } from './levels/product';
import { purgeDepth } from './levels/purge-depth';
import { pushLevels } from './levels/push-levels';
import { readTwice } from './levels/read-twice';
import { justBuilt, notAtRest } from './levels/recovery';
import { instantaneousOnly, outsideTide } from './levels/tide';
import { gaugedWhenAbsent } from './levels/when';
import { stateNotKnown } from './levels/state-not-known';
import { changeOutOfLine } from './planes/change';
import { nestAcrossZones, nestInPlane } from './planes/nests';
import { notAPlane } from './planes/not-a-plane';
import { notResolved } from './planes/resolved';
import { standsOut } from './planes/stands-out';
import { driver, thinSet } from './planes/thin';
import { unnamedZone } from './planes/unnamed-zone';
import { wrongZone } from './planes/zones';
import { whileSame } from './while-same';

/** The tables of the ground, which the rules below and no others look at. */
const onTheGround = (rule: Rule): Rule =>
  whileSame(
    (site) => [
      site.locations,
      site.screens,
      site.measuringPoints,
      site.strata,
      site.attempts,
      site.features,
      site.decisions,
      site.settings,
    ],
    rule,
    'site',
  );

/** The tables of the laboratory and what they hang from. */
const inTheLaboratory = (rule: Rule): Rule =>
  whileSame(
    (site) => [
      site.samples,
      site.results,
      site.qualifierLegends,
      site.screeningLevels,
      site.purgeReadings,
      site.screens,
      site.locations,
      site.attempts,
      site.settings,
    ],
    rule,
  );

/** Rules about the site as a whole: its points, marks, holes, intervals and drawings. In the order they are listed. */
export const SITE_RULES: readonly Rule[] = [
  onTheGround(coordinates),
  onTheGround(control),
  onTheGround(groundElevation),
  onTheGround(markHeight),
  wrongZone,
  onTheGround(interval),
  onTheGround(sounding),
  onTheGround(crossesContact),
  onTheGround(stakedOffset),
  onTheGround(openHole),
  onTheGround(holesReach),
  onTheGround(clearance),
  onTheGround(shapes),
  decisionsOnNothing,
];

/** Rules about one event: its planes, levels, samples and results. In the order they are listed. */
export const EVENT_RULES: readonly Rule[] = [
  standsOut,
  notAPlane,
  changeOutOfLine,
  notResolved,
  unnamedZone,
  driver,
  thinSet,
  nestInPlane,
  nestAcrossZones,
  gaugedWhenAbsent,
  levelAboveMark,
  headAboveGround,
  dry,
  product,
  purgeDepth,
  notAtRest,
  justBuilt,
  stateNotKnown,
  elevationKnown,
  mixedDatums,
  markNamed,
  markChanged,
  gaugingSpread,
  outsideTide,
  outsideEvent,
  instantaneousOnly,
  readTwice,
  pushLevels,
  decidedByHand,
  unusable,
  triedAgain,
  ...[
    duplicateParents,
    duplicateExceeds,
    duplicateDisagrees,
    sampledTwice,
    blanks,
    holdingTime,
    receiptTemperature,
    sampleTimes,
    missingFromReport,
    onNoCustodyList,
    renamedByLaboratory,
    methodMissing,
    turbidity,
    uncertainInterval,
    sampledInterval,
    dragDown,
    unknownLetters,
    analyteNames,
    noLimit,
    withoutResult,
  ].map(inTheLaboratory),
];
