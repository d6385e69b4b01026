import { describe, expect, test } from 'vitest';
import { LogPlan } from '../../src/logs/log-plan.ts';
import { bytesOf, readText, speedOf } from './log-bytes.ts';
import { LOGS_BY_SEPARATOR_AND_CLOCK } from './people-logs-separators-and-clocks.ts';
import { LOGS_BY_DATE_AND_HEADER } from './people-logs-dates-and-headers.ts';
import { LOGS_BY_NUMBER_AND_ENCODING } from './people-logs-numbers-and-encodings.ts';

const LOGS = [...LOGS_BY_SEPARATOR_AND_CLOCK, ...LOGS_BY_DATE_AND_HEADER, ...LOGS_BY_NUMBER_AND_ENCODING];

describe('logs as people have them', () => {
  test.each(LOGS)('$name', ({ text, encoding, answers, speed }) => {
    const { plan, log } = readText(bytesOf(text, encoding), answers);
    expect(speedOf(log)).toEqual(speed);
    expect(LogPlan.parse(JSON.parse(JSON.stringify(plan)))).toEqual(plan);
  });

  test('there are at least forty of them', () => {
    expect(LOGS.length).toBeGreaterThanOrEqual(40);
  });
});
