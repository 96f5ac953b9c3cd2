import type { CommandId } from '../../../dialogues/event.ts';

/** Spanish names of the slash commands, folded. The English ones are the ids themselves. */
export const SPANISH_SLASHES: Readonly<Record<string, CommandId>> = {
  inicio: 'start',
  iniciar: 'start',
  empezar: 'start',
  ayuda: 'help',
  porque: 'why',
  por_que: 'why',
  atras: 'back',
  volver: 'back',
  saltar: 'skip',
  omitir: 'skip',
  nose: 'unsure',
  no_se: 'unsure',
  repetir: 'repeat',
  repite: 'repeat',
  parar: 'stop',
  detener: 'stop',
  salir: 'stop',
  nuevo: 'new',
  nueva: 'new',
  piscina: 'pool',
  alberca: 'pool',
  pileta: 'pool',
  piscinas: 'pools',
  albercas: 'pools',
  piletas: 'pools',
  lecturas: 'readings',
  historial: 'history',
  historia: 'history',
  idioma: 'language',
  privacidad: 'privacy',
  borrar: 'erase',
};

/** Names of the languages, folded, in both. */
export const LANGUAGE_NAMES: Readonly<Record<string, string>> = {
  en: 'en',
  english: 'en',
  ingles: 'en',
  es: 'es',
  spanish: 'es',
  espanol: 'es',
  castellano: 'es',
};
