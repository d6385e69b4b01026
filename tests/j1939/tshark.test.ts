import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { isJ1939, parseCanId } from '../../src/j1939/can-id.ts';
import { describeFrame } from '../../src/j1939/describe-frame.ts';
import { sourceName } from '../../src/j1939/source-addresses.ts';
import type { FrameBatch } from '../../src/wire/frame-batch.ts';
import { hasRecordings, readRecording } from './fixtures/read-recording.ts';
import { pcapOf } from './fixtures/socketcan-pcap.ts';
import { batchOf } from './fixtures/transport-frames.ts';

/** Differential: every frame of the recordings, taken apart by us and by the J1939 dissector of tshark. */
const TSHARK = spawnSync('tshark', ['--version'], { encoding: 'utf8' });
const hasTshark = TSHARK.status === 0;
console.log(hasTshark ? `compared with ${TSHARK.stdout.split('\n')[0]}` : 'skipped: tshark is not installed');

const folder = mkdtempSync(join(tmpdir(), 'meniscus-tshark-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function tshark(batch: FrameBatch, options: readonly string[]): string {
  const file = join(folder, 'frames.pcap');
  writeFileSync(file, pcapOf(batch));
  return execFileSync('tshark', ['-r', file, '-d', 'can.subdissector,j1939', ...options], {
    encoding: 'utf8',
    maxBuffer: 1 << 28,
    stdio: ['ignore', 'pipe', 'ignore'],
  });
}

/** All fields that the dissector has (tshark -G fields), in the order in which they are asked for. */
const FIELDS = [
  'can_id',
  'priority',
  'ex_data_page',
  'data_page',
  'pdu_format',
  'pdu_specific',
  'src_addr',
  'dst_addr',
  'group_extension',
  'pgn',
  'data',
];
const LINES = ['-T', 'fields', '-E', 'separator=,', ...FIELDS.flatMap((field) => ['-e', `j1939.${field}`])];

/** What tshark must print for a frame, formed from our own fields. It gives a destination to PDU1 groups, a group extension to PDU2 groups. */
function ourLine(batch: FrameBatch, row: number): string {
  const id = batch.id[row]!;
  if ((batch.flags[row]! & 1) === 0) return ','.repeat(FIELDS.length - 1);
  const parts = parseCanId(id);
  const toOne = parts.pduFormat < 240;
  const { dataHex, idHex, pgn } = describeFrame(batch, row);
  if (isJ1939(id) !== (pgn !== null)) return 'the description and the identifier disagree';
  return [
    `0x${idHex.toLowerCase()}`,
    parts.priority,
    parts.extendedDataPage,
    parts.dataPage,
    parts.pduFormat,
    parts.pduSpecific,
    parts.sourceAddress,
    toOne ? parts.destination : '',
    toOne ? '' : parts.pduSpecific,
    parts.pgn,
    dataHex.replaceAll(' ', '').toLowerCase(),
  ].join();
}

const RECORDINGS: readonly [name: string, frames: number][] = [
  // Numbers of frames: README of ../shared/data/j1939; the remote frame of bench C is not among them.
  ['truck-a-key-on-start-idle.log.gz', 78_582],
  ['truck-a-full-drive-rpm-only.log.gz', 30_969],
  ['truck-b-driving.txt.gz', 19_957],
  ['bench-c-vin-and-requests.log.gz', 39_739],
  ['truck-d-key-on-no-rpm.log.gz', 14_457],
  ['engine-e-start-no-timestamps.txt', 853],
];

describe.skipIf(!hasTshark)('tshark', () => {
  test.skipIf(!hasRecordings).each(RECORDINGS)(
    'takes every frame of %s apart as we do (%i frames)',
    (name, frames) => {
      const batch = readRecording(name);
      const lines = tshark(batch, LINES).trimEnd().split('\n');
      expect([batch.count, lines.length]).toEqual([frames, frames]);
      const differing = lines.flatMap((line, row) => {
        const ours = ourLine(batch, row);
        return ours === line ? [] : [{ row, ours, line }];
      });
      expect(differing.slice(0, 5)).toEqual([]);
    },
    120_000,
  );

  test('takes identifiers apart as we do that no recording holds: each bit alone, and edges of the groups', () => {
    const ids = [
      ...Array.from({ length: 29 }, (_, bit) => 2 ** bit),
      ...[0xeffe, 0xef00, 0xf000, 0xf0ff, 0x1ef55, 0x1f055, 0x3ffff].map((group) => group * 256 + 0x42),
    ];
    const batch = batchOf(ids.map((id, atMs) => ({ atMs, id, data: [atMs] })));
    const lines = tshark(batch, LINES).trimEnd().split('\n');
    expect(lines).toEqual(ids.map((_, row) => ourLine(batch, row)));
  }, 60_000);

  test('names the usual owners of addresses as we do, in its own words', () => {
    const addresses = Array.from({ length: 256 }, (_, address) => address).filter(
      (each) => sourceName(each) !== null,
    );
    const batch = batchOf(addresses.map((address, atMs) => ({ atMs, id: 0x18f00400 + address, data: [0] })));
    const theirs = [...tshark(batch, ['-V']).matchAll(/Source Address: \d+ \((.*)\)\]/g)].map(
      (match) => match[1]!,
    );
    const simple = (name: string) => name.toLowerCase().replace(/[^a-z0-9]+/g, ' ');
    const shared = addresses.map((address, i) => {
      const words = simple(sourceName(address)!).split(' ');
      const inTheirs = words.filter((word) =>
        simple(theirs[i]!)
          .split(' ')
          .some((each) => each.startsWith(word.slice(0, 6))),
      );
      return [address, inTheirs.length > 0];
    });
    expect(theirs).toHaveLength(addresses.length);
    // 255 they call "GLOBAL", we call it "all"; 254 they call "null", we call it "no address".
    expect(shared.filter(([, same]) => !same)).toEqual([[0xff, false]]);
  }, 60_000);
});
