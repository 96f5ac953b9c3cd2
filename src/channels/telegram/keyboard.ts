/** Choices as buttons beneath a message. */
import type { InlineKeyboardButton, InlineKeyboardMarkup } from 'grammy/types';
import type { MessageOption } from '../../dialogues/message.ts';
import { callbackData } from './callback.ts';
import type { Outgoing } from './ports.ts';

/** Labels up to this length stand two a row: a phone held upright shows about this much of each. */
const SHORT_LABEL = 18;
/** Longer labels are cut; a phone shows no more of them even alone in a row. */
const LONGEST_LABEL = 48;

function labelOf(label: string): string {
  return label.length > LONGEST_LABEL ? `${label.slice(0, LONGEST_LABEL - 1).trimEnd()}…` : label;
}

/** Buttons in rows: two short ones side by side, a long one alone. */
function rowsOf(buttons: readonly InlineKeyboardButton[]): InlineKeyboardButton[][] {
  const rows: InlineKeyboardButton[][] = [];
  let half: InlineKeyboardButton | undefined;
  for (const button of buttons) {
    const isShort = button.text.length <= SHORT_LABEL;
    if (half !== undefined && isShort) {
      rows.push([half, button]);
      half = undefined;
      continue;
    }
    if (half !== undefined) rows.push([half]);
    half = isShort ? button : undefined;
    if (!isShort) rows.push([button]);
  }
  return half === undefined ? rows : [...rows, [half]];
}

/**
 * The keyboard of a message; undefined where it offers no choice.
 * @param more label of the button that shows the rarer choices; undefined to show them all.
 */
export function keyboardOf(
  { id, version, message }: Pick<Outgoing, 'id' | 'version' | 'message'>,
  more: string | undefined,
): InlineKeyboardMarkup | undefined {
  const options: readonly MessageOption[] = message.options ?? [];
  const button = (text: string, choice: number | 'more'): InlineKeyboardButton => ({
    text,
    callback_data: callbackData({ version, message: id, choice }),
  });
  const shown = options.flatMap(({ label, folded }, index) =>
    folded === true && more !== undefined ? [] : [button(labelOf(label), index)],
  );
  if (shown.length === 0) return undefined;
  const rows = rowsOf(shown);
  const isFolded = more !== undefined && shown.length < options.length;
  return { inline_keyboard: isFolded ? [...rows, [button(more, 'more')]] : rows };
}
