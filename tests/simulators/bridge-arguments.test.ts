import { describe, expect, test } from 'vitest';
import { bridgeList, BRIDGE_USAGE, parseBridgeArguments } from '../../simulators/cli/bridge-arguments.ts';
import { SCRIPT_WORDS } from '../../simulators/bridge/bench-script.ts';
import { JOB_SCENARIOS, SCENARIOS } from '../../simulators/scenarios.ts';

const read = (...argv: string[]) => parseBridgeArguments(argv);
const healthy = (...argv: string[]) => read('--scenario', 'healthy', ...argv);

describe('the arguments of the bridge player', () => {
  test('plays on standard output, opened with stamps, once, in real time, where nothing else is asked', () => {
    expect(healthy()).toMatchObject({
      name: 'play',
      seed: 1,
      speed: 1,
      to: { kind: 'stdout' },
      repeats: false,
      durationMs: 48_000, // two cranks: key off at 44 s and 4 s of rest
      format: 'slcan',
      stamps: true,
      busCode: '5',
      whenSlow: 'wait',
    });
  });

  test.each([
    ['tcp:4000', { kind: 'tcp', host: '127.0.0.1', port: 4000 }],
    ['ws:0', { kind: 'ws', host: '127.0.0.1', port: 0 }],
    ['/tmp/bridge', { kind: 'path', path: '/tmp/bridge', baud: null }],
    ['./bridge', { kind: 'path', path: './bridge', baud: null }],
  ])('plays to %s without an end and without stamps, as a host wants it', (to, outlet) => {
    expect(healthy('--to', to)).toMatchObject({ to: outlet, durationMs: null, stamps: false });
  });

  test('takes every option', () => {
    const argv =
      '--seed 7 --speed max --to tcp:9 --host 0.0.0.0 --repeat --fresh --duration 2.5 --stamps on --bus 500';
    expect(
      healthy(...argv.split(' '), '--keys', 'on@1', '--when-slow', 'lose', '--noise', '0.01'),
    ).toMatchObject({
      scenario: { id: 'healthy', noise: { corruptPerByte: 0.01, dropPerByte: 0.01 } },
      seed: 7,
      speed: Infinity,
      to: { kind: 'tcp', host: '0.0.0.0', port: 9 },
      script: [{ atMs: 1000, command: { kind: 'key', at: 'on' } }],
      repeats: true,
      fresh: true,
      durationMs: 2500,
      stamps: true,
      busCode: '6',
      whenSlow: 'lose',
    });
    expect(healthy('--repeat')).toMatchObject({ durationMs: null });
    expect(healthy('--to', '/dev/ttyS9', '--baud', '115200')).toMatchObject({ to: { baud: 115_200 } });
  });

  test.each([
    ['no scenario', [], /--scenario.*healthy/],
    ['an unknown scenario', ['--scenario', 'sick'], /'sick'.*healthy/],
    ['an unknown option', ['--fast'], /--fast.*--help/],
    ['a loose word', ['--scenario', 'healthy', 'now'], /now.*--help/],
    ['a seed that is no number', ['--scenario', 'healthy', '--seed', 'x'], /--seed.*whole number/],
    ['an empty seed', ['--scenario', 'healthy', '--seed', ''], /--seed/],
    ['a speed of nothing', ['--scenario', 'healthy', '--speed', '0'], /--speed.*max/],
    ['a speed backwards', ['--scenario', 'healthy', '--speed=-2'], /--speed/],
    ['a duration of nothing', ['--scenario', 'healthy', '--duration', '0'], /--duration.*seconds/],
    ['too much noise', ['--scenario', 'healthy', '--noise', '0.6'], /--noise.*0 to 0\.5/],
    ['a port too high', ['--scenario', 'healthy', '--to', 'tcp:70000'], /70000.*65535/],
    ['a port that is none', ['--scenario', 'healthy', '--to', 'tcp:x'], /'tcp:x'.*tcp:PORT/],
    ['a path without a slash', ['--scenario', 'healthy', '--to', 'stout'], /'stout'.*stdout.*slash/],
    ['a script that is none', ['--scenario', 'healthy', '--keys', 'turn@1'], /--keys.*'turn'/],
    ['an unknown format', ['--scenario', 'healthy', '--format', 'pcap'], /--format.*slcan or candump/],
    ['candump for a host', ['--scenario', 'healthy', '--format', 'candump', '--to', 'tcp:1'], /stdout/],
    ['candump with noise', ['--scenario', 'healthy', '--format', 'candump', '--noise', '0.1'], /noise/],
    ['candump with stamps', ['--scenario', 'healthy', '--format', 'candump', '--stamps', 'on'], /stamps/],
    ['stamps that are neither', ['--scenario', 'healthy', '--stamps', '1'], /on or off/],
    ['a bus that nobody has', ['--scenario', 'healthy', '--bus', '300'], /--bus.*250/],
    ['a baud rate of nothing', ['--scenario', 'healthy', '--to', '/dev/x', '--baud', '0'], /--baud.*115200/],
  ])('refuses %s with the remedy', (_, argv, says) => {
    const answer = read(...argv);
    expect(answer).toHaveProperty('mistake');
    expect('mistake' in answer && answer.mistake).toMatch(says);
  });

  test('help names every option and every word of a script; the list every scenario', () => {
    expect(read('--help')).toEqual({ name: 'help' });
    expect(read('-h', '--scenario', 'sick')).toEqual({ name: 'help' });
    for (const word of SCRIPT_WORDS.keys()) expect(BRIDGE_USAGE).toContain(word);
    expect(read('--list')).toEqual({ name: 'list' });
    for (const { id, story } of [...SCENARIOS, ...JOB_SCENARIOS]) {
      expect(bridgeList()).toContain(`${id}: `);
      expect(bridgeList()).toContain(story);
    }
  });
});
