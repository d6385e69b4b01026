import type { Observable, SchedulerLike } from 'rxjs';
import type { LinkEvent } from '../src/link/link-event.ts';
import { problem, type Problem } from '../src/problems/problem.ts';
import type { FoundBridge, SearchReport } from '../src/wire/found-bridge.ts';
import type { SearchSettings, SearchStep } from '../src/wire/search-bridge.ts';
import type { BridgeAsk } from '../src/wire/slcan-ask.ts';
import { CLOSE_COMMAND } from '../src/wire/slcan-commands.ts';
import { commandSender } from './command-sender.ts';
import { askRunner, type AskRunner } from './search-ask.ts';
import { keptEvents } from './search-kept.ts';
import { searchRunner } from './search-runner.ts';

/** Who is told what becomes of one opening. */
export interface OpeningHost {
  /** An event of an opening that is kept: from its `open` on, in order. */
  emit(event: LinkEvent): void;
  report(report: SearchReport): void;
  found(found: FoundBridge): void;
  transmitted(): void;
  opened(): void;
  /** Nothing intelligible: to be closed. `bytes` were received and are dropped. */
  giveUp(bytes: number): void;
  fail(cause: Problem, kept: boolean): void;
  complete(): void;
}

export interface Opening {
  ask(ask: BridgeAsk): void;
  /** Closes the channel where commands were sent, then the source. */
  stop(): void;
}

/** What is settled before the source is open. */
type OpeningSettings = Omit<SearchSettings, 'canWrite'>;

/** Disturbances that a wrong serial speed gives. */
const WRONG_SPEED: readonly Problem['code'][] = ['link.framing', 'link.parity', 'link.break'];

/** Opens the source once and searches on it. The search itself is pure; here it is given the bytes and the time. */
export function startOpening(
  event$: Observable<LinkEvent>,
  settings: OpeningSettings,
  scheduler: SchedulerLike,
  host: OpeningHost,
): Opening {
  const buffer = keptEvents(host.emit);
  const commands = commandSender((cause) => buffer.tell(cause));
  const asks = askRunner(scheduler, commands.sendBytes, host.transmitted);
  const step = (taken: SearchStep) => takeStep(taken, { settings, buffer, asks, host });
  const search = searchRunner(scheduler, { step, send: commands.send });
  const parts = { buffer, commands, asks, search };
  const over = () => {
    commands.sendBy(null);
    search.stop();
    asks.stop(problem('link.closed'));
  };
  const subscription = event$.subscribe({
    next: (event) => takeEvent(event, { ...parts, settings, host }),
    error: (cause: Problem) => {
      over();
      host.fail(cause, buffer.isKept());
    },
    complete: () => {
      over();
      buffer.keep();
      host.complete();
    },
  });
  const stop = () => {
    if (search.hasSetUp()) commands.send(CLOSE_COMMAND);
    over();
    subscription.unsubscribe();
  };
  return { ask: asks.request, stop };
}

interface Parts {
  readonly settings: OpeningSettings;
  readonly host: OpeningHost;
  readonly buffer: ReturnType<typeof keptEvents>;
  readonly asks: AskRunner;
  readonly commands: ReturnType<typeof commandSender>;
  readonly search: ReturnType<typeof searchRunner>;
}

function takeEvent(event: LinkEvent, { buffer, commands, asks, search, settings, host }: Parts): void {
  buffer.take(event);
  if (event.kind === 'open') {
    host.opened();
    commands.sendBy(event.write);
    asks.use(null);
    search.begin({ ...settings, canWrite: event.write !== null });
  } else if (event.kind === 'bytes') {
    asks.hear(event.bytes, event.atMs);
    search.input({ bytes: event.bytes });
  } else if (event.kind === 'gap' && WRONG_SPEED.includes(event.problem.code)) {
    search.input({ disturbed: true });
  } else if (event.kind === 'reading') {
    buffer.keep();
    search.stop();
  }
}

function takeStep(
  step: SearchStep,
  { settings, buffer, asks, host }: Pick<Parts, 'settings' | 'buffer' | 'asks' | 'host'>,
): void {
  if (step.kept) buffer.keep();
  if (step.report) host.report(step.report);
  // `L` of an unknown kind: told before any crank.
  const told = step.done?.kind === 'refused' ? step.done.problem : unconfirmed(step, settings);
  if (told) buffer.tellOnce(told);
  if (step.done?.kind === 'found') {
    asks.use(step.done.found);
    host.found(step.done.found);
  }
  if (step.done?.kind === 'junk' || step.done?.kind === 'silence') host.giveUp(buffer.bytes());
}

/** What is told of a bridge that was asked to listen only and did not say that it does. */
function unconfirmed(step: SearchStep, { wanted }: OpeningSettings): Problem | null {
  const found = step.done?.kind === 'found' ? step.done.found : (step.report?.found ?? null);
  if (found?.protocol !== 'slcan' || found.listenOnly !== 'unconfirmed' || !wanted.listenOnly) return null;
  return problem('wire.listen-only-unconfirmed', { version: found.version ?? 'none' });
}
