/** How a message looks: a caution is framed by words, shape and place, so that no colour or symbol is needed to see it. */
import type { InlineKeyboardMarkup } from 'grammy/types';
import { escaped, LONGEST_TEXT, split } from './html.ts';
import { keyboardOf } from './keyboard.ts';
import type { Outgoing, Word } from './ports.ts';

/** One message as the platform takes it. */
export interface Page {
  html: string;
  keyboard?: InlineKeyboardMarkup;
}

/** Room left beneath the limit for headings and for the answer that is added later. */
const TEXT_ROOM = LONGEST_TEXT - 400;

/** The line above a text: where in the case this is and how long it takes. */
function progress({ message, locale }: Outgoing, word: Word): string[] {
  const { step, minutesLeft: minutes } = message;
  const parts = [
    ...(step === undefined ? [] : [word(locale, 'step', { step })]),
    ...(minutes === undefined ? [] : [word(locale, 'minutes', { minutes })]),
  ];
  return parts.length === 0 ? [] : [`<i>${escaped(parts.join(' · '))}</i>`];
}

function heading({ message, locale }: Outgoing, word: Word): string[] {
  switch (message.kind) {
    case 'caution':
      return [`⚠ <b>${escaped(word(locale, 'caution'))}</b> ⚠`];
    case 'repair':
      return [`🔧 <b>${escaped(word(locale, 'repair'))}</b>`];
    case 'result':
      return [`<b>${escaped(word(locale, message.outcome === 'emergency' ? 'emergency' : 'result'))}</b>`];
    case 'brief':
    case 'question':
    case 'check':
    case 'reading':
    case 'info':
    case 'picture':
    case 'file':
    case 'error':
      return [];
  }
}

function body({ message }: Outgoing, text: string): string {
  switch (message.kind) {
    case 'caution':
      return `<blockquote>${escaped(text)}</blockquote>`;
    case 'question':
      return `<b>${escaped(text)}</b>`;
    case 'check':
    case 'reading':
    case 'repair':
    case 'result':
    case 'brief':
    case 'info':
    case 'picture':
    case 'file':
    case 'error':
      return escaped(text);
  }
}

/** What is to be done beside reading: confirm a caution, or send a number. */
function footing({ message, locale }: Outgoing, word: Word): string[] {
  if (message.kind === 'caution') return [`<b>${escaped(word(locale, 'confirm'))}</b>`];
  return message.expects === 'reading' ? [`<i>${escaped(word(locale, 'reading'))}</i>`] : [];
}

/** A message in the pages it takes; the last one carries the buttons. */
export function pagesOf(entry: Outgoing, word: Word): Page[] {
  const texts = split(entry.message.text, TEXT_ROOM);
  const keyboard = keyboardOf(entry, word(entry.locale, 'more'));
  return texts.map((text, index) => {
    const above = index === 0 ? [...progress(entry, word), ...heading(entry, word)] : [];
    const isLast = index === texts.length - 1;
    const html = [...above, body(entry, text), ...(isLast ? footing(entry, word) : [])].join('\n');
    return isLast && keyboard !== undefined ? { html, keyboard } : { html };
  });
}

/** The last page of a message with the answer that was given, in place of its buttons. Undefined where none was chosen. */
export function answeredPage(entry: Outgoing, word: Word): string | undefined {
  const label = entry.chosen === undefined ? undefined : entry.message.options?.[entry.chosen]?.label;
  const page = pagesOf(entry, word).at(-1);
  return label === undefined || page === undefined ? undefined : `${page.html}\n\n→ <b>${escaped(label)}</b>`;
}
