import type { Asked, Locale } from '../../src/dialogues/event.ts';
import { QUANTITIES, type Quantity } from '../../src/knowledge/ids.ts';

/** Questions as a conversation might put them: option id, English label, Spanish label. */
const QUESTIONS: Record<string, readonly (readonly [string, string, string])[]> = {
  'pump-running': [
    ['running', 'It is running', 'Está funcionando'],
    ['silent', 'No sound at all', 'No suena nada'],
    ['hums', 'It only hums', 'Solo zumba'],
    ['trips', 'It starts and trips the breaker', 'Arranca y bota el breaker'],
  ],
  'water-level': [
    ['normal', 'Middle of the skimmer mouth', 'A la mitad del desnatador'],
    ['low', 'Lower than that', 'Más bajo'],
  ],
  'skimmer-look': [
    ['normal', 'All looks right', 'Todo se ve bien'],
    ['basket-full', 'The basket is full', 'La canasta está llena'],
    ['weir-stuck', 'The door is stuck', 'La compuerta está trabada'],
    ['plate-loose', 'The plate is loose', 'El plato está suelto'],
  ],
  'pump-lid-look': [
    ['full', 'Full of water', 'Llena de agua'],
    ['bubbles', 'Bubbles under the lid', 'Burbujas bajo la tapa'],
    ['half-empty', 'Half empty', 'Medio vacía'],
    ['empty', 'Empty', 'Vacía'],
    ['cannot-see', 'I cannot see through the lid', 'No se ve por la tapa'],
  ],
  'return-flow': [
    ['strong', 'Strong', 'Fuerte'],
    ['weak', 'Weak', 'Débil'],
    ['bubbles', 'With bubbles', 'Con burbujas'],
    ['debris', 'Dirt comes out', 'Sale suciedad'],
    ['none', 'Nothing comes out', 'No sale nada'],
  ],
  'filter-pressure': [['no-gauge', 'There is no gauge', 'No hay manómetro']],
  'pump-vacuum': [['no-gauge', 'There is no gauge', 'No hay vacuómetro']],
  'cleaner-suction': [['no-tester', 'I have no tester', 'No tengo probador']],
  'wheel-turns': [['no-wheels', 'It has no wheels', 'No tiene ruedas']],
  'gauge-returns-zero': [
    ['yes', 'Yes, to zero', 'Sí, a cero'],
    ['stuck', 'No, it stays', 'No, se queda'],
  ],
  'filter-last-cleaned': [
    ['recent', 'A short time ago', 'Hace poco'],
    ['overdue', 'Long ago', 'Hace mucho'],
    ['unknown', 'Nobody knows', 'Nadie sabe'],
  ],
  'movement-pattern': [
    ['still', 'It does not move', 'No se mueve'],
    ['slow', 'It is slow', 'Va lento'],
    ['circles', 'It goes in circles', 'Da vueltas en círculo'],
    ['one-area', 'It stays in one area', 'Se queda en una zona'],
    ['floats', 'It floats', 'Flota'],
    ['normal', 'It moves normally', 'Se mueve normal'],
  ],
  'cleaner-throat': [
    ['clear', 'Clear', 'Libre'],
    ['blocked', 'Blocked', 'Obstruida'],
  ],
  'hose-lift-listen': [
    ['silent', 'Quiet', 'Silencio'],
    ['hiss', 'It hisses', 'Silba'],
  ],
  'hose-off-test': [
    ['no-change', 'No change', 'Sin cambio'],
    ['recovers', 'The flow comes back', 'Se recupera'],
    ['still-poor', 'Still poor', 'Sigue mal'],
  ],
  'strainer-basket': [
    ['clear', 'Clear', 'Limpia'],
    ['full', 'Full', 'Llena'],
    ['cracked', 'Cracked', 'Rajada'],
  ],
  'plugs-and-unions': [
    ['dry', 'Dry', 'Seco'],
    ['drips', 'It drips', 'Gotea'],
    ['sucks-air', 'It sucks air', 'Chupa aire'],
  ],
  'valve-handles': [
    ['normal', 'Where they always are', 'Donde siempre'],
    ['moved', 'One was moved', 'Se movió una'],
    ['others-open', 'Another line is open', 'Otra línea está abierta'],
  ],
  'robot-lights': [
    ['on', 'On', 'Encendidas'],
    ['off', 'Off', 'Apagadas'],
    ['blinking', 'Blinking', 'Parpadean'],
  ],
  'cable-look': [
    ['straight', 'Straight', 'Recto'],
    ['twisted', 'Twisted', 'Enredado'],
    ['damaged', 'Damaged', 'Dañado'],
  ],
  repair: [
    ['worked', 'Yes, that fixed it', 'Sí, se arregló'],
    ['not-yet', 'Done, but still wrong', 'Lo hice, pero sigue mal'],
    ['cannot', 'I cannot do this', 'No puedo hacerlo'],
  ],
  caution: [['understood', 'I have done that', 'Ya lo hice']],
  canister: [
    ['yes', 'Yes', 'Sí'],
    ['no', 'No', 'No'],
  ],
  'filter-kind': [
    ['sand', 'Sand', 'Arena'],
    ['cartridge', 'Cartridge', 'Cartucho'],
    ['de', 'Diatomaceous earth', 'Tierra de diatomeas'],
  ],
  'cleaner-kind': [
    ['suction', 'Suction cleaner', 'De succión'],
    ['pressure-booster', 'Pressure cleaner with a booster pump', 'De presión con bomba propia'],
    ['pressure-return', 'Pressure cleaner on the return', 'De presión en el retorno'],
    ['robotic', 'Robot', 'Robot'],
    ['none', 'No cleaner', 'Ninguno'],
  ],
  complaint: [],
};

const EVERYWHERE = [
  ['unsure', 'I do not know', 'No lo sé'],
  ['skip', 'Skip', 'Saltar'],
] as const;

const isQuantity = (id: string): id is Quantity => (QUANTITIES as readonly string[]).includes(id);

/** The question of that id as it stands on the screen in that language; none for "-". */
export function askedFor(id: string, locale: Locale): Asked | undefined {
  if (id === '-') return undefined;
  const question = QUESTIONS[id];
  if (question === undefined) throw new Error(`No question ${id}`);
  const options = [...question, ...EVERYWHERE].map(([option, en, es]) => ({
    id: option,
    label: locale === 'en' ? en : es,
  }));
  return isQuantity(id) ? { id, reading: id, options } : { id, options };
}
