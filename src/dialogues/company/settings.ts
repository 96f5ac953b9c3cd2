/** What an administrator sets for the company. */
import { permit } from '../access.ts';
import type { Context, Flow, Move } from '../conversation.ts';
import type { Understood } from '../event.ts';
import type { Option, Say } from '../say.ts';
import { info, question, text } from '../say.ts';
import { zoneNamed } from '../zone.ts';
import type { CompanySetting } from './changes.ts';
import type { Company } from './company.ts';
import { DONE } from './words.ts';

type SettingsFlow = Extract<Flow, { at: 'company-settings' }>;
type SettingFlow = Extract<Flow, { at: 'company-setting' }>;
type Key = CompanySetting['key'];

const LONGEST = { name: 60, phone: 30, hours: 80 } as const;
/** Whole numbers that are taken. */
const RANGES = {
  'hand-off-minutes': [15, 600],
  'accept-within-minutes': [5, 2880],
  'retention-months': [1, 60],
} as const;

const SHOWN: Record<Key, (company: Company) => string | number> = {
  name: ({ name }) => name,
  phone: ({ phone }) => phone,
  hours: ({ hours }) => hours,
  'time-zone': ({ timeZone }) => timeZone,
  'hand-off-minutes': ({ handOffMinutes }) => handOffMinutes,
  'accept-within-minutes': ({ acceptWithinMinutes }) => acceptWithinMinutes,
  'retention-months': ({ retentionMonths }) => retentionMonths,
};
const KEYS = Object.keys(SHOWN) as Key[];

/** What is set, to choose from. */
export function askSettings(flow: SettingsFlow, { facts }: Context): Say[] {
  const given = permit({ flow: 'company-settings' }, flow.company, facts);
  if (given === undefined) return [];
  const options = KEYS.map((key): Option => {
    const shown = SHOWN[key](given.company);
    const value = shown === '' ? text('dialogue:pool.not-known') : String(shown);
    return {
      id: key,
      label: text('dialogue:pool.item', { name: text(`company:setting.${key}.name`), value }),
    };
  });
  const { name: company, staffChat } = given.company;
  const briefs = text(
    staffChat === undefined ? 'company:settings.no-staff-chat' : 'company:settings.staff-chat',
  );
  return [
    {
      ...question('company-settings', text('company:settings.ask', { company }), [...options, DONE]),
      text: [text('company:settings.ask', { company }), briefs],
    },
  ];
}

/** Goes on to the setting chosen. */
export function answerSettings(flow: SettingsFlow, event: Understood): Move | undefined {
  if (event.kind !== 'answer') return undefined;
  if (event.option === 'done') return { flow: flow.then };
  const key = KEYS.find((known) => known === event.option);
  return key && { flow: { at: 'company-setting', company: flow.company, key, then: flow } };
}

/** What to set it to. */
export function askSetting({ key }: SettingFlow): Say[] {
  return [{ ...question(key, text(`company:setting.${key}.ask`), []), expects: 'name' }];
}

/** What was typed as a setting; undefined where it cannot be one. */
function settingOf(key: Key, said: string): CompanySetting | undefined {
  switch (key) {
    case 'name':
    case 'phone':
    case 'hours': {
      const value = said.trim().slice(0, LONGEST[key]);
      return value === '' ? undefined : { key, value };
    }
    case 'time-zone': {
      const value = zoneNamed(said);
      return value === undefined ? undefined : { key, value };
    }
    case 'hand-off-minutes':
    case 'accept-within-minutes':
    case 'retention-months': {
      const [from, to] = RANGES[key];
      const value = Number(/^\s*(\d{1,5})\b/.exec(said)?.[1] ?? Number.NaN);
      return value >= from && value <= to ? { key, value } : undefined;
    }
  }
}

/** Sets what was typed, or says what it has to be. */
export function answerSetting(flow: SettingFlow, event: Understood): Move | undefined {
  if (event.kind !== 'unclear') return undefined;
  const setting = settingOf(flow.key, event.text);
  if (setting === undefined)
    return { flow, says: [info('setting-unclear', text('company:setting.unclear'))] };
  return { flow: flow.then, changes: [{ do: 'set-company', company: flow.company, setting }] };
}
