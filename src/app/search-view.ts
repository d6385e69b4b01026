import { describeProblem, type ProblemText } from '../problems/problem.ts';
import type { SearchOutcome, SearchStep } from '../ui/search-progress.ts';
import type { FoundBridge, ListenOnly, SearchReport } from '../wire/found-bridge.ts';
import type { WireProtocol } from '../wire/wire-decoder.ts';

/** The search for a bridge as the screen shows it. `sinceMs` is the wall clock at its first report. */
export interface SearchView {
  readonly sinceMs: number;
  readonly steps: readonly SearchStep[];
  readonly outcome: SearchOutcome | null;
  readonly found: FoundBridge | null;
}

/** Steps shown; the older ones have been answered and are in nobody's way. */
const SHOWN = 5;

/** What is shown after one more report. A report that the search begins anew (after a loss) starts afresh. */
export function nextSearch(view: SearchView | null, report: SearchReport, nowMs: number): SearchView {
  const before = view === null || report.stage === 'opening' ? null : view;
  const outcome = outcomeOf(report);
  const answered = (before?.steps ?? []).map((step) =>
    step.state === 'now' ? { ...step, state: answerOf(step, report) } : step,
  );
  const steps = outcome ? answered : [...answered, { text: stepText(report), state: 'now' as const }];
  return { sinceMs: before?.sinceMs ?? nowMs, steps: steps.slice(-SHOWN), outcome, found: report.found };
}

/** A step that led on to the bit rate, or to the end, was right. */
function answerOf({ text }: SearchStep, { stage }: SearchReport): 'yes' | 'no' {
  const wasSpeed = !text.startsWith(BUS);
  if (stage === 'found') return 'yes';
  return wasSpeed && (stage === 'bit rate' || stage === 'silent' || stage === 'refused') ? 'yes' : 'no';
}

const BUS = 'Listening to the bus';

function stepText({ stage, baudRate, bitRate }: SearchReport): string {
  if (stage === 'bit rate') return bitRate === null ? BUS : `${BUS} at ${bitRateWords(bitRate)}`;
  if (baudRate === null) return 'Opening the bridge and listening';
  return `Listening at ${baudRate.toLocaleString('en')} baud`;
}

function outcomeOf({ stage, found, problem }: SearchReport): SearchOutcome | null {
  const said = problem ? describeProblem(problem) : null;
  if (stage === 'found')
    return {
      tone: 'found',
      headline: 'The bridge is found',
      facts: factsOf(found),
      advice: said?.message ?? '',
    };
  if (stage === 'silent') return { ...SILENT, facts: factsOf(found) };
  return ENDS.includes(stage) ? noneFound(said) : null;
}

const ENDS: readonly SearchReport['stage'][] = ['refused', 'unintelligible', 'nothing'];

const SILENT = {
  tone: 'silent',
  headline: 'The bridge answers, the bus is silent',
  advice: 'Turn the key on. Meniscus goes on by itself as soon as the bus is heard.',
} as const;

const noneFound = (said: ProblemText | null): SearchOutcome => ({
  tone: 'nothing',
  headline: said?.message ?? 'Nothing that can be read has come yet',
  facts: [],
  advice: said?.remedy ?? '',
});

const PROTOCOLS: Readonly<Record<WireProtocol, string>> = {
  slcan: 'SLCAN frames',
  candump: 'candump text',
  'reading-lines': 'reading lines',
};

const LISTENING: Readonly<Record<ListenOnly, string>> = {
  confirmed: 'listen-only',
  unconfirmed: 'listen-only, not confirmed',
  off: 'opened normally',
  notApplicable: '',
};

const bitRateWords = (bitRate: number): string => `${(bitRate / 1000).toLocaleString('en')} kbit/s`;

/** What was found in the words of the screen: language, serial speed, bit rate, mode. Nothing found has none. */
export function factsOf(found: FoundBridge | null): readonly string[] {
  if (!found) return [];
  return [
    found.protocol ? PROTOCOLS[found.protocol] : '',
    found.baudRate === null ? '' : `${found.baudRate.toLocaleString('en')} baud`,
    found.bitRate === null ? '' : bitRateWords(found.bitRate),
    LISTENING[found.listenOnly],
  ].filter((fact) => fact !== '');
}
