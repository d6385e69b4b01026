import { describe, expect, test } from 'vitest';
import { factsOf, nextSearch, type SearchView } from '../../src/app/search-view.ts';
import { problem } from '../../src/problems/problem.ts';
import type { FoundBridge, SearchReport } from '../../src/wire/found-bridge.ts';

const report = (stage: SearchReport['stage'], part: Partial<SearchReport> = {}): SearchReport => ({
  stage,
  baudRate: null,
  bitRate: null,
  found: null,
  ...part,
});
const FOUND: FoundBridge = {
  baudRate: 500_000,
  protocol: 'slcan',
  bitRate: 250_000,
  version: 'V1013',
  listenOnly: 'confirmed',
};

const after = (...reports: readonly SearchReport[]): SearchView =>
  reports.reduce<SearchView | null>((view, each, at) => nextSearch(view, each, 1000 + at), null)!;

const lines = ({ steps }: SearchView) => steps.map(({ text, state }) => `${state}: ${text}`);

describe('the search on the screen', () => {
  test('names each serial speed that is tried, and marks it answered when the next one begins', () => {
    const view = after(
      report('opening', { baudRate: 115_200 }),
      report('serial speed', { baudRate: 1_000_000 }),
      report('serial speed', { baudRate: 500_000 }),
    );
    expect(lines(view)).toEqual([
      'no: Listening at 115,200 baud',
      'no: Listening at 1,000,000 baud',
      'now: Listening at 500,000 baud',
    ]);
    expect(view.outcome).toBeNull();
    expect(view.sinceMs).toBe(1000);
  });

  test('the speed that led to the bus was right; the bit rate that led to another was not', () => {
    const view = after(
      report('opening', { baudRate: 500_000 }),
      report('bit rate', { bitRate: 250_000 }),
      report('bit rate', { bitRate: 500_000 }),
      report('found', { found: FOUND }),
    );
    expect(lines(view)).toEqual([
      'yes: Listening at 500,000 baud',
      'no: Listening to the bus at 250 kbit/s',
      'yes: Listening to the bus at 500 kbit/s',
    ]);
    expect(view.outcome).toMatchObject({ tone: 'found' });
    expect(view.found).toEqual(FOUND);
  });

  test('a source without a serial speed says so in other words', () => {
    expect(lines(after(report('opening')))).toEqual(['now: Opening the bridge and listening']);
  });

  test('a silent bus asks for the key and is no failure', () => {
    const view = after(report('opening'), report('silent', { found: { ...FOUND, bitRate: null } }));
    expect(view.outcome).toMatchObject({ tone: 'silent' });
    expect(view.outcome?.advice).toMatch(/key on/);
  });

  test('what stops the search is told with its remedy', () => {
    const refused = problem('wire.listen-only-refused', { version: 'V9' });
    const view = after(report('opening'), report('refused', { problem: refused }));
    expect(view.outcome?.tone).toBe('nothing');
    expect(view.outcome?.headline).toMatch(/listen-only/);
    expect(view.outcome?.advice).not.toBe('');
  });

  test('what was found with a doubt says the doubt', () => {
    const doubt = problem('wire.listen-only-unconfirmed', { version: 'none' });
    expect(after(report('found', { found: FOUND, problem: doubt })).outcome?.advice).toMatch(
      /did not confirm/,
    );
  });

  test('a new opening after a loss begins afresh', () => {
    const view = after(report('opening'), report('found', { found: FOUND }), report('opening'));
    expect(view.steps).toHaveLength(1);
    expect([view.outcome, view.sinceMs]).toEqual([null, 1002]);
  });

  test('a long search keeps the last steps only', () => {
    const many = Array.from({ length: 30 }, (_, at) => report('serial speed', { baudRate: 1000 + at }));
    expect(after(...many).steps).toHaveLength(5);
  });
});

describe('what was found, in words', () => {
  test.each<[Partial<FoundBridge>, readonly string[]]>([
    [{}, ['SLCAN frames', '500,000 baud', '250 kbit/s', 'listen-only']],
    [{ baudRate: null }, ['SLCAN frames', '250 kbit/s', 'listen-only']],
    [{ listenOnly: 'off' }, ['SLCAN frames', '500,000 baud', '250 kbit/s', 'opened normally']],
    [
      { listenOnly: 'unconfirmed' },
      ['SLCAN frames', '500,000 baud', '250 kbit/s', 'listen-only, not confirmed'],
    ],
    [
      { protocol: 'reading-lines', bitRate: null, listenOnly: 'notApplicable' },
      ['reading lines', '500,000 baud'],
    ],
    [{ protocol: 'candump', bitRate: null, listenOnly: 'notApplicable', baudRate: null }, ['candump text']],
    [{ protocol: null, bitRate: null, listenOnly: 'notApplicable' }, ['500,000 baud']],
  ])('%o', (part, words) => expect(factsOf({ ...FOUND, ...part })).toEqual(words));
  test('nothing', () => expect(factsOf(null)).toEqual([]));
});
