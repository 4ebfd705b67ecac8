/**
 * What the trade writes over its columns, by the slot it means. Compared in
 * small letters without blanks and signs. The list is this project's own;
 * `site_no` to `rpt_lev_va` are column names of the U.S. Geological Survey's
 * water data, `MonitoringLocationIdentifier` and its like of the Water Quality
 * Exchange (EPA and USGS; values from memory).
 *
 * A word that can mean two things stands under both where the rest of the file
 * tells them apart, and nowhere where it doesn't. An exact heading is certain;
 * one after "?" is only likely, and is shown so.
 */
export const SYNONYMS: Readonly<Record<string, string>> = {
  'locations.id':
    'location, location id, loc id, location name, loc name, loc, point, point id, point name, point no, well, well id, well name, well no, well number, boring, boring id, boring no, borehole, borehole id, station, station id, station name, station no, station_nm, hole, hole id, probe, probe id, push point, sample location, sampling location, sample point, sampling point, monitoring point, monitoring location, monitoring well, MonitoringLocationIdentifier ? id, name, site_no, site id, site, designation, title',
  'locations.easting':
    'easting, east, x, x coordinate, x coord, coord x, easting x, grid east, grid easting, e coordinate, point x, utm easting, utm e, state plane x, state plane easting, x easting ? e',
  'locations.northing':
    'northing, north, y, y coordinate, y coord, coord y, northing y, grid north, grid northing, n coordinate, point y, utm northing, utm n, state plane y, state plane northing, y northing ? n',
  '@longitude':
    'longitude, long, lon, lng, dec_long_va, decimal longitude, longitude decimal, longitude dd, gps longitude, LongitudeMeasure, long dd, long dms, longitude dms',
  '@latitude':
    'latitude, lat, dec_lat_va, decimal latitude, latitude decimal, latitude dd, gps latitude, LatitudeMeasure, lat dd, lat dms, latitude dms',
  '@place': 'lat long, lat lon, latlong, latitude longitude, gps coordinates, gps, lat/long',
  'locations.ground_elevation':
    'ground elevation, ground elev, ground surface elevation, gs elevation, gse, ground surface, ground level, land surface elevation, land surface altitude, lsd elevation, grade elevation, surface elevation, alt_va, elevation ground, ground elev ngvd, ground elev navd, ground elevation navd88 ? elevation, elev, altitude, ele, z',
  'locations.ground_accuracy': 'ground accuracy, ground elevation standard error',
  'locations.ground_how': 'ground how, how elevation is known, elevation method',
  'locations.kind':
    'kind, location type, point type, well type, station type, boring type, type of point ? type',
  'locations.status': 'location status, well status, point status ? status',
  'locations.control_easting':
    'control easting, known easting, published easting, monument easting',
  'locations.control_northing':
    'control northing, known northing, published northing, monument northing',
  'locations.control_source': 'control source, source of the control, published by',
  'locations.planned_easting': 'planned easting, staked easting, proposed easting, design easting',
  'locations.planned_northing':
    'planned northing, staked northing, proposed northing, design northing',
  'locations.purpose': 'purpose, objective, rationale',
  'locations.note': 'note, notes, remark, remarks, comment, comments, description ? desc',

  'screens.id': 'screen, screen id, interval id, port, port id, site_no, zone id, screen name',
  'screens.location':
    'location, location id, point, point id, well, well id, well name, boring, hole id',
  'screens.tip_depth':
    'tip depth, depth of tip, driven depth, push depth, bottom of tool ? total depth',
  'screens.tool_offset': 'tool offset, tip offset',
  'screens.retraction': 'retraction, pull back, pullback, rods retracted',
  'screens.screen_length': 'screen length, length of screen, slotted length',
  'screens.exposed_length': 'exposed length, exposed screen, open length, exposed screen length',
  'screens.sounded_depth': 'sounded depth, sounding, sounded total depth',
  'screens.zone':
    'zone, aquifer, unit screened, water-bearing zone, hydrostratigraphic unit, hsu, network_cd, aquifer zone, screened unit',
  'screens.set_time':
    'set time, time set, screen set, date pushed, push date, pushed, date installed, installation date, date set',
  'screens.pulled_time': 'pulled time, time pulled, screen pulled',
  '@screen_top':
    'screen top, top of screen, top screen, screen top depth, top of screen depth, depth to top of screen, tos, screen from, screened from, interval top, top of interval, screen start ? top depth, from, top',
  '@screen_bottom':
    'screen bottom, bottom of screen, bottom screen, screen bottom depth, bottom of screen depth, depth to bottom of screen, bos, screen to, screened to, interval bottom, bottom of interval, screen base, base of screen, screen end ? bottom depth, to, bottom',
  'measuring_points.elevation':
    'toc elevation, toc elev, top of casing elevation, top of casing, toc, casing elevation, measuring point elevation, mp elevation, mp elev, reference elevation, reference point elevation, ref elev, elevation toc, top of riser elevation, tor elevation',
  'measuring_points.stick_up':
    'stick up, stickup, casing stickup, casing height, mp height, height above ground',
  'measuring_points.description': 'measuring point description, mp description, measured from',
  'measuring_points.accuracy': 'measuring point accuracy, mp accuracy',
  'measuring_points.surveyor': 'surveyor, surveyed by',
  'measuring_points.from_day': 'surveyed, survey date, date surveyed',
  'measuring_points.screen': 'screen, well, well id, location, point',
  '@unit':
    'length unit, depth unit, depth units, elevation unit, elevation units, units of length, unit of measure ? unit, units, uom',

  'water_levels.screen':
    'screen, screen id, location, location id, loc id, location name, point, point id, point name, well, well id, well name, well no, well number, boring, boring id, station, station id, station name, station_nm, hole id, site_no, monitoring well, monitoring point, MonitoringLocationIdentifier ? id, name, site, designation',
  'water_levels.event': 'event, round, gauging event, gauging round, event id, campaign',
  'water_levels.measuring_point': 'measuring point, mark, reference point, mp',
  'water_levels.time':
    'date, date time, datetime, measurement date, measure date, date measured, gauging date, date gauged, level date, lev_dt, time and date, date and time, reading date, reading time, timestamp, sample date ? day, when',
  '@clock':
    'time, clock, time of day, gauging time, measurement time, reading time, sample time, time sampled, collection time, time collected, hour',
  'water_levels.depth_to_water':
    'water level btoc, water level toc, depth to water, dtw, depth to groundwater, depth to gw, water depth, dtgw, depth to water btoc, water level depth, depth water, static water level, swl, depth to static water, dtw btoc, depth to water level',
  '@read_time':
    'water level date, level date, date of water level, gauging date, date gauged, date measured',
  '@depth_below_ground':
    'water level bgs, water level bgl, water level below ground, static water level bgs, swl bgs, groundwater depth bgs, depth to groundwater bgs, lev_va, depth to water below land surface, depth below land surface, depth to water below ground, depth below ground, depth to water bgs, dtw bgs, water depth bgs, depth to water bls, depth below ground surface',
  'water_levels.depth_to_product':
    'depth to product, dtp, depth to lnapl, depth to free product, product depth, depth to napl, depth to oil',
  'water_levels.product_density':
    'product density, lnapl density, specific gravity, product specific gravity',
  'water_levels.status':
    'status, lev_status_cd, reading status, level status, water level status, condition',
  'water_levels.use': 'use, use in contours, include',
  'water_levels.why': 'why, reason',
  'water_levels.read_by':
    'read by, measured by, gauged by, by, initials, technician, field staff, sampler',
  'water_levels.note': 'note, notes, remark, remarks, comment, comments',

  'purge_readings.screen':
    'screen, location, location id, point, point id, well, well id, well name, station, site_no',
  'purge_readings.event': 'event, round',
  'purge_readings.time': 'date, date time, datetime, timestamp, reading time, time',
  'purge_readings.ph': 'ph, ph su, ph std',
  'purge_readings.conductance':
    'conductance, specific conductance, spc, sc, conductivity, specific conductivity, sp cond, ec, spec cond',
  'purge_readings.dissolved_oxygen': 'dissolved oxygen, do, do mg l, oxygen',
  'purge_readings.orp': 'orp, redox, eh, oxidation reduction potential',
  'purge_readings.temperature': 'temperature, temp, water temperature, temp c, water temp',
  'purge_readings.turbidity': 'turbidity, turb, ntu',
  'purge_readings.depth_to_water': 'depth to water, dtw, water level, drawdown level',
  'purge_readings.rate': 'rate, flow rate, purge rate, pumping rate, flow, ml min',
  'purge_readings.note': 'note, notes, remarks, comments, observations, color odor',

  'samples.id':
    'sample, sample id, sample name, sample no, sample number, client sample id, field sample id, client id, field id, sample_id, bottle id, sample identification, ActivityIdentifier ? id',
  'samples.screen':
    'location, location id, loc id, location name, point, point id, well, well id, well name, well no, boring, boring id, station, station id, station_nm, site_no, sample location, sampling location, sample point, sampling point, monitoring well, monitoring point, monitoring location, hole id, screen, screen id, MonitoringLocationIdentifier ? site, field point',
  'samples.event': 'event, round, sampling event, sampling round, campaign',
  'samples.time':
    'date, sample date, sampling date, date sampled, sample_dt, collection date, date collected, collected, sampled, sample date time, sampled date, collect date, date time, datetime, sampling date time, collection date time, ActivityStartDate ? day, time',
  'samples.kind':
    'sample type, sample kind, sample_type_cd, type of sample, qc type, sample purpose, qa qc type, sample class ? type, kind',
  'samples.parent': 'parent, parent sample, parent sample id, duplicate of, original sample',
  'samples.matrix': 'matrix, media, sample matrix, sample media, lab matrix ? medium',
  'samples.top_depth':
    'sample top, sample top depth, top of sample, start depth, sample start depth, sample depth from, top of sampled interval',
  'samples.base_depth':
    'sample bottom, sample bottom depth, bottom of sample, end depth, sample end depth, sample depth to, base of sampled interval',
  'samples.equipment':
    'sampling equipment, equipment, equipment id, sampler id, pump id, sampling device',
  'samples.container': 'container, bottle, bottles',
  'samples.preservative': 'preservative, preservation',
  'samples.cooler': 'cooler, cooler id',
  'samples.custody_number':
    'custody number, chain of custody, coc, coc number, coc no, chain of custody number, coc id',
  'samples.relinquished_time': 'relinquished, relinquished time, date relinquished',
  'samples.received_time':
    'received, received time, date received, receipt date, lab receipt date, received date',
  'samples.receipt_temperature':
    'receipt temperature, temperature on receipt, receipt temp, cooler temperature',
  'samples.laboratory': 'laboratory, lab, lab name, laboratory name',
  'samples.lab_number':
    'lab number, lab sample id, lab id, laboratory id, lab no, laboratory sample id, lab sample no, laboratory number',
  'samples.delivery_group':
    'delivery group, sdg, sample delivery group, work order, lab report, report number, lab report no, job number, lab project',
  'samples.blind_alias': 'blind alias, blind id, alias',

  'results.cas':
    'cas, cas no, cas number, casrn, cas rn, cas registry number, casno, cas reg no, cas num, chemical abstracts number',
  'results.analyte':
    'analyte, analyte name, parameter, parameter name, compound, chemical, chemical name, constituent, component, component name, srsname, substance, determinand, contaminant, CharacteristicName, analysis ? test',
  'results.fraction':
    'fraction, filtered, total or dissolved, sample fraction, t d, filtered or unfiltered, ResultSampleFractionText',
  'results.method':
    'method, analytical method, analysis method, test method, lab method, method code, method name',
  'results.run': 'run, run type, analysis run, dilution or reanalysis',
  'results.value':
    'result, result value, value, results, result_va, concentration, reported result, conc, final result, measured value, reported value, ResultMeasureValue ? amount, finding',
  '@remark':
    'remark_cd, remark code, prefix, result prefix, less than, sign, operator, result sign, comparator',
  'results.unit':
    'unit, units, result unit, result units, unit of measure, reporting units, unit_cd, uom, reported unit, ResultMeasure MeasureUnitCode',
  'results.detected': 'detected, detect, detect flag, detection flag, detected yn, hit',
  'results.lab_qualifier':
    'qualifier, qual, q, lab qualifier, lab qual, laboratory qualifier, flag, lab flag, qualifiers, result qualifier, flags, data flag, MeasureQualifierCode',
  'results.validation_qualifier':
    'validation qualifier, validator qualifier, validated qualifier, review qualifier, val qual, dv qualifier, data validation qualifier, validation flag, final qualifier, reviewer qualifier',
  'results.detection_limit':
    'detection limit, mdl, method detection limit, dl, lod, limit of detection, sample detection limit, minimum detection limit',
  'results.reporting_limit':
    'reporting limit, rl, pql, quantitation limit, practical quantitation limit, loq, mrl, rdl, report limit, reporting level, rpt_lev_va, crql, limit of quantitation, method reporting limit, reporting detection limit, laboratory reporting limit ? limit',
  'results.prepared':
    'prepared, prep date, preparation date, date prepared, extracted, extraction date, date extracted, extraction time, digestion date, PreparationStartDate',
  'results.analysed':
    'analysed, analyzed, analysis date, date analyzed, date analysed, analysis time, analyzed on, AnalysisStartDate',
  'results.note': 'note, notes, remarks, comments, comment, result comment, lab comment',

  'screening_levels.set': 'set, level set, criteria set, standard set, list',
  'screening_levels.cas': 'cas, cas no, cas number, casrn, cas rn, cas registry number',
  'screening_levels.analyte':
    'analyte, parameter, compound, chemical, chemical name, constituent, contaminant, srsname, substance',
  'screening_levels.matrix': 'matrix, media, medium',
  'screening_levels.fraction': 'fraction, total or dissolved',
  'screening_levels.value':
    'screening level, level, criterion, criteria, standard, mcl, action level, cleanup level, limit value, regulatory level, screening value, groundwater standard, guideline, remediation goal, maximum contaminant level, water quality standard ? limit, value',
  'screening_levels.unit': 'unit, units, unit_cd, uom',
  'screening_levels.basis': 'basis, protects, endpoint',
  'screening_levels.source': 'source, reference, publication, citation',
  'screening_levels.section': 'section, table, page',
  'screening_levels.date_read': 'date read, read on, date',
  'screening_levels.chosen_by': 'chosen by, selected by',

  'strata.location':
    'location, location id, point, point id, boring, boring id, borehole, hole id, well, well id',
  'strata.top': 'top, from, top depth, depth from, from depth, start depth, depth top, start',
  'strata.bottom':
    'bottom, to, bottom depth, depth to, to depth, end depth, depth bottom, base, end',
  'strata.description':
    'description, lithology, soil description, log, material description, geology, lithologic description',
  'strata.class': 'class, soil class, main soil, soil type, lithology code',

  'survey_shots.point': 'point, station, sta, point sighted, mark',
  'survey_shots.backsight': 'backsight, bs, back sight, bs reading',
  'survey_shots.foresight': 'foresight, fs, fore sight, fs reading',
  'survey_shots.distance': 'distance, dist, leg length',
  'survey_shots.loop': 'loop, run, line, loop id',
  'survey_shots.order': 'order, no, shot, sequence, seq, shot no',
  'survey_shots.known_elevation':
    'known elevation, benchmark elevation, bm elevation, control elevation ? elevation',

  'events.id': 'event, round, event id, id, name',
  'events.first_day': 'first day, start, start date, from, begin, begin date',
  'events.last_day': 'last day, end, end date, to, finish, finish date',
  'features.shape': 'shape, wkt, geometry, geom, well-known text',
  'features.kind': 'kind, type, class, layer, feature type',
  'features.name': 'name, title, label',
  'features.id': 'id, feature id, fid, objectid',
};

/** Columns of the header that carry their unit with them, in the words above. */
export const UNIT_OF_HEADING: Readonly<Record<string, 'ft'>> = {
  // The agency's depths and altitudes are in feet (its field definitions; value from memory).
  lev_va: 'ft',
  alt_va: 'ft',
};

/** Columns no table wants: what a refused row was refused for, and row numbers. */
export const LEFT_OUT = ['why_refused', 'row no', 'row number', 'line no', '#'] as const;

/**
 * Words and codes in files for the choices of the tables, by slot: choice, then
 * what is written for it. Numbers are the agency's codes, and count only under
 * its own headings.
 */
export const CHOICE_WORDS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'samples.kind': {
    'field sample':
      'sample, normal, n, regular, reg, primary, original, field, investigative, ground water, groundwater, sample routine, sampleroutine, routine',
    'field duplicate':
      'duplicate, dup, fd, field dup, replicate, field replicate, fdup, blind duplicate, field duplicate sample',
    'trip blank': 'tb, trip',
    'equipment blank':
      'eb, equipment, rinsate, rinsate blank, er, equipment rinsate, rb, equip blank',
    'field blank': 'fb, ambient blank',
  },
  'results.fraction': {
    total: 't, unfiltered, total recoverable, tot, whole water',
    dissolved: 'd, filtered, diss, field filtered, lab filtered, f',
  },
  'results.run': {
    initial: 'i, original, primary, first, 1',
    dilution: 'd, dil, diluted, dl',
    reanalysis: 'r, re, reanalyzed, reanalysed, rerun, reextraction',
  },
  'water_levels.status': {
    static: 's, ok, normal, equilibrated, stable',
    recovering: 'recovery, r, not stable',
    dry: 'd, well dry, no water',
    obstructed: 'blocked, obstruction, not accessible, no access',
    pumping: 'p, pumped, well pumping',
    flowing: 'f, artesian, flowing artesian',
    'not known': 'unknown, not stated, not recorded, nr',
  },
  'locations.kind': {
    'direct push':
      'dp, direct-push, push, push point, probe, temporary point, temporary well, temporary, dpt, direct push point, boring, grab',
    'monitoring well': 'mw, well, monitoring, monitor well, observation well, permanent well',
    piezometer: 'pz, piezo',
    'staff gauge': 'sg, staff gage, gauge, gage, surface water',
    'supply well': 'sw, supply, water supply, production well, domestic well, irrigation well, pw',
  },
  'locations.status': {
    planned: 'proposed, design, future',
    pushed: 'advanced, drilled, complete, completed, done, sampled',
    refused: 'refusal',
    dropped: 'cancelled, canceled, omitted, not drilled, not pushed, deleted',
    installed: 'active, existing, in use, open',
    decommissioned: 'abandoned, destroyed, plugged, sealed, closed, removed, grouted',
  },
  'locations.ground_how': {
    surveyed: 'survey, level, leveling, levelling, s',
    estimated: 'estimate, est, map, topographic map, dem, lidar, gps, e',
    none: 'unknown, not known',
  },
  'attempts.outcome': {
    reached: 'complete, completed',
    refusal: 'refused',
    obstruction: 'obstructed',
  },
  'features.kind': {
    boundary: 'site boundary, property line, property boundary, property, site, parcel, lease line',
    building: 'bldg, structure, buildings, tank, warehouse',
    utility:
      'utilities, gas line, gas main, water line, water main, sewer, storm sewer, sanitary sewer, electric line, power line, pipeline',
    exclusion: 'exclusion area, no go, no-go area, keep out',
    'source area': 'source, release area, spill, source zone',
    receptor: 'receptors, private well, supply well',
    'section line': 'section, cross section, transect',
    'surface water': 'river, stream, creek, pond, lake, ditch, water body, waterbody',
    'no-flow line': 'no flow, no-flow boundary, barrier wall, slurry wall',
  },
  'strata.class': {
    fill: 'af, made ground',
    clay: 'cl, ch',
    silt: 'ml, mh',
    sand: 'sp, sw, sm, sc',
    gravel: 'gp, gw, gm, gc',
    peat: 'pt',
    rock: 'bedrock, weathered bedrock',
  },
};

/**
 * Codes that mean something only under a heading of their own: heading, code,
 * choice. The agency's codes are of its published lists (values from memory,
 * but for those its data set explains).
 */
export const CODES_UNDER: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  sampletypecd: { '9': 'field sample', '7': 'field duplicate', '2': 'equipment blank' },
  levstatuscd: { '1': 'static', p: 'pumping', d: 'dry', f: 'flowing', o: 'obstructed' },
  filtered: { y: 'dissolved', yes: 'dissolved', n: 'total', no: 'total' },
  filteredorunfiltered: { y: 'dissolved', yes: 'dissolved', n: 'total', no: 'total' },
};

/** What stands in a cell of depths where there was nothing to measure. */
export const DEPTH_WORDS: Readonly<Record<string, 'dry' | 'obstructed' | 'flowing'>> = {
  dry: 'dry',
  'well dry': 'dry',
  obstructed: 'obstructed',
  blocked: 'obstructed',
  obstruction: 'obstructed',
  flowing: 'flowing',
  artesian: 'flowing',
  'flowing artesian': 'flowing',
};
