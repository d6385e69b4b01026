import type { CrankEntry } from './crank-entry.ts';

/**
 * Standard uncertainty of the sum of several crank times. Their edges fall at chance between two samples: in quadrature. What is beyond the edges is
 * the late first report, which makes every crank look shorter, never longer: that part adds straight (fully correlated, GUM 5.2.2 note 1).
 */
export function joinedUncertaintyMs(entries: readonly CrankEntry[]): number {
  const parts = entries.map(({ crank, time, setEdges }) => {
    const total = time.standardUncertaintyMs;
    const edges = Math.hypot(crank.starterOn.standardUncertaintyMs, crank.end.standardUncertaintyMs);
    const chance = setEdges ? total : Math.min(total, edges);
    return { chance, late: Math.sqrt(total ** 2 - chance ** 2) };
  });
  return Math.hypot(
    ...parts.map(({ chance }) => chance),
    parts.reduce((sum, { late }) => sum + late, 0),
  );
}
