/** The calculators as data. Ranges keep slips of a digit out; they are wider than any pool. Common practice, no source. */
import type { AmountField, Calculator, CalculatorId } from './fields.ts';
import type { Unit } from './units.ts';

const LENGTHS: readonly Unit[] = ['ft', 'm', 'cm', 'in'];
const RUNS: readonly Unit[] = ['ft', 'm'];
const BORES: readonly Unit[] = ['in', 'mm'];
const FLOWS: readonly Unit[] = ['gpm', 'm3/h', 'l/min'];
const VOLUMES: readonly Unit[] = ['gal', 'L', 'm3'];

const POOL_VOLUME: AmountField = {
  id: 'volume',
  units: VOLUMES,
  range: [100, 2_000_000],
  example: '15000 gal',
};
const FLOW: AmountField = { id: 'flow', units: FLOWS, range: [1, 1000], example: '45 gpm' };
const PIPE: AmountField = {
  id: 'size',
  units: BORES,
  range: [0.5, 12],
  example: '1.5 in',
  usual: ['1.5 in', '2 in', '2.5 in', '3 in', '50 mm', '63 mm'],
};
const SHAPES_WITH_WIDTH = ['rectangle', 'oval'];
const SHAPES_WITH_LENGTH = [...SHAPES_WITH_WIDTH, 'kidney'];

function poolSize(id: string, example: string, shapes: readonly string[]): AmountField {
  return { id, units: LENGTHS, range: [3, 400], example, when: { field: 'shape', is: shapes } };
}

const DEPTH = { units: LENGTHS, range: [0.5, 30] } as const;

export const TABLE: Readonly<Record<CalculatorId, Calculator>> = {
  flow: {
    cautions: [],
    fields: [
      {
        id: 'from',
        choices: {
          velocity: ['velocity', 'velocidad', 'pipe', 'tubo', 'tuberia'],
          gauges: ['gauges', 'gauge', 'pressure', 'manometros', 'manometro', 'presion'],
        },
      },
      { ...PIPE, when: { field: 'from', is: ['velocity'] } },
      {
        id: 'velocity',
        units: ['ft/s', 'm/s'],
        range: [0.3, 30],
        example: '6 ft/s',
        when: { field: 'from', is: ['velocity'] },
      },
      {
        id: 'pressure',
        units: ['psi', 'bar', 'kPa'],
        range: [0, 60],
        example: '18 psi',
        when: { field: 'from', is: ['gauges'] },
      },
      {
        id: 'vacuum',
        units: ['inHg', 'kPa'],
        range: [0, 29],
        example: '8 inHg',
        when: { field: 'from', is: ['gauges'] },
      },
      {
        id: 'power',
        units: ['hp', 'kW', 'W'],
        range: [0.4, 3.1],
        example: '1.5 hp',
        when: { field: 'from', is: ['gauges'] },
      },
    ],
  },
  volume: {
    cautions: [],
    fields: [
      {
        id: 'shape',
        choices: {
          rectangle: ['rectangle', 'rectangular', 'rectangulo', 'square', 'cuadrada'],
          circle: ['circle', 'circular', 'round', 'circulo', 'redonda', 'redondo'],
          oval: ['oval', 'ovalada', 'ovalado', 'ellipse', 'elipse'],
          kidney: ['kidney', 'rinon', 'arrinonada'],
        },
      },
      poolSize('length', '32 ft', SHAPES_WITH_LENGTH),
      poolSize('width', '16 ft', SHAPES_WITH_WIDTH),
      poolSize('widest', '18 ft', ['kidney']),
      poolSize('narrowest', '14 ft', ['kidney']),
      poolSize('diameter', '24 ft', ['circle']),
      { id: 'shallow', ...DEPTH, example: '3.5 ft' },
      { id: 'deep', ...DEPTH, example: '8 ft', optional: true },
    ],
  },
  turnover: {
    cautions: [],
    fields: [
      POOL_VOLUME,
      { ...FLOW, optional: true },
      { id: 'hours', units: ['h'], range: [0.5, 48], example: '8 h', optional: true },
    ],
    oneOf: ['flow', 'hours'],
  },
  headloss: {
    cautions: [],
    fields: [
      PIPE,
      { id: 'length', units: RUNS, range: [0.5, 3000], example: '60 ft' },
      FLOW,
      { id: 'fittings', units: ['count'], range: [0, 100], example: '4', optional: true },
    ],
  },
  speed: {
    cautions: [],
    fields: [
      { id: 'from', units: ['rpm'], range: [300, 4500], example: '3450 rpm', optional: true },
      {
        id: 'to',
        units: ['rpm', '%'],
        without: { field: 'from', units: ['%'] },
        range: [300, 4500],
        ranges: { '%': [5, 150] },
        example: '60 %',
      },
      { ...FLOW, optional: true },
      { id: 'head', units: RUNS, range: [1, 200], example: '50 ft', optional: true },
      { id: 'power', units: ['kW', 'W', 'hp'], range: [0.05, 8], example: '1.5 kW', optional: true },
      { id: 'hours', units: ['h'], range: [0.1, 24], example: '8 h', optional: true, after: ['power'] },
      {
        id: 'price',
        units: ['price'],
        range: [0.001, 100_000],
        example: '0.15',
        optional: true,
        after: ['hours'],
      },
    ],
  },
  de: {
    cautions: ['de-dust'],
    fields: [{ id: 'area', units: ['ft2', 'm2'], range: [5, 500], example: '48 ft2' }],
  },
  backwash: {
    cautions: ['backwash-drain'],
    fields: [{ id: 'minutes', units: ['min', 's'], range: [0.2, 60], example: '3 min' }, FLOW],
  },
  soak: {
    cautions: ['acid-soak', 'never-mix'],
    fields: [
      { id: 'bath', units: ['L', 'gal'], range: [1, 2000], example: '60 L' },
      { id: 'ratio', units: ['parts'], range: [10, 100], example: '1:20', optional: true, usual: ['1:20'] },
    ],
  },
};
