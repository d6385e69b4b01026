import { parseArgs } from 'node:util';
import { defaultScript, parseScript, scriptMs, SCRIPT_WORDS, type BenchAct } from '../bridge/bench-script.ts';
import { findScenario, JOB_SCENARIOS, SCENARIOS, type Scenario } from '../scenarios.ts';

/** Where the bridge is to be played. */
export type Outlet =
  | { readonly kind: 'stdout' }
  | { readonly kind: 'tcp' | 'ws'; readonly host: string; readonly port: number }
  | { readonly kind: 'path'; readonly path: string; readonly baud: number | null };

/** What the person asked for. */
export type BridgeCommand =
  { readonly name: 'help' } | { readonly name: 'list' } | ({ readonly name: 'play' } & PlayOptions);

export interface PlayOptions {
  readonly scenario: Scenario;
  readonly seed: number;
  /** Bench time over real time; Infinity: as fast as it goes. */
  readonly speed: number;
  readonly to: Outlet;
  readonly script: readonly BenchAct[];
  readonly repeats: boolean;
  /** Every host finds the bench as at the start. */
  readonly fresh: boolean;
  /** Bench time after which it ends; null: not by itself. */
  readonly durationMs: number | null;
  readonly format: 'slcan' | 'candump';
  readonly stamps: boolean;
  readonly busCode: string;
  readonly whenSlow: 'wait' | 'lose';
}

export interface Mistake {
  readonly mistake: string;
}

export const BRIDGE_USAGE = `bridge: plays a bench engine behind an SLCAN bridge to any program

  npm run --silent bridge -- --scenario NAME [--seed N] [--speed X] [--to stdout|tcp:PORT|ws:PORT|PATH]
  npm run --silent bridge -- --list
  npm run --silent bridge -- --help

--scenario NAME   which engine; --list tells them with their stories
--seed N          whole number; the same seed gives the same bytes (default 1)
--speed X         bench time over real time, such as 1, 0.5, 20, or max (default 1)
--to              stdout (default): no host is there, so it plays as a bridge that was opened listen-only, and ends with the script
                  tcp:PORT, ws:PORT: a network bridge; port 0 takes a free one
                  PATH (with a slash): a serial port or pseudo-terminal that exists; what does not exist is made as a
                  pseudo-terminal by socat
--host ADDRESS    where tcp and ws listen (default 127.0.0.1: this machine only)
--baud N          serial speed to set, for a PATH that is a real serial port
--keys SCRIPT     what is done when, in seconds: "on@0 crank@2 on@17 off@20"; words are
${wrapped([...SCRIPT_WORDS.keys()])}
--repeat          begins the script again when it is over, on the same engine
--fresh           every new host finds the bench as at the start (default: it goes on where it was)
--duration S      ends after so many seconds of bench time (stdout: default is the script's length)
--format          slcan (default), or candump for a candump log on stdout
--stamps on|off   whether time stamps are on to begin with (default: on for stdout, else off); a host changes it with Z0, Z1
--bus N           bit rate of the bus that it is plugged into, kbit/s: 125, 250 (default), 500
--noise P         chance of each byte to be lost, and of each to have a bit turned over, 0 to 0.5 (default: the scenario's)
--when-slow       wait (default): the bench waits for a host that reads too slowly; lose: frames are lost and F tells so

The bench's clock begins with the first byte from a host, and stands still while no host is connected. Ctrl-C ends it.
Exit code: 0 when it was played, 2 for input that cannot be used (the reason and a remedy on standard error).
`;

function wrapped(words: readonly string[]): string {
  const lines: string[] = [];
  for (const word of words) {
    const line = lines.at(-1);
    if (line && line.length + word.length < 88) lines[lines.length - 1] = `${line} ${word}`;
    else lines.push(word);
  }
  return lines.map((line) => `                  ${line}`).join('\n');
}

/** The engines there are, with their stories and the script that is played where none is given. */
export const bridgeList = (): string =>
  [...SCENARIOS, ...JOB_SCENARIOS]
    .map((each) => `${each.id}: ${each.title}\n    ${each.story}\n    --keys "${defaultScript(each)}"\n`)
    .join('\n');

const OPTIONS = {
  scenario: { type: 'string' },
  seed: { type: 'string' },
  speed: { type: 'string' },
  to: { type: 'string' },
  host: { type: 'string' },
  baud: { type: 'string' },
  keys: { type: 'string' },
  repeat: { type: 'boolean' },
  fresh: { type: 'boolean' },
  duration: { type: 'string' },
  format: { type: 'string' },
  stamps: { type: 'string' },
  bus: { type: 'string' },
  noise: { type: 'string' },
  'when-slow': { type: 'string' },
  list: { type: 'boolean' },
  help: { type: 'boolean', short: 'h' },
} as const;

type Values = NonNullable<Exclude<ReturnType<typeof tryParse>, Mistake>>;

/** Bit rate codes of S by kbit/s. */
const BUS_CODES: Readonly<Record<string, string>> = { '125': '4', '250': '5', '500': '6' };

/** Reads the arguments. A mistake gives a sentence that says what is wrong and what to write instead. */
export function parseBridgeArguments(argv: readonly string[]): BridgeCommand | Mistake {
  const values = tryParse(argv);
  if ('mistake' in values) return values;
  if (values.help) return { name: 'help' };
  if (values.list) return { name: 'list' };
  const scenario = scenarioOf(values);
  if ('mistake' in scenario) return scenario;
  const to = outletOf(values);
  if ('mistake' in to) return to;
  const script = parseScript(values.keys ?? defaultScript(scenario));
  if ('mistake' in script) return { mistake: `--keys: ${script.mistake}` };
  const mistake = wrongChoice(values, to) ?? wrongNumber(values);
  if (mistake !== null) return { mistake };
  return { name: 'play', scenario, to, script, ...optionsOf(values, to, script) };
}

function optionsOf(values: Values, to: Outlet, script: readonly BenchAct[]) {
  const alone = to.kind === 'stdout';
  const repeats = values.repeat === true;
  const whole = alone && !repeats ? scriptMs(script) : null;
  return {
    seed: Number(values.seed ?? 1),
    speed: values.speed === 'max' ? Infinity : Number(values.speed ?? 1),
    repeats,
    fresh: values.fresh === true,
    durationMs: values.duration === undefined ? whole : Number(values.duration) * 1000,
    format: values.format === 'candump' ? 'candump' : 'slcan',
    stamps: values.stamps === undefined ? alone : values.stamps === 'on',
    busCode: BUS_CODES[values.bus ?? '250']!,
    whenSlow: values['when-slow'] === 'lose' ? 'lose' : 'wait',
  } as const;
}

function scenarioOf({ scenario, noise }: Values): Scenario | Mistake {
  const known = [...SCENARIOS, ...JOB_SCENARIOS].map(({ id }) => id).join(', ');
  if (scenario === undefined)
    return { mistake: `no scenario was given; add --scenario with one of ${known}` };
  const found = findScenario(scenario);
  if (!found) return { mistake: `there is no scenario '${scenario}'; use one of ${known}` };
  const chance = Number(noise);
  return noise === undefined ? found : { ...found, noise: { corruptPerByte: chance, dropPerByte: chance } };
}

function outletOf({ to = 'stdout', host = '127.0.0.1', baud }: Values): Outlet | Mistake {
  if (to === 'stdout') return { kind: 'stdout' };
  const [, kind, port] = /^(tcp|ws):(\d{1,5})$/.exec(to) ?? [];
  if (kind === 'tcp' || kind === 'ws')
    return Number(port) <= 65_535
      ? { kind, host, port: Number(port) }
      : { mistake: `port ${port} is too high; use 0 to 65535` };
  if (!to.includes('/'))
    return {
      mistake: `'${to}' is no place to play to; use stdout, tcp:PORT, ws:PORT, or a path with a slash such as ./bridge`,
    };
  return { kind: 'path', path: to, baud: baud === undefined ? null : Number(baud) };
}

function wrongChoice(values: Values, to: Outlet): string | null {
  const choices = [
    ['format', ['slcan', 'candump']],
    ['stamps', ['on', 'off']],
    ['bus', Object.keys(BUS_CODES)],
    ['when-slow', ['wait', 'lose']],
  ] as const;
  for (const [name, allowed] of choices) {
    const value = values[name];
    if (value !== undefined && !allowed.includes(value as never))
      return `--${name} cannot be '${value}'; use ${allowed.join(' or ')}`;
  }
  if (values.format !== 'candump') return null;
  if (to.kind !== 'stdout') return 'a host speaks SLCAN; use --format candump with --to stdout only';
  if (values.noise !== undefined)
    return 'candump text comes without the serial line; leave --noise or --format candump out';
  return values.stamps === undefined ? null : 'candump lines always have their time; leave --stamps out';
}

function wrongNumber(values: Values): string | null {
  const { seed, speed, duration, noise, baud } = values;
  const is = (text: string | undefined, fits: (value: number) => boolean): boolean =>
    text === undefined || (text.trim() !== '' && fits(Number(text)));
  if (!is(seed, (value) => Number.isSafeInteger(value))) return `--seed needs a whole number, not '${seed}'`;
  if (speed !== 'max' && !is(speed, (value) => value > 0 && Number.isFinite(value)))
    return `--speed needs a number above 0 or max, not '${speed}'`;
  if (!is(duration, (value) => value > 0 && Number.isFinite(value)))
    return `--duration needs seconds above 0, not '${duration}'`;
  if (!is(noise, (value) => value >= 0 && value <= 0.5))
    return `--noise needs a chance from 0 to 0.5, not '${noise}'`;
  return is(baud, (value) => Number.isSafeInteger(value) && value > 0)
    ? null
    : `--baud needs a serial speed such as 115200, not '${baud}'`;
}

function tryParse(argv: readonly string[]) {
  try {
    return parseArgs({ args: [...argv], options: OPTIONS, allowPositionals: false }).values;
  } catch (error) {
    const reason = error instanceof Error ? error.message.split('. ')[0]! : String(error);
    return { mistake: `${reason}; --help tells the options` };
  }
}
