/** What the environment says about voice. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { ConfigInvalid } from '../../src/app/config.ts';
import { readConfig } from '../../src/app/config.ts';
import { voiceConfig } from '../../src/app/voice-config.ts';

const DATABASE = 'data/pool.sqlite';

describe('the configuration of voice', () => {
  it('should need nothing: recognition on this machine, no note kept, files beside the database', () => {
    expect(voiceConfig({}, DATABASE)).toEqual({
      config: { service: undefined, keepDays: 0, folder: 'data/voice' },
      problems: [],
    });
  });

  it('should name a service, with its key or a file that holds it', () => {
    const url = 'http://127.0.0.1:8000';
    const { config } = voiceConfig({ PADSIDE_SPEECH_URL: url, PADSIDE_SPEECH_KEY: 'k' }, DATABASE);
    expect(config.service).toEqual({ url, key: 'k', model: undefined });
    const file = join(mkdtempSync(join(tmpdir(), 'padside-test-')), 'key');
    writeFileSync(file, 'from a file\n');
    const read = voiceConfig({ PADSIDE_SPEECH_URL: url, PADSIDE_SPEECH_KEY_FILE: file }, DATABASE);
    expect(read.config.service?.key).toBe('from a file');
  });

  it('should list every problem at once without showing the key', () => {
    const environment = {
      PADSIDE_SPEECH_URL: 'ftp://x',
      PADSIDE_SPEECH_KEY: 'hidden',
      PADSIDE_VOICE_KEEP_DAYS: 'two',
    };
    const { problems } = voiceConfig(environment, DATABASE);
    expect(problems.map((problem) => problem.split(':')[0])).toEqual([
      'PADSIDE_SPEECH_URL',
      'PADSIDE_VOICE_KEEP_DAYS',
    ]);
    expect(problems.join()).not.toContain('hidden');
    expect(voiceConfig({ PADSIDE_SPEECH_KEY: 'k' }, DATABASE).problems).toHaveLength(1);
    expect(voiceConfig({ PADSIDE_VOICE_KEEP_DAYS: '-1' }, DATABASE).problems).toHaveLength(1);
  });

  it('should stop the start together with every other problem', () => {
    try {
      readConfig(['--jsonl', '--role', 'nobody'], { PADSIDE_SPEECH_URL: 'x' });
      expect.unreachable();
    } catch (error) {
      expect((error as ConfigInvalid).problems).toHaveLength(2);
    }
  });
});
