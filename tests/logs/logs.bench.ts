import Papa from 'papaparse';
import { bench, describe } from 'vitest';
import { planSpeedLog } from '../../src/logs/plan-import.ts';
import { readSpeedLog } from '../../src/logs/read-log.ts';
import { bytesOf } from './log-bytes.ts';

/** 5 MB of clock time, speed, rail pressure and battery voltage. */
function bigLog(): string {
  const lines = ['Time;Engine speed (rpm);Rail pressure (bar);Battery (V)'];
  for (let i = 0, size = 0; size < 5e6; i++) {
    const clock = new Date(i * 100).toISOString().slice(11, 23).replace('.', ',');
    const line = `${clock};${140 + (i % 13)},5;${300 + (i % 7)},25;${10 + (i % 3)},1`;
    lines.push(line);
    size += line.length + 1;
  }
  return lines.join('\n');
}

const text = bigLog();
const bytes = bytesOf(text);

describe('5 MB speed log', () => {
  bench('papaparse alone, text to cells', () => {
    if (Papa.parse(text, { delimiter: ';', newline: '\n' }).data.length < 1000) throw new Error('not parsed');
  }, { iterations: 3, time: 0, warmupIterations: 1, warmupTime: 0 }); // prettier-ignore

  bench('plan alone, bytes to plan', () => {
    if (!planSpeedLog(bytes).ok) throw new Error('not planned');
  }, { iterations: 3, time: 0, warmupIterations: 1, warmupTime: 0 }); // prettier-ignore

  bench('plan and read, bytes to readings', () => {
    const plan = planSpeedLog(bytes);
    if (!plan.ok || !readSpeedLog(bytes, plan.value).ok) throw new Error('not read');
  }, { iterations: 3, time: 0, warmupIterations: 1, warmupTime: 0 }); // prettier-ignore
});
