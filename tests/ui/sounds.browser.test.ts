import { describe, expect, test } from 'vitest';
import { createSounds, type Cue } from '../../src/ui/sounds.ts';

const RATE = 8000;

/** The times, in seconds, at which a rendered cue is heard. */
async function heard(cue: Cue, on = true): Promise<readonly number[]> {
  const context = new OfflineAudioContext(1, RATE, RATE);
  const sounds = createSounds(() => context);
  sounds.switchTo(on);
  sounds.play(cue);
  const samples = (await context.startRendering()).getChannelData(0);
  return [...samples].flatMap((sample, index) => (Math.abs(sample) > 0.02 ? [index / RATE] : []));
}

describe('sound cues', () => {
  test.each(['3', '2', '1', 'target', 'over'] as const)('%s can be heard', async (cue) => {
    expect((await heard(cue)).length).toBeGreaterThan(RATE / 20);
  });

  test('the target sounds longer than the count, and past it comes twice', async () => {
    const last = async (cue: Cue) => (await heard(cue)).at(-1) ?? 0;
    expect(await last('target')).toBeGreaterThan(4 * (await last('1')));
    const over = await heard('over');
    const longestPause = Math.max(...over.slice(1).map((time, index) => time - (over[index] ?? 0)));
    expect(longestPause).toBeGreaterThan(0.05);
    const three = await heard('3');
    expect(Math.max(...three.slice(1).map((time, index) => time - (three[index] ?? 0)))).toBeLessThan(0.02);
  });

  test('nothing sounds while off, and no audio device is asked for', async () => {
    let made = 0;
    const sounds = createSounds(() => {
      made += 1;
      return new OfflineAudioContext(1, RATE, RATE);
    });
    sounds.play('target');
    expect([sounds.isOn(), made]).toEqual([false, 0]);
    sounds.switchTo(true);
    expect([sounds.isOn(), made]).toEqual([true, 0]);
    sounds.play('3');
    sounds.play('2');
    expect(made).toBe(1);
    sounds.switchTo(false);
    expect(await heard('3', false)).toEqual([]);
  });

  test('closes the device it made, and is then off', async () => {
    const made: AudioContext[] = [];
    const sounds = createSounds(() => {
      const context = new AudioContext();
      made.push(context);
      return context;
    });
    sounds.switchTo(true);
    sounds.play('3');
    await sounds.close();
    expect(made.map((context) => context.state)).toEqual(['closed']);
    expect(sounds.isOn()).toBe(false);
  });
});
