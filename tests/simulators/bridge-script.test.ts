import { describe, expect, test } from 'vitest';
import { defaultScript, parseScript, scriptMs, SCRIPT_WORDS } from '../../simulators/bridge/bench-script.ts';
import { PARTS } from '../../simulators/engine/parts.ts';
import { VESSEL_LINES } from '../../simulators/engine/rig.ts';
import { JOB_SCENARIOS, SCENARIO_BY_ID, SCENARIOS } from '../../simulators/scenarios.ts';

const mistakeIn = (text: string): string => {
  const read = parseScript(text);
  if (!('mistake' in read)) throw new TypeError(`'${text}' was taken`);
  return read.mistake;
};

describe('a script of what is done at the bench', () => {
  test('is words with seconds, set off by blanks, commas or line ends', () => {
    expect(parseScript(' on@0,crank@2.5  on@17\nline-pump-return@17 ')).toEqual([
      { atMs: 0, command: { kind: 'key', at: 'on' } },
      { atMs: 2500, command: { kind: 'key', at: 'crank' } },
      { atMs: 17_000, command: { kind: 'key', at: 'on' } },
      { atMs: 17_000, command: { kind: 'line', into: 'pump return' } },
    ]);
  });

  test('knows every part and every line by its name with hyphens', () => {
    for (const part of PARTS)
      expect(SCRIPT_WORDS.get(`replace-${part.replaceAll(' ', '-')}`)).toEqual({ kind: 'replace', part });
    for (const into of VESSEL_LINES)
      expect(SCRIPT_WORDS.get(`line-${into.replaceAll(' ', '-')}`)).toEqual({ kind: 'line', into });
  });

  test.each([...SCRIPT_WORDS])('%s can be written', (word, command) => {
    expect(parseScript(`${word}@1`)).toEqual([{ atMs: 1000, command }]);
  });

  test.each([
    ['crank', /crank@3/],
    ['crank@', /crank@3/],
    ['crank@-1', /crank@3/],
    ['crank@1e3', /crank@3/],
    ['Crank@1', /crank@3/],
    ['turn@1', /'turn'.*crank/],
    ['on@5 crank@2', /'crank@2'.*order of time/],
    ['', /empty.*crank@/],
    [' , ', /empty/],
  ])('%j is refused with the remedy', (text, says) => {
    expect(mistakeIn(text)).toMatch(says);
  });

  test('goes on for 4 s after its last word', () => {
    const read = parseScript('on@0 off@20');
    expect('mistake' in read ? null : scriptMs(read)).toBe(24_000);
  });

  test('is there for every scenario: two cranks of 15 s for the delivery test, a start and idling for a job', () => {
    for (const scenario of [...SCENARIOS, ...JOB_SCENARIOS]) {
      const script = parseScript(defaultScript(scenario));
      expect('mistake' in script).toBe(false);
    }
    expect(defaultScript(SCENARIO_BY_ID.healthy).match(/crank@/g)).toHaveLength(2);
    expect(defaultScript(SCENARIO_BY_ID['leaking-pump'])).toMatch(/crank@.*idle@/);
  });
});
