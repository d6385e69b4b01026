import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RECENT_BYTES, startWire } from '../../src/pipeline/running-wire.ts';
import { millis } from '../../src/quantities/time.ts';
import { ascii } from './fixtures/eec1-log.ts';

describe('the wire of the pipeline', () => {
  it('knows its protocol at once where it was told, and only when it is certain where not', () => {
    for (const protocol of ['slcan', 'candump', 'reading-lines'] as const)
      expect(startWire(protocol).protocol).toBe(protocol);
    const auto = startWire('auto');
    expect(auto.protocol).toBeNull();
    const { next } = auto.step(ascii('t1230\r'.repeat(3)), millis(0));
    expect(next.protocol).toBe('slcan');
    expect(next.restart().protocol).toBe('slcan');
  });

  it('keeps the last bytes as received, however they were cut, over openings too', () => {
    const pieces = fc.array(fc.uint8Array({ maxLength: 3000 }), { maxLength: 10 });
    fc.assert(
      fc.property(pieces, fc.constantFrom('slcan', 'auto', 'candump'), (parts, protocol) => {
        let wire = startWire(protocol);
        for (const part of parts) wire = wire.step(part, millis(0)).next.restart();
        const all = Uint8Array.from(parts.flatMap((part) => [...part]));
        expect(wire.recentBytes).toEqual(all.subarray(Math.max(0, all.length - RECENT_BYTES)));
        expect(wire.finish().next.recentBytes).toEqual(wire.recentBytes);
      }),
    );
  });

  it('keeps a copy: the memory of the bytes may be used again', () => {
    const long = new Uint8Array(10_000).fill(1);
    const short = new Uint8Array(10).fill(2);
    const wire = startWire('slcan').step(long, millis(0)).next.step(short, millis(0)).next;
    long.fill(9);
    short.fill(9);
    expect(wire.recentBytes).toHaveLength(RECENT_BYTES);
    expect(new Set(wire.recentBytes)).toEqual(new Set([1, 2]));
  });
});
