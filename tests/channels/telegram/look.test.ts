import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { callbackData, pressOf } from '../../../src/channels/telegram/callback.ts';
import { escaped, split } from '../../../src/channels/telegram/html.ts';
import { keyboardOf } from '../../../src/channels/telegram/keyboard.ts';
import { answeredPage, pagesOf } from '../../../src/channels/telegram/look.ts';
import type { Outgoing } from '../../../src/channels/telegram/ports.ts';
import type { Message } from '../../../src/dialogues/message.ts';
import { translate } from '../../../src/language/texts.ts';
import { plainText } from '../../fake-bot-api/html.ts';
import { seenText } from '../../fake-bot-api/limits.ts';

const word = (locale: 'en' | 'es', key: string, facts = {}): string =>
  translate(locale, `telegram:${key}`, facts);

function outgoing(message: Partial<Message>, extra: Partial<Outgoing> = {}): Outgoing {
  const whole: Message = { kind: 'check', id: 'x', text: 'Look at it.', ...message };
  return {
    id: 12,
    conversation: 'telegram:1',
    message: whole,
    locale: 'en',
    version: 4,
    partsSent: 0,
    ...extra,
  };
}

const option = (label: string, folded = false): { id: string; label: string; folded?: boolean } =>
  folded ? { id: label, label, folded } : { id: label, label };

describe('callback data', () => {
  it('should come back as it was written, in at most 64 bytes', () => {
    const number = fc.integer({ min: 0, max: 999_999_999_999 });
    fc.assert(
      fc.property(
        number,
        number,
        fc.oneof(fc.constant('more' as const), number),
        (version, message, choice) => {
          const data = callbackData({ version, message, choice });
          // InlineKeyboardButton, public Bot API documentation: 1-64 bytes.
          expect(Buffer.byteLength(data)).toBeLessThanOrEqual(64);
          expect(pressOf(data)).toEqual({ version, message, choice });
        },
      ),
    );
  });

  it('should not be read from anything else', () => {
    for (const data of [
      '',
      '1:2',
      '1:2:3:4',
      'a:b:c',
      '-1:2:3',
      '1.5:2:3',
      '1:2:3 ',
      '1:2:1e3',
      '1:2:9999999999999',
    ])
      expect(pressOf(data), data).toBeUndefined();
    fc.assert(
      fc.property(fc.string(), (data) => {
        const press = pressOf(data);
        if (press !== undefined) expect(data).toMatch(/^\d+:\d+:(\d+|more)$/);
      }),
    );
  });
});

describe('a keyboard', () => {
  it('should put two short labels in a row and a long one alone, in their order', () => {
    const options = ['Yes', 'No', 'Cleaner floats or tips over', 'Not sure', 'Skip this'].map((label) =>
      option(label),
    );
    const rows = keyboardOf(outgoing({ options }), 'More …')?.inline_keyboard ?? [];
    expect(rows.map((row) => row.map(({ text }) => text))).toEqual([
      ['Yes', 'No'],
      ['Cleaner floats or tips over'],
      ['Not sure', 'Skip this'],
    ]);
  });

  it('should keep the rarer choices behind a button, with the numbers that the whole list gives them', () => {
    const entry = outgoing({ options: [option('a'), option('b', true), option('c')] });
    const folded = keyboardOf(entry, 'More …')?.inline_keyboard.flat();
    expect(folded?.map((button) => ('callback_data' in button ? button.callback_data : ''))).toEqual([
      '4:12:0',
      '4:12:2',
      '4:12:more',
    ]);
    const whole = keyboardOf(entry, undefined)?.inline_keyboard.flat();
    expect(whole?.map(({ text }) => text)).toEqual(['a', 'b', 'c']);
  });

  it('should not be shown where there is nothing to choose', () => {
    expect(keyboardOf(outgoing({}), 'More …')).toBeUndefined();
    expect(keyboardOf(outgoing({ options: [] }), 'More …')).toBeUndefined();
  });
});

describe('a text', () => {
  it('should be escaped so that the platform reads it as it was written', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        expect(plainText(`<b>${escaped(text)}</b>`)).toEqual({ text });
      }),
    );
  });

  it('should be split at the ends of paragraphs where they are near enough, and nothing be lost', () => {
    const paragraph = 'A sentence of some length about a pump. '.repeat(20).trim();
    const parts = split(Array(12).fill(paragraph).join('\n\n'), 2000);
    expect(parts.length).toBeGreaterThan(3);
    for (const part of parts) expect(part.endsWith('pump.')).toBe(true);
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme', maxLength: 400 }),
        fc.integer({ min: 5, max: 60 }),
        (text, limit) => {
          const cut = split(text, limit);
          for (const part of cut) expect(part.length).toBeLessThanOrEqual(limit);
          expect(cut.join('').replace(/\s/g, '')).toBe(text.replace(/\s/g, ''));
          // Half a surrogate pair is no character: a cut must not make one.
          for (const part of cut) expect(encodeURI(part)).toBeTypeOf('string');
        },
      ),
    );
  });

  it('should fit the platform however long it is, and be marked well', () => {
    const kinds = [
      'question',
      'check',
      'reading',
      'caution',
      'repair',
      'result',
      'brief',
      'info',
      'error',
    ] as const;
    for (const kind of kinds) {
      const pages = pagesOf(
        outgoing({ kind, text: 'Water & <air> moves. '.repeat(900), options: [option('Yes')] }),
        word,
      );
      expect(pages.length).toBeGreaterThan(3);
      for (const { html } of pages) expect(() => seenText(html, 'HTML')).not.toThrow();
      expect(pages.map(({ keyboard }) => keyboard !== undefined)).toEqual([
        ...pages.slice(1).map(() => false),
        true,
      ]);
    }
  });
});

describe('how messages look', () => {
  const seen = (message: Partial<Message>, locale: 'en' | 'es' = 'en'): string => {
    const page = pagesOf(outgoing(message, { locale }), word)[0];
    const read = plainText(page?.html ?? '');
    return 'text' in read ? read.text : '';
  };

  it('should tell a caution from a question by words, in every language, without its symbols', () => {
    const strip = (text: string): string => text.replace(/[^\p{L}\p{N}\s]/gu, '');
    for (const [locale, caution] of [
      ['en', 'CAUTION'],
      ['es', 'ATENCIÓN'],
    ] as const) {
      expect(strip(seen({ kind: 'caution' }, locale))).toContain(caution);
      for (const kind of ['question', 'check', 'reading', 'info'] as const)
        expect(strip(seen({ kind }, locale))).not.toContain(caution);
    }
    const [page] = pagesOf(outgoing({ kind: 'caution' }), word);
    expect(page?.html).toContain('<blockquote>');
  });

  it('should say which step it is and about how long the case still takes', () => {
    expect(seen({ step: 3, minutesLeft: 6 })).toBe('Step 3 · about 6 min left\nLook at it.');
    expect(seen({ step: 3, minutesLeft: 6 }, 'es')).toBe('Paso 3 · quedan unos 6 min\nLook at it.');
  });

  it('should say how a reading is sent', () => {
    expect(seen({ kind: 'reading', expects: 'reading' })).toMatch(/18 psi/);
  });

  it('should show the answer in the place of its buttons', () => {
    const entry = outgoing({ options: [option('Yes'), option('No <way>')] }, { chosen: 1 });
    expect(answeredPage(entry, word)).toBe('Look at it.\n\n→ <b>No &lt;way&gt;</b>');
    expect(answeredPage(outgoing({ options: [option('Yes')] }), word)).toBeUndefined();
  });
});
