import { beforeAll, describe, expect, test } from 'vitest';
import { decodeFrames } from '../../src/j1939/decode-frames.ts';
import { toReadings } from '../../src/signals/to-readings.ts';
import { appendReadings, createTraceSet, traceOf } from '../../src/signals/trace-set.ts';
import { throughPipeline } from './pipeline-runs.ts';
import { SCENARIO_BY_ID } from '../../simulators/scenarios.ts';
import { runHost, whyNoPythonCan, type HostRun } from './bridge-on-pty.ts';
import { bytesOf } from './bench-runs.ts';

const reason = whyNoPythonCan();
if (reason !== null) console.log(`python-can at the simulated bridge is skipped: ${reason}.`);

const FRAMES = 2500;

interface HeardFrame {
  readonly kind: string;
  readonly id: number;
  readonly length: number;
  readonly data: string;
}

const heardBy = (lines: readonly string[]): HeardFrame[] =>
  lines.flatMap((line) => {
    const parts = /^(xd|xr|sd|sr) ([0-9a-f]{8}) (\d) ([0-9a-f]*)$/.exec(line);
    return parts === null
      ? []
      : [{ kind: parts[1]!, id: parseInt(parts[2]!, 16), length: Number(parts[3]), data: parts[4]! }];
  });

/** What was written to the pseudo-terminal, cut by hand as the SLCAN grammar has it. */
const sentIn = (text: string): HeardFrame[] =>
  text.split('\r').flatMap((line) => {
    const at = line.indexOf('T');
    if (at < 0) return [];
    const id = parseInt(line.slice(at + 1, at + 9), 16);
    return [
      { kind: 'xd', id, length: Number(line[at + 9]), data: line.slice(at + 10, at + 26).toLowerCase() },
    ];
  });

describe.skipIf(reason !== null)('python-can at the simulated bridge over a pseudo-terminal', () => {
  let run: HostRun;
  beforeAll(async () => {
    run = await runHost(SCENARIO_BY_ID.healthy, 'python-can-host.py', [String(FRAMES)]);
  }, 60_000);

  test('opens it with its own handshake, reads, sends a frame and closes it', () => {
    expect(run.fromHost).toBe('C\rS5\rO\rO\rT18EAFFF93ECFE00\rC\r');
    expect(run.lines[0]).toBe('opened');
    expect(run.lines.at(-1)).toBe('closed');
    expect(run.exitCode).toBe(0);
  });

  test('is answered as the originals answer: BEL while already closed or open, Z for its frame', () => {
    expect(run.toHost.startsWith('\x07\r\r\x07')).toBe(true); // C refused, S5, O done, the second O refused
    expect(run.toHost).toContain('Z\r');
  });

  test(`reads what the bridge sends, frame for frame: id, length and data of ${FRAMES}`, () => {
    const heard = heardBy(run.lines);
    const sent = sentIn(run.toHost);
    expect(heard).toHaveLength(FRAMES);
    expect(sent.length).toBeGreaterThanOrEqual(FRAMES);
    expect(heard).toEqual(sent.slice(0, FRAMES));
    expect(new Set(heard.map(({ id }) => id)).size).toBeGreaterThanOrEqual(11); // all groups of the bus, two senders of one
  });

  test('what python-can read decodes to the same readings as the bytes through the product', () => {
    const heard = heardBy(run.lines);
    const count = heard.length;
    const data = new Uint8Array(8 * count);
    heard.forEach((frame, row) => data.set(Buffer.from(frame.data, 'hex'), 8 * row));
    const batch = {
      count,
      breakBefore: false,
      atMs: Float64Array.from(heard, (_, row) => row),
      id: Uint32Array.from(heard, ({ id }) => id),
      flags: new Uint8Array(count).fill(1),
      length: Uint8Array.from(heard, ({ length }) => length),
      channel: new Uint8Array(count),
      data,
    };
    const theirs = appendReadings(createTraceSet(), toReadings(decodeFrames(batch)));
    const ours = throughPipeline([{ atMs: 0, bytes: bytesOf(run.toHost) }]).traces;
    for (const signal of ['engineSpeed', 'railPressure', 'supplyPressure', 'batteryVoltage'] as const) {
      const [peer, own] = [traceOf(theirs, signal, 0), traceOf(ours, signal, 0)];
      expect(peer.length).toBeGreaterThan(10);
      expect([...own.value.slice(0, peer.length)]).toEqual([...peer.value.slice(0, peer.length)]);
    }
    // SPN 190: bytes 4 and 5, 0.125 rpm a bit (j1939.md), taken here by hand from what python-can printed
    const rpm = heard
      .filter(({ id }) => id === 0x0cf00400)
      .map(({ data: hex }) => (parseInt(hex.slice(8, 10), 16) * 256 + parseInt(hex.slice(6, 8), 16)) / 8);
    expect([...traceOf(ours, 'engineSpeed', 0).value.slice(0, rpm.length)]).toEqual(rpm);
    expect(Math.max(...rpm)).toBeGreaterThan(150); // the starter turns
  });
});

describe.skipIf(reason !== null)('a serial host at the simulated bridge, by hand', () => {
  test('bad commands get BEL, good ones CR, and the bridge still answers afterwards', async () => {
    const commands = ['Q', 'C', 'O', 'S9', 's01', 'T18EAFFF9', 'x', 'S5', 'Z1', 'V', 'M1', 'N'];
    const { lines, exitCode } = await runHost(SCENARIO_BY_ID.healthy, 'raw-host.py', commands);
    expect(exitCode).toBe(0);
    const answers = lines.map((line) => line.split(' '));
    expect(answers.map(([command]) => command)).toEqual(commands);
    expect(answers.filter(([, answer]) => answer === '07').map(([command]) => command)).toEqual(
      ['Q', 'C', 'O', 'S9', 's01', 'T18EAFFF9', 'x', 'M1'], // prettier-ignore
    );
    expect(answers.filter(([, answer]) => answer === '0d').map(([command]) => command)).toEqual(['S5', 'Z1']);
    expect(Buffer.from(answers[9]![1]!, 'hex').toString()).toMatch(/^V\d{4}\r$/);
    expect(Buffer.from(answers[11]![1]!, 'hex').toString()).toMatch(/^N[0-9A-Za-z]{4}\r$/);
  }, 60_000);
});
