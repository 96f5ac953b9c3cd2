/** What the recogniser may hear is what the bot understands. */
import { describe, expect, it } from 'vitest';
import { questionFor } from '../../bench/speech/questions.ts';
import { CHECK_IDS } from '../../src/knowledge/ids.ts';
import { understand } from '../../src/language/understanding/understand.ts';
import { severalIn } from '../../src/language/findings.ts';
import {
  SPOKEN_ANSWERS,
  SPOKEN_COMMANDS,
  SPOKEN_EMERGENCIES,
  SPOKEN_FINDINGS,
} from '../../src/media/english/replies.ts';
import { soundAlikesOf } from '../../src/media/english/sound-alikes.ts';
import { grammarFor, phrasesFor, wordsIn } from '../../src/media/sphinx/grammar.ts';

const QUESTIONS = [...CHECK_IDS, 'repair', 'caution', 'canister'].map(questionFor);

describe('what may be said in answer to a question', () => {
  it.each(QUESTIONS)('should all be understood at $id', (question) => {
    const phrases = phrasesFor(question);
    expect(phrases.length).toBeGreaterThan(20);
    expect(phrases.filter((phrase) => understand(phrase, question, 'en').kind === 'unclear')).toEqual([]);
  });

  it.each(QUESTIONS)('should never mean another option than the one it stands for, at $id', (question) => {
    const wrong = question.options.flatMap(({ id }) =>
      (SPOKEN_ANSWERS[id] ?? []).filter((phrase) => {
        const meant = understand(phrase, question, 'en');
        return meant.kind === 'answer' && meant.option !== id;
      }),
    );
    expect(wrong).toEqual([]);
  });

  it.each(SPOKEN_EMERGENCIES)('should be taken for an emergency whatever is asked: %s', (phrase) => {
    for (const question of QUESTIONS) expect(understand(phrase, question, 'en').kind).toBe('emergency');
  });

  it.each(SPOKEN_COMMANDS)('should be a command where nothing is asked: %s', (phrase) => {
    expect(understand(phrase, undefined, 'en').kind).toBe('command');
  });
});

describe('what is told without being asked for', () => {
  const other = questionFor('hose-hand-feel');
  it.each(SPOKEN_FINDINGS)('should be one finding, and stay one beside a reading: %s', (phrase) => {
    expect(severalIn(phrase, other, 'en')?.findings).toHaveLength(1);
    const beside = severalIn(`filter twenty two and ${phrase}`, other, 'en');
    expect(beside).toMatchObject({ readings: [{ quantity: 'filter-pressure', value: 22 }] });
    expect(beside?.findings).toEqual(severalIn(phrase, other, 'en')?.findings);
  });
});

describe('a grammar', () => {
  it('should take a number alone only where one is asked for', () => {
    expect(grammarFor(questionFor('filter-pressure'))).toContain('<bare>');
    expect(grammarFor(questionFor('skimmer-look'))).not.toContain('<bare>');
  });

  it('should leave out whole phrases of words that cannot be said', () => {
    const question = {
      options: [
        { id: 'a', label: 'blue glorp' },
        { id: 'b', label: 'red' },
      ],
    };
    const grammar = grammarFor(question, (word) => word !== 'glorp');
    expect(grammar).not.toContain('blue');
    expect(grammar).toContain('red');
  });

  it.each(['<evil> = x;', 'a | b', '"; rm', '{tag}', 'ünïcode', '12 psi'])(
    'should not let a label change its rules: %s',
    (label) => {
      const plain = grammarFor({ options: [] }).split('\n').length;
      const grammar = grammarFor({ options: [{ id: 'x', label }] });
      expect(grammar.split('\n')).toHaveLength(plain);
      expect(grammar).not.toContain(label);
    },
  );

  it('should tell all of its words and no names of rules', () => {
    const words = wordsIn(grammarFor(questionFor('filter-pressure')));
    expect(words).toEqual(expect.arrayContaining(['filter', 'psi', 'sixteen', 'gauge', "don't"]));
    expect(words.filter((word) => word.includes('<') || word === 'filter-value')).toEqual([]);
  });
});

describe('numbers that sound alike', () => {
  it('should be offered beside what was heard', () => {
    expect(soundAlikesOf('filter sixty psi')).toContain('filter sixteen psi');
    expect(soundAlikesOf('fifteen')).toContain('fifty');
    expect(soundAlikesOf('go back')).toEqual([]);
  });
});
