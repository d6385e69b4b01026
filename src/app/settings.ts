import { BehaviorSubject, type Observable } from 'rxjs';
import { z } from 'zod';
import type { Database } from '../storage/database.ts';

const ID = 'settings';

/** An instrument as kept; contract in ui/gauge-reading.ts. */
const StoredInstrument = z.object({
  id: z.string().min(1),
  name: z.string().min(1),
  kind: z.enum(['dial', 'display']),
  unit: z.enum(['kPa', 'bar', 'psi', 'MPa', 'inHg', 's']),
  fullScale: z.number().positive(),
  percent: z.number().nonnegative(),
  digits: z.number().nonnegative(),
  step: z.number().positive(),
});

/** What a person sets once for this browser. Every field has a default, so an older document still opens. */
export const Settings = z.object({
  formatVersion: z.literal(1).default(1),
  pressureUnit: z.enum(['bar', 'MPa', 'psi']).default('bar'),
  supplyUnit: z.enum(['kPa', 'bar', 'psi']).default('kPa'),
  appearance: z.enum(['system', 'light', 'dark']).default('system'),
  sounds: z.boolean().default(true),
  /** Off only by the person's own switch: the bridge then acknowledges frames on the engine bus. */
  listenOnly: z.boolean().default(true),
  /** Also open bridges whose silent mode is `M1` and then `O`. */
  trySilentMode: z.boolean().default(false),
  /** Null: found by listening. */
  fixedBaudRate: z.number().int().positive().nullable().default(null),
  fixedBitRate: z.number().int().positive().nullable().default(null),
  /** Who last read or confirmed a limit sheet here; offered the next time. */
  readerName: z.string().default(''),
  /** Instruments that were typed once: gauges and stopwatches of this workshop. */
  instruments: z.array(StoredInstrument).default([]),
});
export type Settings = z.infer<typeof Settings>;

export const DEFAULT_SETTINGS: Settings = Settings.parse({});

/** The settings of this browser: the last state at once, every change kept. Works, unkept, without a database. */
export class SettingsStore {
  readonly #state: BehaviorSubject<Settings>;
  readonly #database: Database | null;
  readonly state$: Observable<Settings>;

  constructor(database: Database | null, initial: Settings) {
    this.#database = database;
    this.#state = new BehaviorSubject(initial);
    this.state$ = this.#state.asObservable();
  }

  get value(): Settings {
    return this.#state.value;
  }

  /** Takes a change over and keeps it. A failure to keep it changes nothing on screen: it holds until the page is left. */
  async change(part: Partial<Settings>): Promise<void> {
    const next = { ...this.#state.value, ...part };
    this.#state.next(next);
    await this.#database?.write(['settings'], async (writer) => {
      await writer.put('settings', { id: ID, ...next });
      return { ok: true, value: undefined };
    });
  }
}

/** Reads the kept settings. What is missing or damaged falls back to its default. */
export async function loadSettings(database: Database): Promise<Settings> {
  const stored = await database.read(['settings'], async (reader) => ({
    ok: true,
    value: await reader.get('settings', ID),
  }));
  const parsed = Settings.safeParse(stored.ok ? (stored.value ?? {}) : {});
  return parsed.success ? parsed.data : DEFAULT_SETTINGS;
}
