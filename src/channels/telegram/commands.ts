/** The menu of commands, for each language, in private and in groups. */
import type { Api } from 'grammy';
import type { BotCommand } from 'grammy/types';
import type { CommandId, Locale } from '../../dialogues/event.ts';
import { LOCALES } from '../../dialogues/event.ts';
import type { Word } from './ports.ts';

const IN_PRIVATE: readonly CommandId[] = [
  'new',
  'why',
  'back',
  'stop',
  'pool',
  'pools',
  'readings',
  'history',
  'estimates',
  'flow',
  'volume',
  'turnover',
  'headloss',
  'speed',
  'help',
  'voice',
  'language',
  'privacy',
  'erase',
];
const IN_GROUPS: readonly CommandId[] = ['new', 'why', 'back', 'stop', 'help'];

const SCOPES = [
  { type: 'all_private_chats', commands: IN_PRIVATE },
  { type: 'all_group_chats', commands: IN_GROUPS },
] as const;

/** The language a person gets whose own is not spoken here. */
const DEFAULT: Locale = 'en';

function menu(commands: readonly CommandId[], locale: Locale, word: Word): BotCommand[] {
  return commands.map((command) => ({ command, description: word(locale, `commands.${command}`) }));
}

/** The calls that register the menus. */
export function commandCalls(api: Api, word: Word): (() => Promise<unknown>)[] {
  return SCOPES.flatMap(({ type, commands }) =>
    LOCALES.map((locale) => {
      const language = locale === DEFAULT ? {} : { language_code: locale };
      return () => api.setMyCommands(menu(commands, locale, word), { scope: { type }, ...language });
    }),
  );
}
