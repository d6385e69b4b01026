import type { RunEntry } from '../jobs/run-entry.ts';

/** One entry of a run in a line: when, what, why. */
export function entryLine(entry: RunEntry): string {
  const why = entry.reason ? ` – ${entry.reason}` : '';
  return `${entry.atIso.slice(11, 19)} UTC  ${what(entry)}${why}`;
}

function what(entry: RunEntry): string {
  switch (entry.kind) {
    case 'caution-ticked':
      return `caution read: ${entry.caution}`;
    case 'volume':
      return `volume ${entry.readingsMl.join(' + ')} mL (typed “${entry.typed}”)`;
    case 'vessel':
      return `vessel: ${entry.vessel.name}`;
    case 'crank-left-out':
    case 'crank-edge':
      return aboutCrank(entry);
    case 'origin-chosen':
      return `${entry.signal} taken from address ${(entry.origin & 0xff).toString(16).toUpperCase().padStart(2, '0')}`;
    case 'override':
      return `${entry.code} ${entry.holds ? 'let stand' : 'no longer let stand'}`;
    case 'note':
      return `note: ${entry.text}`;
    case 'interval':
      return `interval between speed readings: ${entry.intervalMs} ms`;
  }
}

function aboutCrank(entry: Extract<RunEntry, { kind: 'crank-left-out' | 'crank-edge' }>): string {
  const crank = `crank ${entry.crank + 1}`;
  if (entry.kind === 'crank-left-out') return `${crank} ${entry.leftOut ? 'left out' : 'counts again'}`;
  return `${entry.edge} of ${crank} ${entry.atMs === null ? 'set back' : 'set'}`;
}
