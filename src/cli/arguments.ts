import { parseArgs } from 'node:util';

/** What the person asked for on the command line. */
export type Command =
  | { readonly name: 'help' }
  | { readonly name: 'demo-sheet' }
  | ({ readonly name: 'cranks' } & InputOptions)
  | ({
      readonly name: 'grade';
      readonly limits: string;
      readonly volumeMl: number;
      readonly vessel: string | null;
      readonly acceptTime: string | null;
    } & InputOptions);

export interface InputOptions {
  readonly file: string;
  readonly json: boolean;
  readonly intervalMs: number | null;
  readonly speedColumn: string | null;
  readonly timeColumn: string | null;
}

export const USAGE = `meniscus: finds the cranks in a log and grades a crank delivery

  meniscus cranks FILE [--json] [--interval MS] [--speed-column NAME] [--time-column NAME]
  meniscus grade  FILE --limits SHEET.json --volume ML [--vessel ID] [--accept-time REASON] [--json]
  meniscus demo-sheet   an invented limit sheet to start from
  meniscus help

FILE            candump text (log or screen), an SLCAN capture or a CSV speed log, plain or .gz
--interval      for a log without time: milliseconds between two speed readings
--limits        a limit sheet; the first speed chart in it is used
--volume        what was read off the vessel, mL
--vessel        which vessel (default: the smallest graduated cylinder that holds the volume)
--accept-time   let a crank time outside its tolerance stand, with this reason (the volume is scaled: an estimate)
--speed-column  which column of a CSV holds engine speed: its header, or its number from 1
--time-column   which one holds the time
--json          one JSON object on standard output instead of text

Exit code: 0 with a result, 2 for input that cannot be used (the reason and a remedy on standard error).
`;

const OPTIONS = {
  json: { type: 'boolean' },
  interval: { type: 'string' },
  'speed-column': { type: 'string' },
  'time-column': { type: 'string' },
  limits: { type: 'string' },
  volume: { type: 'string' },
  vessel: { type: 'string' },
  'accept-time': { type: 'string' },
  help: { type: 'boolean', short: 'h' },
} as const;

/** Reads the arguments. A mistake gives a sentence that says what is wrong. */
export function parseArguments(argv: readonly string[]): Command | { readonly mistake: string } {
  const parsed = tryParse(argv);
  if ('mistake' in parsed) return parsed;
  const { values, positionals } = parsed;
  const [name, file, ...rest] = positionals;
  if (values.help || name === 'help') return { name: 'help' };
  if (name === 'demo-sheet') return { name };
  if (name !== 'cranks' && name !== 'grade')
    return { mistake: name ? `'${name}' is not a command` : 'no command was given' };
  if (!file) return { mistake: `'${name}' needs a FILE` };
  if (rest.length > 0) return { mistake: `only one FILE can be read, '${rest[0]}' is too many` };
  const input = inputOptions(file, values);
  if ('mistake' in input) return input;
  return name === 'cranks' ? { name, ...input } : gradeCommand(input, values);
}

interface InputValues {
  readonly json?: boolean;
  readonly interval?: string;
  readonly 'speed-column'?: string;
  readonly 'time-column'?: string;
}

function inputOptions(file: string, values: InputValues): InputOptions | { readonly mistake: string } {
  const intervalMs = positive(values.interval);
  if (Number.isNaN(intervalMs))
    return { mistake: `--interval needs milliseconds above 0, not '${values.interval}'` };
  return {
    file,
    json: values.json ?? false,
    intervalMs,
    speedColumn: values['speed-column'] ?? null,
    timeColumn: values['time-column'] ?? null,
  };
}

function gradeCommand(
  input: InputOptions,
  values: { limits?: string; volume?: string; vessel?: string; 'accept-time'?: string },
): Command | { readonly mistake: string } {
  if (!values.limits) return { mistake: `'grade' needs --limits SHEET.json` };
  if (!values.volume) return { mistake: `'grade' needs --volume ML` };
  const volumeMl = Number(values.volume.replace(',', '.'));
  if (!Number.isFinite(volumeMl)) return { mistake: `--volume needs a number of mL, not '${values.volume}'` };
  return {
    name: 'grade',
    ...input,
    limits: values.limits,
    volumeMl,
    vessel: values.vessel ?? null,
    acceptTime: values['accept-time'] ?? null,
  };
}

const positive = (text: string | undefined): number | null => {
  if (text === undefined) return null;
  const value = Number(text.replace(',', '.'));
  return Number.isFinite(value) && value > 0 ? value : NaN;
};

function tryParse(argv: readonly string[]) {
  try {
    return parseArgs({ args: [...argv], options: OPTIONS, allowPositionals: true });
  } catch (error) {
    return { mistake: error instanceof Error ? error.message.split('. ')[0]! : String(error) };
  }
}
