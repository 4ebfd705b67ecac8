import type { TableSchema } from './schema';

/** Tables about days and people: rounds of gauging, readings, decisions, views. */
export const RECORD_TABLES = {
  events: {
    title: 'Events',
    says: 'A round of gauging or sampling.',
    key: ['id'],
    fields: {
      id: { kind: 'text', required: true, says: 'Name of the round' },
      title: { kind: 'text', says: 'Its title on figures' },
      first_day: { kind: 'day', required: true, says: 'First day' },
      last_day: { kind: 'day', required: true, says: 'Last day' },
      note: { kind: 'text', says: 'Remark' },
    },
  },
  water_levels: {
    title: 'Water levels',
    says: 'A reading of the water in a screen.',
    key: ['screen', 'event', 'time'],
    fields: {
      screen: { kind: 'text', required: true, refers: 'screens', says: 'The screen read' },
      event: { kind: 'text', required: true, refers: 'events', says: 'The round it belongs to' },
      measuring_point: {
        kind: 'text',
        refers: 'measuring_points',
        says: 'The mark it was read from',
      },
      time: { kind: 'time', says: 'When it was read' },
      depth_to_water: {
        kind: 'length',
        says: 'Below the measuring point, positive down; blank if dry',
      },
      depth_to_product: {
        kind: 'length',
        says: 'Below the measuring point, to the top of floating product',
      },
      product_density: {
        kind: 'number',
        least: 0,
        says: 'Density of the product relative to water, if measured',
      },
      status: {
        kind: 'choice',
        choices: ['static', 'recovering', 'dry', 'obstructed', 'pumping', 'flowing'],
        required: true,
        says: 'State of the water when it was read',
      },
      use: { kind: 'yes-no', says: 'No: leave it out of planes. Yes: use it, with the reason' },
      why: { kind: 'text', says: 'Why it is used or left out' },
      read_by: { kind: 'text', says: 'Who read it' },
      note: { kind: 'text', says: 'Remark' },
    },
  },
  purge_readings: {
    title: 'Purge readings',
    says: 'A set of field parameters while purging.',
    key: ['screen', 'event', 'time'],
    fields: {
      screen: { kind: 'text', required: true, refers: 'screens', says: 'The screen purged' },
      event: { kind: 'text', required: true, refers: 'events', says: 'The round' },
      time: { kind: 'time', required: true, says: 'When it was read' },
      ph: { kind: 'number', says: 'pH', unit: 'pH' },
      conductance: { kind: 'number', least: 0, says: 'Specific conductance', unit: 'µS/cm' },
      dissolved_oxygen: { kind: 'number', least: 0, says: 'Dissolved oxygen', unit: 'mg/L' },
      orp: { kind: 'number', says: 'Oxidation-reduction potential', unit: 'mV' },
      temperature: { kind: 'number', says: 'Temperature', unit: '°C' },
      turbidity: { kind: 'number', least: 0, says: 'Turbidity', unit: 'NTU' },
      depth_to_water: { kind: 'length', says: 'Below the measuring point' },
      rate: { kind: 'number', least: 0, says: 'Pumping rate', unit: 'mL/min' },
      note: { kind: 'text', says: 'Remark' },
    },
  },
  decisions: {
    title: 'Decisions',
    says: 'Something a person decided, and why.',
    key: [],
    fields: {
      what: {
        kind: 'choice',
        choices: [
          'include',
          'exclude',
          'accept finding',
          'use level set',
          'accept interval',
          'clear point',
          'comment',
        ],
        required: true,
        says: 'What was decided',
      },
      on: {
        kind: 'text',
        required: true,
        says: 'On what: a screen and event, a finding, a level set',
      },
      reason: { kind: 'text', required: true, says: 'Why' },
      who: { kind: 'text', says: 'Initials' },
      when: { kind: 'time', says: 'When' },
    },
  },
  views: {
    title: 'Views',
    says: 'A saved view: stops of the walk and sheets are views.',
    key: ['id'],
    fields: {
      id: { kind: 'text', required: true, says: 'Name of the view' },
      order: { kind: 'order', says: 'Place in the walk; blank if it is not a stop' },
      title: { kind: 'text', says: 'Heading' },
      words: { kind: 'text', says: 'The sentence or two shown' },
      notes: { kind: 'text', says: 'For the speaker alone' },
      shown: { kind: 'text', required: true, says: 'What is shown, as JSON' },
      hidden: { kind: 'yes-no', says: 'Yes: left out of the walk' },
    },
  },
} as const satisfies Record<string, TableSchema>;
