/** What a sound tells: the seconds before the target, the target itself, and past it. */
export type Cue = '3' | '2' | '1' | 'target' | 'over';

interface Beep {
  readonly hertz: number;
  readonly seconds: number;
  readonly times: number;
}

/** Rising towards the target, long at it, a low double past it: told apart by rhythm as well as by pitch. */
const BEEPS: Readonly<Record<Cue, Beep>> = {
  3: { hertz: 660, seconds: 0.12, times: 1 },
  2: { hertz: 740, seconds: 0.12, times: 1 },
  1: { hertz: 880, seconds: 0.12, times: 1 },
  target: { hertz: 1175, seconds: 0.7, times: 1 },
  over: { hertz: 440, seconds: 0.18, times: 2 },
};

export interface Sounds {
  /** Off until switched on; switch it on from a click or key, since browsers allow sound only after a gesture. */
  switchTo(on: boolean): void;
  isOn(): boolean;
  /** Plays a cue; does nothing while off. */
  play(cue: Cue): void;
  /** Frees the audio device. Can be switched on again. */
  close(): Promise<void>;
}

/**
 * Sound cues by Web Audio, no file needed. The context is made at the first cue that is really played.
 * @param makeContext for tests: an OfflineAudioContext does as well
 */
export function createSounds(makeContext: () => BaseAudioContext = () => new AudioContext()): Sounds {
  let on = false;
  let context: BaseAudioContext | null = null;
  return {
    switchTo: (value) => void (on = value),
    isOn: () => on,
    play: (cue) => {
      if (!on) return;
      context ??= makeContext();
      if (context instanceof AudioContext && context.state === 'suspended') void context.resume();
      sound(context, BEEPS[cue]);
    },
    close: async () => {
      on = false;
      const closing = context;
      context = null;
      if (closing instanceof AudioContext && closing.state !== 'closed') await closing.close();
    },
  };
}

function sound(context: BaseAudioContext, { hertz, seconds, times }: Beep): void {
  for (let turn = 0; turn < times; turn += 1) {
    const from = context.currentTime + turn * seconds * 1.5;
    const oscillator = new OscillatorNode(context, { type: 'square', frequency: hertz });
    const gain = new GainNode(context, { gain: 0 });
    // A short ramp at both ends: a hard edge clicks.
    gain.gain.setValueAtTime(0, from);
    gain.gain.linearRampToValueAtTime(0.25, from + 0.01);
    gain.gain.setValueAtTime(0.25, from + seconds - 0.02);
    gain.gain.linearRampToValueAtTime(0, from + seconds);
    oscillator.connect(gain).connect(context.destination);
    oscillator.start(from);
    oscillator.stop(from + seconds);
  }
}
