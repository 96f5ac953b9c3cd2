import type { ReadingUnit } from '../../../dialogues/event.ts';

/** A way of saying a unit. `perSaid`: how many of `unit` one of the said unit is. No unit: something else is counted. */
export interface UnitWords {
  says: readonly string[];
  unit?: ReadingUnit;
  perSaid?: number;
  /** Also an everyday length: it means a reading only where a reading is spoken of. */
  isLength?: boolean;
}

/** Factors to the next unit that readings have: NIST SP 811 (2008), appendix B. */
export const UNIT_WORDS: readonly UnitWords[] = [
  {
    unit: 'psi',
    says: [
      'pounds per square inch',
      'pounds per sq inch',
      'pound per square inch',
      'lbs per square inch',
      'pounds of pressure',
      'lbs of pressure',
      'p s i',
      'psi',
      'psis',
      'psig',
      'pis',
      'pounds',
      'pound',
      'lbs',
      'lb',
      'libras por pulgada cuadrada',
      'libras por pulgada',
      'libras de presion',
      'libras',
      'libra',
    ],
  },
  { unit: 'bar', says: ['bar', 'bars', 'bares', 'barr', 'baras'] },
  {
    unit: 'kPa',
    says: [
      'kpa',
      'kpas',
      'k p a',
      'kilopascals',
      'kilopascal',
      'kilo pascals',
      'kilopascales',
      'kilo pascales',
    ],
  },
  { unit: 'kPa', perSaid: 0.1, says: ['mbar', 'millibar', 'millibars', 'hpa', 'milibares', 'milibar'] },
  { unit: 'kPa', perSaid: 1000, says: ['mpa', 'megapascals', 'megapascales'] },
  {
    unit: 'bar',
    perSaid: 0.980665,
    says: [
      'kilos por centimetro cuadrado',
      'kg/cm2',
      'kg/cm',
      'kgf',
      'kg cm2',
      'kilos de presion',
      'kilos',
      'kilo',
      'kg',
    ],
  },
  {
    unit: 'inHg',
    says: [
      'inches of mercury',
      'inch of mercury',
      'inches mercury',
      'inches of hg',
      'inches hg',
      'inches of vacuum',
      'inches of vac',
      'in of mercury',
      'in of hg',
      'in hg',
      'inhg',
      'pulgadas de mercurio',
      'pulgadas de hg',
      'pulgadas de vacio',
      'pulgadas hg',
      'pulg hg',
    ],
  },
  { unit: 'inHg', isLength: true, says: ['inches', 'inch', 'inchs', 'pulgadas', 'pulgada', 'pulg'] },
  {
    unit: 'inHg',
    perSaid: 1 / 25.4,
    says: ['mmhg', 'mm hg', 'millimeters of mercury', 'milimetros de mercurio'],
  },
  { unit: 'inHg', perSaid: 1 / 2.54, says: ['cmhg', 'cm hg', 'centimetros de mercurio'] },
  {
    unit: 'ft',
    says: ['feet of head', 'feet of water', 'ft of head', 'ft of water', 'pies de agua', 'pies de columna'],
  },
  {
    unit: 'm',
    says: [
      'meters of water',
      'metres of water',
      'meters of head',
      'metres of head',
      'mca',
      'metros de agua',
      'metros de columna de agua',
    ],
  },
  {
    says: [
      'feet of hose',
      'ft of hose',
      'feet deep',
      'feet long',
      'feet down',
      'pies de manguera',
      'pies de hondo',
      'metros de manguera',
      'meters of hose',
      'inches of water',
    ],
  },
  { unit: 'ft', isLength: true, says: ['feet', 'foot', 'ft', 'pies', 'pie'] },
  { unit: 'm', isLength: true, says: ['meters', 'metres', 'meter', 'metre', 'metros', 'metro', 'm'] },
  {
    unit: 'turns/min',
    says: [
      'turns per minute',
      'turns a minute',
      'turns in a minute',
      'revolutions per minute',
      'revolutions a minute',
      'rotations per minute',
      'rotations a minute',
      'times per minute',
      'times a minute',
      'times in a minute',
      'spins a minute',
      'vueltas por minuto',
      'vueltas al minuto',
      'vueltas en un minuto',
      'giros por minuto',
      'revoluciones por minuto',
      'veces por minuto',
      'veces al minuto',
      'rpm',
      'rpms',
      'turns',
      'revolutions',
      'revs',
      'rotations',
      'spins',
      'vueltas',
      'revoluciones',
      'giros',
    ],
  },
  {
    says: `minutes minute min mins hours hour hrs hr h days day weeks week months month years year yr yrs seconds second secs sec
      gallons gallon gal gals gpm liters litres liter litre l hp horsepower volts volt v amps amp watts kw degrees f c percent %
      ppm dollars bucks times sections people kids am pm oclock cm mm yards yard others things ones % x gallones
      minutos minuto horas hora dias dia semanas semana meses mes anos ano segundos segundo galones litros litro caballos voltios
      grados veces vez tramos dolares pesos euros centimetros milimetros personas ninos hijos cosas bolsas bags tablets pastillas
      leaves hojas baskets pumps cleaners robots pools filters bombas piscinas filtros gauges manometros lights luces wheels ruedas`.split(
      /\s+/u,
    ),
  },
  {
    says: [
      'pounds of salt',
      'pounds of shock',
      'pounds of chlorine',
      'lbs of shock',
      'lbs of salt',
      'lbs of chlorine',
      'kilos de cloro',
      'kilos de sal',
      'libras de cloro',
      'libras de sal',
    ],
  },
];
