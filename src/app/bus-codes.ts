import type { BusFacts } from '../j1939/bus-facts.ts';
import { fmiText } from '../j1939/fmi-texts.ts';
import { lowRailPressure } from '../j1939/low-rail-pressure.ts';
import { sourceName } from '../j1939/source-addresses.ts';
import { spnWords } from '../j1939/trouble-code-words.ts';
import type { CodeReport } from '../j1939/trouble-codes.ts';
import { sameCodes, type StoredCodeReport } from '../jobs/code-snapshot.ts';
import type { RunEntry } from '../jobs/run-entry.ts';
import type { CodeReportView, ControllerCodes } from '../ui/trouble-codes-list.ts';
import { addressOf } from './origin-words.ts';

type CodesEntry = Extract<RunEntry, { kind: 'codes' }>;
type HeardCodes = Pick<BusFacts, 'active' | 'previous'>;

/**
 * The entry that notes the trouble codes as heard until now; null where no controller has said anything of its codes, or nothing differs from
 * what was noted `last` (times and counts of occurrence aside). That a controller has no codes is worth noting too.
 * Only for a run whose source is open: what is entered later would take back a verdict that stands.
 */
export function codesEntry(last: CodesEntry | null, facts: HeardCodes, atIso: string): CodesEntry | null {
  const active = snapshotOf(facts.active);
  const previous = snapshotOf(facts.previous);
  if (active.length + previous.length === 0) return null;
  const entry: CodesEntry = { atIso, reason: '', kind: 'codes', active, previous };
  return last && sameCodes(last, entry) ? null : entry;
}

/** What each controller reports, for the screen: the engine's address first, then by channel and address. */
export function controllerCodes(facts: HeardCodes): readonly ControllerCodes[] {
  const origins = [...new Set([...facts.active.keys(), ...facts.previous.keys()])].toSorted((a, b) => a - b);
  return origins.map((origin) => ({
    id: String(origin),
    name: sourceName(origin % 256) ?? 'controller',
    address: addressOf(origin),
    active: viewOf(facts.active.get(origin)),
    previous: viewOf(facts.previous.get(origin)),
  }));
}

/** As the codes of the bus, from what a run has noted. */
export function notedCodes({ active, previous }: CodesEntry): HeardCodes {
  const byOrigin = (reports: readonly StoredCodeReport[]) =>
    new Map(reports.map(({ origin, ...report }): [number, CodeReport] => [origin, report]));
  return { active: byOrigin(active), previous: byOrigin(previous) };
}

const snapshotOf = (reports: ReadonlyMap<number, CodeReport>): StoredCodeReport[] =>
  [...reports]
    .toSorted(([a], [b]) => a - b)
    .map(([origin, { atMs, lamps, codes }]) => ({
      origin,
      atMs,
      lamps: { ...lamps },
      codes: codes.map((code) => ({ ...code, otherSpns: [...code.otherSpns] })),
    }));

function viewOf(report: CodeReport | undefined): CodeReportView | null {
  if (!report) return null;
  return {
    lamps: report.lamps,
    codes: report.codes.map((code) => ({
      spn: code.spn,
      fmi: code.fmi,
      what: spnWords(code.spn) ?? '',
      how: fmiText(code.fmi),
      occurrences: code.occurrences,
      otherSpns: code.otherSpns,
      mark: lowRailPressure(code) ?? '',
    })),
  };
}
