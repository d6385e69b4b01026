import { defer, from, switchMap, tap, type Observable, type SchedulerLike } from 'rxjs';
import { openBridge } from '../../adapters/open-bridge.ts';
import type { AdapterId, DeviceAdapter } from '../link/adapter.ts';
import { keepOpen, type KeepReport } from '../link/keep-open.ts';
import type { LinkEvent } from '../link/link-event.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { BIT_RATES, type BitRate, type FoundBridge, type SearchReport } from '../wire/found-bridge.ts';
import { SERIAL_SPEEDS } from '../wire/search-speeds.ts';
import type { BridgeAsk } from '../wire/slcan-ask.ts';
import type { DeviceMemory, RememberedDevice } from './device-memory.ts';
import { plainChoice } from './plain-choice.ts';
import { heldAs, type PortHolders } from './port-holders.ts';
import type { Settings } from './settings.ts';

/** The sources that are devices: they are chosen, searched, kept open and remembered. */
export const LIVE_IDS = ['web-serial', 'web-bluetooth', 'web-socket', 'web-usb'] as const;
export type LiveId = (typeof LIVE_IDS)[number];
export const isLiveId = (id: AdapterId): id is LiveId => (LIVE_IDS as readonly string[]).includes(id);

/** What the choices of all live sources have in common. */
export interface LiveChoice {
  readonly device: string;
}

/** A device chosen in this tab. It cannot be written down: the browser's own objects hang on it. */
export interface LivePending {
  readonly kind: 'live';
  readonly adapter: LiveId;
  readonly choice: LiveChoice;
  readonly device: string;
  readonly key: string | null;
}

/** How the person wants bridges to be opened. */
export interface BridgeWishes {
  readonly listenOnly: boolean;
  readonly trySilentMode: boolean;
  readonly baudRate: number | null;
  readonly bitRate: BitRate | null;
}

/** The wishes that the settings hold. A bit rate that no bridge has counts as none. */
export const wishesOf = ({
  listenOnly,
  trySilentMode,
  fixedBaudRate,
  fixedBitRate,
}: Settings): BridgeWishes => ({
  listenOnly,
  trySilentMode,
  baudRate: fixedBaudRate,
  bitRate: BIT_RATES.find((rate) => rate === fixedBitRate) ?? null,
});

export interface LiveUse {
  readonly wishes: BridgeWishes;
  /** What the port is held for, should another tab ask. */
  readonly title: string;
  readonly onSearch: (report: SearchReport) => void;
  readonly ask$: Observable<BridgeAsk>;
  /** Told of each attempt to open a lost device again. */
  readonly onKeep?: (report: KeepReport) => void;
}

export type LiveAdapter = DeviceAdapter<LiveChoice>;

/** The live sources of this page. */
export interface LiveSources {
  choose(id: LiveId, typed: string | null): Promise<Result<LivePending>>;
  /** A remembered device without the chooser; null where the browser wants it chosen again. */
  recall(device: RememberedDevice): Promise<LivePending | null>;
  open(pending: LivePending, use: LiveUse): Observable<LinkEvent>;
}

export interface LiveMeans {
  /**
   * One adapter a kind for the life of the page, since it remembers ports that are still closing. `typed` is what the
   * person typed: the address of a bridge on the network, or another service of a Bluetooth device.
   */
  readonly load: (id: LiveId, typed: string | null) => Promise<LiveAdapter>;
  readonly memory: DeviceMemory;
  readonly holders: PortHolders;
  readonly scheduler: SchedulerLike;
  readonly nowIso: () => string;
}

/** Chooses, recalls and opens live sources: search, reopening, memory and the other tabs are joined here. */
export function liveSources(means: LiveMeans): LiveSources {
  return {
    choose: async (id, typed) => {
      const adapter = await means.load(id, typed);
      const available = adapter.availability();
      if (!available.usable) return failed(available.problem);
      const chosen = await adapter.choose();
      return chosen.ok ? ok(pendingOf(adapter, id, chosen.value)) : chosen;
    },
    recall: async (device) => {
      if (!isLiveId(device.adapter)) return null;
      const adapter = await means.load(device.adapter, device.key);
      if (!adapter.availability().usable) return null;
      const same = (await adapter.known()).find((choice) => adapter.key(choice) === device.key);
      return same ? pendingOf(adapter, device.adapter, same) : null;
    },
    open: (pending, use) =>
      defer(() =>
        from(Promise.all([means.load(pending.adapter, null), means.memory.recall(pending.key)])),
      ).pipe(
        switchMap(([adapter, known]) => openLive({ adapter, pending, use, means }, known?.found ?? null)),
        heldAs(means.holders, { key: pending.key, title: use.title, nowIso: means.nowIso }),
      ),
  };
}

const pendingOf = (adapter: LiveAdapter, id: LiveId, choice: LiveChoice): LivePending => ({
  kind: 'live',
  adapter: id,
  choice,
  device: choice.device,
  key: adapter.key(choice),
});

interface Opening {
  readonly adapter: LiveAdapter;
  readonly pending: LivePending;
  readonly use: LiveUse;
  readonly means: LiveMeans;
}

/** What worked is tried first the next time, also when the cable wiggled a second ago. */
function openLive(
  { adapter, pending, use, means }: Opening,
  known: FoundBridge | null,
): Observable<LinkEvent> {
  let { choice } = pending;
  const onReport = (report: SearchReport) => {
    use.onSearch(report);
    if (report.stage !== 'found' || !report.found) return;
    const { adapter: id, key, device: name } = pending;
    if (key === null) return;
    const again = plainChoice(pending);
    void means.memory.remember({
      adapter: id,
      key,
      name,
      found: report.found,
      choice: again,
      lastUsedIso: means.nowIso(),
    });
  };
  // One for the device and not one a connection: what was found, and what was sent, outlive a cable that wiggles.
  const bridge$ = openBridge(
    (baudRate) => adapter.open(baudRate === null ? choice : ({ ...choice, baudRate } as LiveChoice)),
    {
      scheduler: means.scheduler,
      speeds: speedsOf(pending),
      remembered: known,
      wanted: use.wishes,
      onReport,
      ask$: use.ask$,
    },
  );
  const returned$ = adapter.returned$(choice).pipe(tap((next) => (choice = next)));
  return keepOpen(() => bridge$, {
    scheduler: means.scheduler,
    returned$,
    onReport: use.onKeep ?? (() => undefined),
  });
}

/** The serial speeds worth trying; a source without a serial speed is opened once. */
function speedsOf({ adapter, choice }: LivePending): readonly number[] | null {
  const wired = adapter === 'web-serial' || adapter === 'web-usb';
  return wired && !('kind' in choice && choice.kind === 'bluetooth') ? SERIAL_SPEEDS : null;
}
