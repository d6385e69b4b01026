// `meniscus -- cranks` on a 60 MB candump log against a script with python3-can and pandas, as whole processes in turn.
// The log is the start of truck A repeated with shifted times. Skips with a message where data or packages are absent.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';

const ROUNDS = 5;
const LOG_BYTES = 60e6;
const TARGET_RATIO = 8;
const PYTHON = '/usr/bin/python3';
const root = fileURLToPath(new URL('../..', import.meta.url));
const recording = join(root, '../shared/data/j1939/truck-a-key-on-start-idle.log.gz');
const script = join(dirname(fileURLToPath(import.meta.url)), 'cranks_with_python_can.py');

const missing = whatIsMissing();
if (missing) console.log(`cranks-command: skipped, ${missing}`);
else compare();

function whatIsMissing() {
  if (!existsSync(recording)) return `${recording} is not there`;
  if (!existsSync(PYTHON)) return `${PYTHON} is not there`;
  const found = spawnSync(PYTHON, ['-c', 'import can, pandas']);
  return found.status === 0 ? null : 'python3-can or python3-pandas is not installed';
}

function compare() {
  const folder = mkdtempSync(join(tmpdir(), 'meniscus-bench-'));
  try {
    const { file, copies } = writeLog(folder);
    const ours = () => run('npm', ['run', '--silent', 'meniscus', '--', 'cranks', file, '--json']);
    const theirs = () => run(PYTHON, [script, file]);
    ours(); // the first call bundles the sources
    const times = { ours: [], theirs: [] };
    let last;
    for (let round = 0; round < ROUNDS; round++) {
      const [a, b] = [ours(), theirs()];
      times.ours.push(a.seconds);
      times.theirs.push(b.seconds);
      last = [a.result, b.result];
    }
    checkAgreement(last[0].cranks, last[1].cranks, copies);
    report(statSync(file).size, copies, median(times.ours), median(times.theirs));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Repeats the recording, each copy a second after the one before, until the log is big enough. */
function writeLog(folder) {
  const lines = gunzipSync(readFileSync(recording)).toString('latin1').trimEnd().split('\n');
  const parsed = lines.map((line) => [
    Number(line.slice(1, line.indexOf(')'))),
    line.slice(line.indexOf(')')),
  ]);
  const spanSeconds = parsed.at(-1)[0] - parsed[0][0] + 1;
  const parts = [];
  let bytes = 0;
  let copies = 0;
  for (; bytes < LOG_BYTES; copies++) {
    const shift = copies * spanSeconds;
    const part = parsed.map(([seconds, rest]) => `(${(seconds + shift).toFixed(6)}${rest}\n`).join('');
    parts.push(part);
    bytes += part.length;
  }
  const file = join(folder, 'truck-a-repeated.log');
  writeFileSync(file, parts.join(''), 'latin1');
  return { file, copies };
}

function run(command, args) {
  const from = process.hrtime.bigint();
  const { status, stdout, stderr } = spawnSync(command, args, {
    cwd: root,
    encoding: 'utf8',
    maxBuffer: 1 << 26,
  });
  const seconds = Number(process.hrtime.bigint() - from) / 1e9;
  if (status !== 0) throw new Error(`${command} ended with ${status}: ${stderr}`);
  return { seconds, result: JSON.parse(stdout) };
}

/** Both must find the same work: as many cranks as copies, plain means within 1 rpm. */
function checkAgreement(ours, theirs, copies) {
  if (ours.length !== copies || theirs.length !== copies)
    throw new Error(`${copies} starts in the log, but ${ours.length} and ${theirs.length} were found`);
  ours.forEach((crank, place) => {
    const apart = Math.abs(crank.sampleMeanRpm - theirs[place].sampleMeanRpm);
    if (apart > 1) throw new Error(`crank ${place + 1}: the plain means are ${apart} rpm apart`);
  });
}

function report(bytes, copies, ours, theirs) {
  const ratio = theirs / ours;
  console.log(`machine: ${cpus().length} x ${cpus()[0]?.model.trim()}, Node ${process.version}`);
  console.log(`date: ${new Date().toISOString()}, load ${loadavg()[0].toFixed(1)}`);
  console.log(`log: ${(bytes / 1e6).toFixed(1)} MB, ${copies} starts, median of ${ROUNDS} whole processes\n`);
  console.log('| command | seconds |\n| --- | --- |');
  console.log(`| npm run --silent meniscus -- cranks FILE --json | ${ours.toFixed(2)} |`);
  console.log(`| python3-can, struct, pandas | ${theirs.toFixed(2)} |`);
  console.log(`| ratio (target ${TARGET_RATIO} or more) | ${ratio.toFixed(1)} |`);
  if (ratio < TARGET_RATIO) process.exitCode = 1;
}

function median(values) {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];
}
