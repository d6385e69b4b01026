import type { SignalId } from '../quantities/reading.ts';
import type { TraceColumns } from '../signals/trace.ts';

/** One signal of the one origin that was chosen for it: origins are never mixed. */
export interface ChosenSignal {
  readonly trace: TraceColumns;
  readonly origin: number;
}

/** The signals that were heard, by name. */
export type ChosenSignals = Partial<Readonly<Record<SignalId, ChosenSignal>>>;
