import { describe, expect, test } from 'vitest';
import { toLinkEvents } from '../../src/logs/to-link-events.ts';
import { BLOCKING_NEEDS, LOG_NEEDS, LogPlan } from '../../src/logs/log-plan.ts';
import { listColumns } from '../../src/logs/plan-columns.ts';
import { planSpeedLog, type LogAnswers } from '../../src/logs/plan-import.ts';
import { openQuestion, readSpeedLog } from '../../src/logs/read-log.ts';
import { describeProblem } from '../../src/problems/problem.ts';
import { bytesOf, planText, problemOf, readText, speedOf } from './log-bytes.ts';

const cranking = Array.from({ length: 12 }, (_, i) => 140 + (i % 5));
const body = (make: (rpm: number, i: number) => string) => cranking.map(make).join('\n');

interface Asked {
  readonly need: (typeof LOG_NEEDS)[number];
  readonly text: string;
  readonly code: string;
  readonly message: string;
  readonly answers: LogAnswers;
}

/** One realistic log for each thing that a person may be asked, the words of the question, and the answer. */
const ASKED: readonly Asked[] = [
  {
    need: 'interval',
    text: `RPM;Load\n${body((rpm) => `${rpm};20`)}\n`,
    code: 'log.no-time',
    message: 'Found 2 columns: RPM, Load; none holds the time of the readings.',
    answers: { intervalMs: 500 },
  },
  {
    need: 'interval',
    text: body((rpm, i) => `${i + 1};${rpm}`),
    code: 'log.which-time',
    message: 'The column "column 1" may be the time or only count the rows.',
    answers: { timeColumn: 0, timeKind: 'seconds' },
  },
  {
    need: 'interval',
    text: `Date;RPM\n${body((rpm) => `12.03.2024 10:00;${rpm}`)}\n`,
    code: 'log.coarse-time',
    message: 'The column "Date" gives time only to the minute: the readings between are not told apart.',
    answers: { intervalMs: 500 },
  },
  {
    need: 'timeUnit',
    text: `Time;RPM\n${body((rpm, i) => `${i};${rpm}`)}\n`,
    code: 'log.time-unit',
    message: 'The column "Time" looks like time, but its unit is not certain.',
    answers: { timeKind: 'seconds' },
  },
  {
    need: 'speedColumn',
    text: `Time (s);Load;Coolant\n${body((_, i) => `${i / 2};20;${30 + i}`)}\n`,
    code: 'log.no-speed',
    message: 'Found 3 columns: Time (s), Load, Coolant; none looks like engine speed.',
    answers: { signals: { engineSpeed: 2 }, units: { 2: 'rpm' } },
  },
  {
    need: 'speedColumn',
    text: `Time (s);Engine speed;RPM\n${body((rpm, i) => `${i / 2};${rpm};${rpm}`)}\n`,
    code: 'log.which-speed',
    message:
      'Found 3 columns: Time (s), Engine speed, RPM; which of them is engine speed is not certain (Engine speed, RPM).',
    answers: { signals: { engineSpeed: 2 } },
  },
  {
    need: 'speedUnit',
    text: `Time (s);Engine speed\n${body((_, i) => `${i / 2};${(i % 4) + 1}`)}\n`,
    code: 'log.speed-unit',
    message:
      'The column "Engine speed" looks like engine speed, but its values (up to 4) do not read as rpm.',
    answers: { units: { 1: 'rpm' } },
  },
  {
    need: 'pressureUnit',
    text: `Time (s);RPM;Rail pressure\n${body((rpm, i) => `${i / 2};${rpm};300`)}\n`,
    code: 'log.unit',
    message: 'The unit of "Rail pressure" is not stated; its values (up to 300) could be in more than one.',
    answers: { units: { 2: 'bar' } },
  },
  {
    need: 'pressureUnit',
    text: `Time (s);RPM;Supply pressure (psia)\n${body((rpm, i) => `${i / 2};${rpm};80`)}\n`,
    code: 'log.absolute-pressure',
    message:
      '"Supply pressure (psia)" is stated as absolute pressure, which is some 100 kPa above gauge pressure.',
    answers: { units: { 2: 'psi' } },
  },
  {
    need: 'temperatureUnit',
    text: `Time (s);RPM;Fuel temperature\n${body((rpm, i) => `${i / 2};${rpm};40`)}\n`,
    code: 'log.unit',
    message: 'The unit of "Fuel temperature" is not stated; its values (up to 40) could be in more than one.',
    answers: { units: { 2: 'degC' } },
  },
  {
    need: 'voltageUnit',
    text: `Time (s);RPM;Battery\n${body((rpm, i) => `${i / 2};${rpm};100`)}\n`,
    code: 'log.unit',
    message: 'The unit of "Battery" is not stated; its values (up to 100) could be in more than one.',
    answers: { units: { 2: 'mV' } },
  },
  {
    need: 'decimalMark',
    text: `Zeit (ms);Drehzahl\n${body((rpm, i) => `${500 * i};${rpm},250`)}\n`,
    code: 'log.decimal-mark',
    message: 'It is not certain whether the comma in numbers like "140,250" stands before a fraction.',
    answers: { decimalMark: ',' },
  },
  {
    need: 'delimiter',
    text: '146,5\n147,5\n0,0\n148,5\n',
    code: 'log.delimiter',
    message: 'It is not certain whether rows like "146,5" hold one number or several.',
    answers: { delimiter: 'none', intervalMs: 500 },
  },
];

describe('what a person is asked', () => {
  test.each(ASKED)('$need by $code', ({ need, text, code, message, answers }) => {
    const plan = planText(text);
    expect(plan.needs).toContain(need);
    const note = plan.notes.find((found) => found.code === code);
    expect(note && describeProblem(note as Parameters<typeof describeProblem>[0]).message).toBe(message);
    expect(planText(text, answers).needs).not.toContain(need);
  });

  test('is everything in the list of needs', () => {
    expect(new Set(ASKED.map(({ need }) => need))).toEqual(new Set(LOG_NEEDS));
  });

  test.each(ASKED.filter(({ need }) => BLOCKING_NEEDS.includes(need)))(
    '$code stops the reading until it is answered',
    ({ text, code, message, answers }) => {
      expect(problemOf(text)).toMatchObject({ code, message });
      expect(problemOf(text, answers)).toBeNull();
    },
  );

  test('a unit taken from the size of the values is said, and asks nothing', () => {
    const plan = planText(`Time (s);RPM;Battery\n${body((rpm, i) => `${i / 2};${rpm};12`)}\n`);
    expect(plan.needs).toEqual([]);
    expect(plan.notes).toEqual([
      { code: 'log.unit-by-size', context: { column: 'Battery', highest: '12', unit: 'V' } },
    ]);
  });

  test('the speed goes before the time where both are open', () => {
    const plan = planText('Load;Coolant\n20;30\n21;31\n20;30\n');
    expect(openQuestion(plan)?.code).toBe('log.no-speed');
    expect(plan.needs).toEqual(['speedColumn', 'interval']);
  });

  test('a plan without open questions has none', () => {
    expect(openQuestion(planText('Time (s);RPM\n0.0;0\n0.5;146\n'))).toBeNull();
  });
});

describe('answers that do not fit', () => {
  const text = 'Time (s);RPM\n0.0;0\n0.5;146\n1.0;147\n';
  test.each<[LogAnswers, string]>([
    [{ intervalMs: 0 }, 'The answer for the interval does not fit this log: it must be above zero.'],
    [{ intervalMs: -5 }, 'The answer for the interval does not fit this log: it must be above zero.'],
    [{ intervalMs: NaN }, 'The answer for the interval does not fit this log: it must be above zero.'],
    [{ intervalMs: Infinity }, 'The answer for the interval does not fit this log: it must be above zero.'],
    [{ timeColumn: 2 }, 'The answer for a column does not fit this log: there is no column 3, only Time (s), RPM.'],
    [{ signals: { engineSpeed: 9 } }, 'The answer for a column does not fit this log: there is no column 10, only Time (s), RPM.'],
  ])('%o', (answers, message) => {
    expect(problemOf(text, answers)).toMatchObject({ code: 'log.bad-answer', message });
  }); // prettier-ignore

  test('"no column" for a signal is an answer', () => {
    const plan = planText('Time (s);RPM;Battery (V)\n0;0;12\n1;146;11\n2;147;11\n', { signals: { batteryVoltage: null } }); // prettier-ignore
    expect(plan.columns.map(({ signal }) => signal)).toEqual([null, 'engineSpeed', null]);
  });
});

test('decimal commas between commas are refused although some rows have none', () => {
  const text = 'Zeit,Drehzahl\n0,5,146,2\n1,0,147,5\n1,5,148,1\n2,0,149,2\n3,149\n4,150\n';
  expect(problemOf(text)).toEqual({
    code: 'log.decimal-comma-clash',
    message:
      'The header has 2 columns but the rows have up to 4: decimal commas and commas between the columns cannot be told apart.',
    remedy: 'Export the log again with semicolons or tabs between the columns, or with decimal points.',
  });
});

test('one row of values is no log', () => {
  expect(problemOf('Time (s);RPM\n0.5;146\n')).toEqual({
    code: 'log.one-row',
    message: 'The log has only one row of values.',
    remedy: 'An average needs the readings over the whole crank: export all rows of the log.',
  });
});

describe('a plan kept and used again', () => {
  const bytes = bytesOf('Time (s);RPM\n0.0;0\n0.5;146\n1.0;147\n');

  test('gives the same readings after a way through JSON', () => {
    const plan = planSpeedLog(bytes);
    if (!plan.ok) throw new Error('not planned');
    const kept = LogPlan.parse(JSON.parse(JSON.stringify(plan.value)));
    expect(readSpeedLog(bytes, kept)).toEqual(readSpeedLog(bytes, plan.value));
  });

  test('is refused for a file that it does not fit, with what was left out', () => {
    const plan = planText('Date;RPM\n12.03.2024 10:00:00;1\n12.03.2024 10:00:01;2\n');
    const other = readSpeedLog(bytesOf('Date;RPM\nsoon;1\nlater;2\n;3\n'), plan);
    expect(other.ok).toBe(false);
    expect(!other.ok && describeProblem(other.problem)).toEqual({
      message:
        'No row of this file can be read as it was set up: 1 × aboveData, 2 × unreadableTime, 1 × noTime.',
      remedy: 'Check that the file is the one that was set up, or set it up again.',
    });
  });

  test('is refused for a file that ends before its data', () => {
    const plan = planText(`${'note\n'.repeat(9)}Time (s);RPM\n0.0;0\n0.5;146\n`);
    const other = readSpeedLog(bytesOf(''), plan);
    expect(!other.ok && describeProblem(other.problem).message).toMatch(
      /it ends before the first row of data/,
    );
  });

  test('keeps what stands above the data and the first rows for a look', () => {
    const plan = planText('Logger A\nTime (s);RPM\n0.0;0\n0.5;146\n1.0;147\nAverage;97.7\n');
    expect(plan.leftOut).toEqual([
      { line: 1, text: 'Logger A' },
      { line: 6, text: 'Average 97.7' },
    ]);
    expect(plan.preview[0]).toEqual({ line: 3, cells: ['0.0', '0'] });
    expect(plan.columns[1]).toMatchObject({ samples: ['0', '146', '147'], lowest: 0, highest: 147 });
  });
});

describe('the time of a log as read', () => {
  test('is its own where it counts from a zero of its own', () => {
    expect(speedOf(readText('Time (s);RPM\n12.0;0\n12.5;146\n13.0;147\n').log)[0]).toEqual([12_000, 0]);
  });

  test('counts from the first row where it is a clock', () => {
    expect(speedOf(readText('Time;RPM\n10:00:12;0\n10:00:13;146\n10:00:14;147\n').log)[1]).toEqual([
      1000, 146,
    ]);
  });

  test('is in steps of the interval given', () => {
    const { log } = readText('RPM\n0\n146\n147\n', { intervalMs: 250 });
    expect(speedOf(log).map(([at]) => at)).toEqual([0, 250, 500]);
    expect(log.intervalMs).toBe(250);
  });

  test('has breaks on the same scale', () => {
    const { log } = readText('Time;RPM\n10:00:00;1\n10:00:01;2\n10:01:00;3\n10:01:01;4\n');
    expect(log.breaks).toEqual([{ kind: 'pause', line: 4, atMs: 60_000, spanMs: 59_000 }]);
  });

  test('leaves out blank cells of slow columns', () => {
    const { log } = readText('Time (s);RPM;Battery (V)\n0.0;1;12\n0.5;2;\n1.0;3;\n1.5;4;11\n');
    expect([...(log.readings.batteryVoltage?.atMs ?? [])]).toEqual([0, 1500]);
    expect([...(log.readings.engineSpeed?.atMs ?? [])]).toEqual([0, 500, 1000, 1500]);
  });
});

describe('link events', () => {
  const events = (text: string) => [...toLinkEvents(readText(text).log)];

  test('come at one instant in the order of the signals: speed before pressure before voltage', () => {
    const found = events('Time (s);Battery (V);Rail pressure (kPa);RPM\n0.0;12;300;1\n0.5;11;310;2\n');
    const signals = found.map((event) => (event.kind === 'reading' ? event.reading.signal : event.kind));
    expect(signals.slice(0, 3)).toEqual(signals.slice(3));
    expect(signals[0]).toBe('engineSpeed');
    expect(found.map(({ atMs }) => atMs)).toEqual([0, 0, 0, 500, 500, 500]);
  });

  test('say of a cell without data that it has none', () => {
    const [, second] = events('Time (s);RPM\n0.0;1\n0.5;N/A\n1.0;3\n');
    expect(second).toMatchObject({ reading: { value: null, quality: 'notAvailable', atMs: 500 } });
  });

  test('put a gap before the first reading after a step back, and name the line', () => {
    const found = events('Time (s);RPM\n5.0;1\n5.5;2\n6.0;3\n0.0;4\n0.5;5\n');
    expect(found.map(({ kind }) => kind)).toEqual(['reading', 'reading', 'reading', 'gap', 'reading', 'reading']); // prettier-ignore
    const gap = found[3];
    expect(gap?.kind === 'gap' && describeProblem(gap.problem).message).toBe(
      'The time in the log steps back at line 5. The readings after it are taken as a new stretch.',
    );
    expect(gap?.atMs).toBe(found[4]?.atMs);
  });

  test('have no gap at a pause: the readings themselves are far apart', () => {
    const found = events('Time (s);RPM\n0.0;1\n0.5;2\n1.0;3\n90.0;4\n90.5;5\n');
    expect(found.every(({ kind }) => kind === 'reading')).toBe(true);
  });
});

test('columns without header are listed by their place', () => {
  expect(listColumns([{ header: 'Time', index: 0 }, { header: '', index: 1 }])).toBe('Time, (column 2, no header)'); // prettier-ignore
  const many = Array.from({ length: 13 }, (_, index) => ({ header: `c${index}`, index }));
  expect(listColumns(many)).toBe('c0, c1, c2, c3, c4, c5, c6, c7, c8, c9, c10, c11 and 1 more');
});
