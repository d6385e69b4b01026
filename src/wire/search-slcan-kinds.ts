import { isClassicVersion } from './slcan-commands.ts';

/** How a kind of firmware opens the bus without acknowledging frames on it. */
export type ListenWay = 'L' | 'M1 then O' | 'none' | 'unknown';

/** A kind of SLCAN firmware, told by its version text. */
interface SlcanKind {
  readonly version: RegExp;
  readonly listen: ListenWay;
}

/**
 * What is known of kinds by what they answer to `V`. Only ever add a row with its source: a wrong one may open a bridge
 * that acknowledges frames on the bus, or send it a letter that means something else.
 */
const KINDS: readonly SlcanKind[] = [
  // The originals' kind, `V` and 4 digits: `L` is listen-only. can-text-formats.md, Part 1, "Commands".
  { version: /^V[0-9A-Fa-f]{4}$/, listen: 'L' },
  // A commit id and the address of the repository: has no `L`; `M1` while closed, then `O`, is silent mode.
  // can-text-formats.md, Quirks, "No `L` at all", key C2; the text is GIT_VERSION and GIT_REMOTE in its source, slcan.c.
  { version: /^\S*[0-9a-f]{7}\S* \S+[:/]\S+$/, listen: 'M1 then O' },
  // A rewritten firmware that answers with named fields set apart by tabs: `L` asks for bus load there, `M` is a mode
  // letter. can-text-formats.md, Quirks, "`L` means bus load report"; the shape of the text is from memory.
  { version: /^\+?\w+: ?[^\t]+\t/, listen: 'none' },
];

/** Whether a line is the version text of a kind in the table. */
export const isKnownVersion = (text: string): boolean => KINDS.some(({ version }) => version.test(text));

/**
 * How to listen without taking part, by the version text (null: the bridge does not tell). `unknown`: `L` may be tried, and
 * is not certain even when it is acknowledged.
 */
export const listenWay = (version: string | null): ListenWay =>
  version === null ? 'unknown' : (KINDS.find((kind) => kind.version.test(version))?.listen ?? 'unknown');

/** Whether the letters beyond the common ones (`F`, `Z1`) mean what the originals say. */
export const knowsOriginalLetters = isClassicVersion;
