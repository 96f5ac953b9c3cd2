import type { Measured } from '../../../dialogues/event.ts';

/** How a reading is named, in both languages; an earlier entry wins over a later one at the same place. */
export const MENTIONS: readonly (readonly [Measured, readonly string[]])[] = [
  [
    'cleaner-suction',
    [
      'suction|vacuum|succion|vacio ~2 hose|manguera|cleaner|limpiafondos|barredora|tester|probador',
      'cleaner|hose|limpiafondos|barredora ~1 suction|vacuum|gauge|tester|succion|vacuometro',
      'tester|probador ~2 hose|manguera|cleaner|limpiafondos',
      'medidor de succion|vacio',
      'suction tester|gauge',
      'tester|probador|testeador',
      'on|at|en the|la hose|manguera',
      'on|at|en the|el cleaner|limpiafondos',
    ],
  ],
  [
    'filter-pressure',
    [
      'filter|filtro ~2 pressure|presion|gauge|manometro',
      'pressure|presion|manometro ~3 filter|filtro',
      'pressure|presion gauge',
      'discharge pressure|gauge?',
    ],
  ],
  [
    'pump-vacuum',
    [
      'pump|bomba ~1 vacuum|suction|vacio|vac',
      'vacuum|vacio|suction|succion|vac ~3 pump|bomba',
      'vacuum|vac gauge',
      'manometro de vacio',
      'vacuum|vacio|vacuometro|vac|vaccum|vacum|vacumm',
      'suction|succion',
    ],
  ],
  ['filter-pressure', ['filter|filtro', 'pressure|presion', 'manometro']],
  ['wheel-turns', ['wheel|wheels|rueda|ruedas']],
  ['flow', ['flow ~1 meter|rate', 'flow|flowmeter|caudal|flujo|caudalimetro']],
  ['pump-vacuum', ['on|at|in|by the|my? pump', 'en la bomba']],
];

/** Words that may stand between a reading's name and its number. */
export const LINKS: ReadonlySet<string> = new Set(
  `is was were are at s reads read reading says say shows show showing sits sitting stands gauge the a an on in of about around like my
   to now today only just almost currently roughly approximately maybe it has got gives gave went goes turn turns turning spin has
   pressure needle be been its up down from between used this that psi bar kpa inhg inches pounds lbs reading still
   esta estaba marca marcaba dice es era el la los las de del manometro reloj aguja en como casi unos unas mas o menos hay tiene tenia
   da lee lectura anda por entre ahora hoy antes su mi con libras pulgadas pies feet subio bajo a gira giran dan dio salio`.split(
    /\s+/u,
  ),
);

export const CORRECTIONS: readonly string[] = [
  'sorry|correction|oops|whoops|wait|actually|rather|nope',
  'i mean|meant',
  'scratch that',
  'make that|it',
  'no ~0',
  'perdon|digo|corrijo|espera|corrigo|perdona',
  'quise|quiero decir',
  'mejor dicho',
  'o sea',
  'me equivoque',
];

export const BEFORE: readonly string[] = [
  'was|were|before|earlier|yesterday|previously|normally|usually|originally|initially|typically',
  'used to',
  'last week|month|year|time|visit|summer|night',
  'when|while ~2 clean|new|cleaned',
  'clean|limpia|limpio',
  'week|weeks|month|months|days|year ago',
  'antes|ayer|normalmente|usualmente|generalmente|era|estaba|tenia|solia|marcaba|anteayer|habitualmente',
  'semana|mes|ano|vez|visita pasada|pasado|anterior',
];

/** Of the above, those that tell of an earlier value even where no present one is given. */
export const SURELY_BEFORE: readonly string[] = [
  'used to',
  'normally|usually|yesterday|previously|originally|typically',
  'last week|month|year|time|visit|summer',
  'week|weeks|month|months|days|year ago',
  'antes|ayer|normalmente|usualmente|solia|generalmente',
  'semana|mes|ano|vez pasada|pasado',
];

export const PRESENT: readonly string[] = [
  'now|today|currently|tonight|nowadays|presently',
  'ahora|hoy|ahorita|actualmente|ya',
];

/** Before "from 13 to 24": a change that has happened, and no moving needle. */
export const CHANGES: readonly string[] = [
  'went|gone|climbed|risen|rose|raised|increased|dropped|fell|fallen|decreased|jumped|came|crept|shot|changed',
  'subio|bajo|paso|cayo|aumento|subido|bajado|pasado|salto|disminuyo|cambio',
];

export const UNSTEADY: readonly string[] = [
  'shak*|bounc*|fluctuat*|quiver*|vibrat*|wobbl*|flutter*|swing*|jitter*|flicker*|trembl*',
  'shaking|bouncing|fluctuating|vibrating|unsteady|wobbling|jumping|swinging|pulsing|dancing|moving|twitching|unstable',
  'jumps|dances|moves|pulses|varies|wanders',
  'up and down',
  'all over',
  'not ~1 hold|stay|sit|stand|keep ~1 still|steady|put',
  'not steady|stable',
  'tiembla*|temblando|oscila*|oscilando|vibra*|vibrando|brinca*|brincando|baila*|bailando|inestable|fluctua*|tambalea*|varia*',
  'salta|saltando',
  'se mueve|mueva|moviendo|menea|sacude',
  'sube y baja',
  'no ~1 queda|esta quieta|fija|estable|firme',
];
