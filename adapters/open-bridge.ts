import { Observable, type SchedulerLike, type Subscriber } from 'rxjs';
import type { LinkEvent } from '../src/link/link-event.ts';
import type { Problem } from '../src/problems/problem.ts';
import { failed } from '../src/problems/result.ts';
import type { FoundBridge, SearchReport, WantedBridge } from '../src/wire/found-bridge.ts';
import { planTrials, type Trial } from '../src/wire/search-speeds.ts';
import type { BridgeAsk } from '../src/wire/slcan-ask.ts';
import { notFoundYet } from './search-ask.ts';
import { startOpening, type Opening } from './search-opening.ts';

/** What the search is given. `speeds` null: the source has no serial speed, and is opened once. */
export interface BridgeMeans {
  readonly scheduler: SchedulerLike;
  readonly speeds: readonly number[] | null;
  readonly remembered: FoundBridge | null;
  readonly wanted: WantedBridge;
  readonly onReport: (report: SearchReport) => void;
  /** Requests, while the person allows sending. Nothing else is ever sent to the bus. */
  readonly ask$?: Observable<BridgeAsk>;
}

type OpenSource = (baudRate: number | null) => Observable<LinkEvent>;

/**
 * A bridge of an unknown kind as a source: finds its serial speed, its line protocol and the bit rate of its bus, in listen-only
 * mode, then delivers what it says. Cold. The events of openings that were given up are dropped and counted in the reports;
 * those of the right one come in order from its `open` on. A bridge that is silent, or not understood, stays open and is gone on
 * with as soon as something comes. Errors are those of the source; a serial speed that the port does not have is passed over.
 * Subscribed to again (after a loss), it begins with what was found before. Ends with `C` while the link can be written to.
 */
export function openBridge(open: OpenSource, means: BridgeMeans): Observable<LinkEvent> {
  // Both hold for the device and not for one connection: it may keep its power, and its last command, while the link is down.
  const memory: BridgeMemory = { found: means.remembered, transmitted: false };
  return new Observable<LinkEvent>((subscriber) => {
    const hunt = startHunt(open, means, memory, subscriber);
    // Before the requests, so that the channel is closed while the link can still be written to.
    subscriber.add(hunt.stop);
    subscriber.add(means.ask$?.subscribe({ next: hunt.ask, error: () => undefined }));
    hunt.begin();
  });
}

interface BridgeMemory {
  found: FoundBridge | null;
  transmitted: boolean;
}

/** One search across openings. */
interface Hunt {
  readonly open: OpenSource;
  readonly means: BridgeMeans;
  readonly memory: BridgeMemory;
  readonly subscriber: Subscriber<LinkEvent>;
  readonly plan: readonly Trial[];
  at: number;
  opening: Opening | null;
  /** The last speed at which bytes came, and how many were dropped with the openings that were given up. */
  heardAt: number | null;
  droppedBytes: number;
  trials: number;
  anyOpened: boolean;
  saidNothing: boolean;
}

function startHunt(
  open: OpenSource,
  means: BridgeMeans,
  memory: BridgeMemory,
  subscriber: Subscriber<LinkEvent>,
) {
  const { speeds, wanted } = means;
  const plan = planTrials({ speeds, remembered: memory.found, baudRate: wanted.baudRate ?? null });
  const counts = { at: 0, droppedBytes: 0, trials: 0 };
  const hunt: Hunt = {
    ...{ open, means, memory, subscriber, plan, ...counts },
    ...{ opening: null, heardAt: null, anyOpened: false, saidNothing: false },
  };
  return {
    begin: () => tryTrial(hunt),
    stop: () => closeOpening(hunt),
    ask: (ask: BridgeAsk) => (hunt.opening ? hunt.opening.ask(ask) : ask.done(failed(notFoundYet()))),
  };
}

function tryTrial(hunt: Hunt): void {
  const { means, subscriber } = hunt;
  const trial = hunt.plan[hunt.at] ?? lastTrial(hunt);
  const stage = hunt.trials === 0 ? 'opening' : 'serial speed';
  report(hunt, { stage, baudRate: trial.baudRate, bitRate: null, found: null });
  // On the scheduler: an opening that fails at once would otherwise be given up before it is known.
  subscriber.add(means.scheduler.schedule(() => startTrial(hunt, trial)));
}

function startTrial(hunt: Hunt, trial: Trial): void {
  const { memory, means, subscriber } = hunt;
  const settings = {
    ...trial,
    transmitted: memory.transmitted,
    remembered: memory.found,
    wanted: means.wanted,
  };
  hunt.trials++;
  hunt.opening = startOpening(hunt.open(trial.baudRate), settings, means.scheduler, {
    emit: (event) => subscriber.next(event),
    report: (told) => hearReport(hunt, trial, told),
    found: (found) => void (memory.found = found),
    transmitted: () => void (memory.transmitted = true),
    opened: () => void (hunt.anyOpened = true),
    giveUp: (bytes) => giveUp(hunt, trial, bytes),
    fail: (cause, kept) => (kept || !passesOver(hunt, trial, cause) ? subscriber.error(cause) : goOn(hunt)),
    complete: () => subscriber.complete(),
  });
}

function closeOpening(hunt: Hunt): void {
  const { opening } = hunt;
  hunt.opening = null;
  opening?.stop();
}

function goOn(hunt: Hunt, at = hunt.at + 1): void {
  closeOpening(hunt);
  hunt.at = at;
  if (!hunt.subscriber.closed) tryTrial(hunt);
}

function giveUp(hunt: Hunt, { baudRate }: Trial, bytes: number): void {
  hunt.droppedBytes += bytes;
  if (bytes > 0) hunt.heardAt = baudRate;
  goOn(hunt);
}

/**
 * The opening that stays when nothing was found: the last speed at which bytes came, for the raw monitor; else the one of the
 * remembered device, or the most usual one.
 */
function lastTrial({ heardAt, memory, means }: Hunt): Trial {
  const baudRate = heardAt ?? memory.found?.baudRate ?? means.speeds?.[0] ?? null;
  return { baudRate, patience: 'stay' };
}

/** A speed that the port does not offer is no failure, nor is a port that is still busy with our own closing. */
function passesOver(hunt: Hunt, { patience }: Trial, cause: Problem): boolean {
  const ours = cause.code === 'link.port-busy' && hunt.anyOpened;
  return patience !== 'stay' && (cause.code === 'link.open-failed' || ours);
}

function report(hunt: Hunt, told: SearchReport): void {
  const { trials, droppedBytes } = hunt;
  hunt.means.onReport({ ...told, trials, droppedBytes });
}

/** Junk from a bridge that was silent before (switched on later): only now can its serial speed be found. */
function hearReport(hunt: Hunt, trial: Trial, told: SearchReport): void {
  if (told.stage === 'unintelligible' && hunt.saidNothing && hunt.at >= hunt.plan.length) {
    hunt.saidNothing = false;
    hunt.heardAt = trial.baudRate;
    // After the step that told it is through: its opening is closed by this.
    hunt.subscriber.add(hunt.means.scheduler.schedule(() => goOn(hunt, 0)));
    return;
  }
  hunt.saidNothing ||= told.stage === 'nothing';
  if (told.stage === 'silent' && told.found && !hunt.memory.found?.bitRate) hunt.memory.found = told.found;
  report(hunt, told);
}
