import type { Asked } from '../../dialogues/event.ts';
import { findAll, patternOf } from './pattern.ts';

const ORDINALS: readonly string[] = [
  '1|one|first|uno|una|primera|primero|primer|1st',
  '2|two|second|dos|segunda|segundo|2nd',
  '3|three|third|tres|tercera|tercero|3rd',
  '4|four|fourth|cuatro|cuarta|cuarto|4th',
  '5|five|fifth|cinco|quinta|quinto|5th',
  '6|six|sixth|seis|sexta|sexto|6th',
  '7|seven|seventh|siete|septima|septimo',
  '8|eight|eighth|ocho|octava|octavo',
  '9|nine|ninth|nueve|novena|noveno',
];

const PLACES = ORDINALS.map((words) =>
  patternOf(
    `^ the|la|el? number|option|answer|choice|opcion|numero|respuesta|no? ${words} one|option|opcion|answer|choice? $`,
    {},
  ),
);

/** The option that a message names by its place: "2", "the second one", "opción dos". Undefined for other messages. */
export function optionByPlace(words: readonly string[], options: Asked['options']): string | undefined {
  const place = PLACES.findIndex((pattern) => findAll(pattern, words).length > 0);
  return place < 0 ? undefined : options[place]?.id;
}
