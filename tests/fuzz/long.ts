import { collectedHeap } from './collected-heap.ts';
import { fuzzMany } from './fuzz-many.ts';
import { WIRES, type FuzzedWire } from './fuzz-pipeline.ts';
import { costOf, HARD_STREAMS, heldBytes, inPieces, PIECES } from './scaling.ts';

/** The long run: prints what it finds and the figures for DEVELOPERS.md. Gives the number of findings. */
export function longRun(wantedBytes: number, firstSeed: number): number {
  return manySessions(wantedBytes, firstSeed) + scaling() + growth();
}

const workMs = () => process.cpuUsage().user / 1000;

function manySessions(wantedBytes: number, firstSeed: number): number {
  let shownAtMs = 0;
  const run = fuzzMany(firstSeed, wantedBytes, {
    clockMs: workMs,
    isOver: (findings) => {
      if (workMs() - shownAtMs > 20_000) {
        console.log(`  … ${(workMs() / 1000).toFixed(0)} s of work, ${findings.length} findings`);
        shownAtMs = workMs();
      }
      return findings.length >= 20;
    },
  });
  for (const { seed, wire, what } of run.findings) console.log(`FOUND seed ${seed}, ${wire}: ${what}`);
  console.log(
    `${run.sessions} sessions from seed ${firstSeed}, ${(run.bytes / 1e6).toFixed(1)} million bytes, each through ${WIRES.length} ` +
      `line protocols three times: ${run.findings.length} findings in ${(run.spentMs / 1000).toFixed(0)} s of work`,
  );
  console.log(
    `slowest session: seed ${run.slowestSeed}, ${run.slowestNsPerByte.toFixed(0)} ns for a byte and pass (cut every 30 bytes or so)\n`,
  );
  return run.findings.length;
}

/** Time for a byte over doubling sizes. A finding where 16 times the bytes take over 4 times as long a byte. */
function scaling(): number {
  const sizes = [16_384, 32_768, 65_536, 131_072, 262_144];
  let found = 0;
  console.log(`ns for a byte at ${sizes.map((size) => `${size / 1024} KiB`).join(', ')}`);
  for (const [name, make] of Object.entries(HARD_STREAMS))
    for (const wire of WIRES)
      for (const [how, pieceBytes] of Object.entries(PIECES)) {
        const costs = sizes.map(
          (size) => (costOf(make(size), { wire, pieceBytes, times: 1 }, workMs) * 1e6) / size,
        );
        const grows = costs.at(-1)! > 4 * Math.max(costs[0]!, 50);
        found += grows ? 1 : 0;
        if (grows || costs.at(-1)! > 1000)
          console.log(
            `${grows ? 'FOUND ' : ''}${name}, ${wire}, ${how}: ${costs.map((cost) => cost.toFixed(0)).join(', ')}`,
          );
      }
  console.log(`${found} grow faster than the bytes; others above 1000 ns are shown\n`);
  return found;
}

/** What is held besides traces after 1, 2 and 4 million bytes. A finding where it goes on growing by over 5 % of the bytes. */
function growth(): number {
  const usedBytes = collectedHeap();
  const million = [1, 2, 4] as const;
  let found = 0;
  console.log(`bytes held besides traces after ${million.join(', ')} million bytes`);
  const grown = (wire: FuzzedWire, name: string): void => {
    const held = million.map((times) =>
      heldBytes(inPieces(HARD_STREAMS[name]!(times * 1e6), PIECES['as from a port']), wire, usedBytes),
    );
    const grows = held[2]! - held[1]! > 0.05 * 2e6;
    found += grows ? 1 : 0;
    console.log(
      `${grows ? 'FOUND ' : ''}${name}, ${wire}: ${held.map((bytes) => Math.round(bytes)).join(', ')}`,
    );
  };
  for (const name of Object.keys(HARD_STREAMS)) for (const wire of WIRES) grown(wire, name);
  return found;
}
