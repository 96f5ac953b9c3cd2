/** Messages on a terminal: short lines, numbered choices, readable in 40 columns and without colour. */
import type { Message, MessageOption } from '../../dialogues/message.ts';
import type { LocalTalk } from '../local-talk.ts';

const WIDEST = 76;
const NARROWEST = 30;

const STYLES = { bold: '\u001b[1m', yellow: '\u001b[33m', green: '\u001b[32m', dim: '\u001b[2m' } as const;
const PLAIN = '\u001b[0m';
type Style = keyof typeof STYLES;

export interface Screen {
  /** Lines to print for a message; `unfolded` shows the rarer choices too. */
  lines(message: Message, unfolded: boolean): string[];
}

/** The choices in the order in which they are numbered. */
export function choicesOf(message: Message, unfolded: boolean): { shown: MessageOption[]; more: boolean } {
  const options = message.options ?? [];
  const shown = unfolded ? options : options.filter(({ folded }) => folded !== true);
  return { shown, more: shown.length < options.length };
}

/** Breaks a text at spaces into lines no wider than given; line ends in the text are kept. */
export function wrapped(text: string, width: number): string[] {
  return text.split('\n').flatMap((paragraph) => {
    const lines: string[] = [];
    let line = '';
    for (const word of paragraph.split(' ')) {
      const longer = line === '' ? word : `${line} ${word}`;
      if (longer.length > width && line !== '') {
        lines.push(line);
        line = word;
      } else line = longer;
    }
    return [...lines, line];
  });
}

/** A screen of this width, in colour or not. */
export function screenOf(columns: number | undefined, colour: boolean, word: LocalTalk['word']): Screen {
  const width = Math.max(NARROWEST, Math.min(WIDEST, (columns ?? WIDEST) - 2));
  const styled = (text: string, style: Style): string => (colour ? STYLES[style] + text + PLAIN : text);
  const boxed = (title: string, lines: string[], style: Style): string[] => {
    const rule = '='.repeat(Math.min(width, Math.max(title.length + 6, 20)));
    return [styled(rule, style), styled(`!! ${title} !!`, style), ...lines, styled(rule, style)];
  };

  const heading = (message: Message): string[] => {
    const parts = [
      ...(message.step === undefined ? [] : [word('terminal.step', { step: message.step })]),
      ...(message.kind === 'repair' ? [word('terminal.repair')] : []),
      ...(message.minutesLeft === undefined
        ? []
        : [word('terminal.minutes', { minutes: message.minutesLeft })]),
    ];
    return parts.length === 0 ? [] : [styled(parts.join(' · '), 'dim')];
  };
  const choices = (message: Message, unfolded: boolean): string[] => {
    const { shown, more } = choicesOf(message, unfolded);
    if (shown.length === 0) return [];
    if (message.expects === 'reading' || message.expects === 'amount')
      return [word('terminal.reading'), ...shown.map(({ label }) => `  - ${label}`)];
    const numbered = shown.map(({ label }, index) => `  ${index + 1}  ${label}`);
    return more ? [...numbered, `  ${shown.length + 1}  ${word('terminal.more')}`] : numbered;
  };
  const body = (message: Message): string[] => {
    const lines = wrapped(message.text, width);
    if (message.kind === 'caution') return boxed(word('terminal.caution'), lines, 'yellow');
    if (message.kind === 'result') return [styled(`** ${word('terminal.result')} **`, 'green'), ...lines];
    const [first = '', ...rest] = lines;
    return message.kind === 'info' || message.kind === 'brief' ? lines : [styled(first, 'bold'), ...rest];
  };
  return {
    lines: (message, unfolded) => ['', ...heading(message), ...body(message), ...choices(message, unfolded)],
  };
}
