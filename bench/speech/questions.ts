/** The questions of the bench as they stand on the screen. */
import type { Asked } from '../../src/dialogues/event.ts';
import { CHECK_IDS, isQuantity, type CheckId } from '../../src/knowledge/ids.ts';
import { checkById } from '../../src/knowledge/trade.ts';
import { translate } from '../../src/language/texts.ts';

const option = (id: string, key: string): Asked['options'][number] => ({ id, label: translate('en', key) });

const EVERYWHERE = [option('unsure', 'dialogue:option.unsure'), option('skip', 'dialogue:option.skip')];

const OTHERS: Record<string, Asked['options']> = {
  repair: ['worked', 'not-yet', 'cannot'].map((id) => option(id, `dialogue:repair.${id}`)),
  caution: [option('understood', 'dialogue:option.understood')],
  // A filter pressure was heard and is being read back.
  'read-back': ['yes', 'no'].map((id) => option(id, `dialogue:option.${id}`)),
  canister: ['yes', 'no'].map((id) => option(id, `dialogue:option.${id}`)),
};

const isCheck = (id: string): id is CheckId => (CHECK_IDS as readonly string[]).includes(id);

/** The question of that id; throws for an id that is none. */
export function questionFor(id: string): Asked {
  const options = OTHERS[id];
  if (options !== undefined)
    return { id, options, ...(id === 'read-back' ? { reading: 'filter-pressure' } : {}) };
  if (!isCheck(id)) throw new Error(`No question ${id}`);
  const { outcomes, silent } = checkById(id);
  const own = [...outcomes, ...silent].map((outcome) => option(outcome, `checks:${id}.outcomes.${outcome}`));
  return { id, options: [...own, ...EVERYWHERE], ...(isQuantity(id) ? { reading: id } : {}) };
}
