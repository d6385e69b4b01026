import { candumpLines } from '../bridge/candump-lines.ts';
import { playedMs, stepPlayer, withOverrun, withoutHost, type BenchPlayer } from '../bridge/bench-player.ts';
import type { HostPort } from './host-port.ts';

/** How often the port is looked at, ms. */
const LOOK_MS = 4;
/** A look that comes late, on a busy machine, is made up for to this much real time, ms: commands are answered in between. */
const MOST_GAP_MS = 50;
/** Bench time between two looks where it goes as fast as it can, ms. */
const FASTEST_STEP_MS = 100;

export interface PlayedHow {
  readonly speed: number;
  readonly durationMs: number | null;
  readonly format: 'slcan' | 'candump';
  readonly whenSlow: 'wait' | 'lose';
  /** The bench as another host finds it: the same that went on, or one as at the start. */
  readonly forNewHost: (player: BenchPlayer) => BenchPlayer;
  /** Resolves when the person ends it. */
  readonly asked: Promise<unknown>;
  /** Tells the person that a host came or went. */
  readonly tell: (words: string) => void;
}

/** Where the play stands. */
interface Playing {
  player: BenchPlayer;
  /** Hosts so far that were taken notice of. */
  visits: number;
  present: boolean;
  /** The host has spoken, so the clock runs. */
  running: boolean;
  /** Real time of the last look, ms. */
  lookedMs: number;
}

/**
 * Plays the bench to whoever is at the port, until it is over, the person ends it or the port is of no more use. Gives the reason
 * where that is a failure. Real time is kept up with where the machine can; where it cannot, the bench goes slower.
 */
export async function playBench(player: BenchPlayer, port: HostPort, how: PlayedHow): Promise<string | null> {
  let over: string | null | undefined;
  void port.ended.then((reason) => (over = reason));
  void how.asked.then(() => (over ??= null));
  const playing: Playing = {
    player,
    visits: 0,
    present: false,
    running: port.playsAlone,
    lookedMs: performance.now(),
  };
  while (over === undefined && !isOver(playing, how)) {
    const busy = look(playing, port, how);
    await (busy && how.speed === Infinity ? soon() : later());
  }
  return over ?? null;
}

const isOver = ({ player }: Playing, { durationMs }: PlayedHow): boolean =>
  durationMs !== null && playedMs(player) >= durationMs;

const later = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, LOOK_MS));
const soon = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

/** One look at the port; tells whether the bench went on. */
function look(playing: Playing, port: HostPort, how: PlayedHow): boolean {
  greet(playing, port, how);
  const now = performance.now();
  const gapMs = now - playing.lookedMs;
  playing.lookedMs = now;
  const full = port.isFull();
  if (!playing.present || (full && how.whenSlow === 'wait')) return false;
  const fromHost = port.hear();
  playing.running ||= fromHost.length > 0;
  const stepMs = playing.running ? stepOf(playing, gapMs, how) : 0;
  const { player, toHost } = stepPlayer(playing.player, fromHost, stepMs);
  playing.player = full && toHost.length > 0 ? withOverrun(player) : player;
  if (!full) for (const bytes of toHost) port.send(formed(bytes, playing.player, how));
  return stepMs > 0;
}

/** Bench time until the next look. */
function stepOf({ player }: Playing, gapMs: number, { speed, durationMs }: PlayedHow): number {
  const left = durationMs === null ? Infinity : durationMs - playedMs(player);
  const wanted = speed === Infinity ? FASTEST_STEP_MS : Math.min(gapMs, MOST_GAP_MS) * speed;
  return Math.min(wanted, left);
}

const formed = (bytes: Uint8Array, player: BenchPlayer, { format }: PlayedHow): Uint8Array =>
  format === 'slcan' ? bytes : Buffer.from(candumpLines(bytes, playedMs(player)));

/** Takes notice of hosts that came and went since the last look. */
function greet(playing: Playing, port: HostPort, how: PlayedHow): void {
  const [present, visits] = [port.isPresent(), port.visits()];
  const another = visits > playing.visits;
  if (playing.present && (!present || another)) {
    playing.player = withoutHost(playing.player);
    playing.running = port.playsAlone;
    how.tell('the host went away');
  }
  if (another) {
    if (playing.visits > 0) playing.player = how.forNewHost(playing.player);
    if (present) how.tell('a host is connected');
  }
  Object.assign(playing, { present, visits });
}
