import { rmSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { meniscus, newFolder, twoHertzCsv, write } from './run-command.ts';

const folder = newFolder();
afterAll(() => rmSync(folder, { recursive: true }));

const csv = write(folder, 'delivery.csv', twoHertzCsv([30, 30]));
const sheet = write(folder, 'sheet.json', meniscus('demo-sheet').stdout);
const grade = (...args: string[]) => meniscus('grade', csv, '--limits', sheet, ...args);

describe('meniscus grade', () => {
  it('gives the verdict and its distance from the boundary, as worked by hand', () => {
    const { status, stdout, stderr } = grade('--volume', '260', '--json');
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    const report = JSON.parse(stdout);
    // Two lines a second over two 15 s cranks: some 60 values (common practice, no source); their plain mean is 160.
    expect(report.cranks.map(({ samples }: { samples: number }) => samples)).toEqual([30, 30]);
    expect(report.sampleAverageRpm).toBeCloseTo(160, 9);
    // Each 15.25 s: (36.09375 + 160 * 14.5 + 38.59375) / 15.25 = 157.0287 rpm, as in cranks.test.ts.
    expect(report.crankSeconds).toBeCloseTo(30.5, 6);
    expect(report.averageSpeedRpm).toBeCloseTo(157.0287, 3);
    // passAbove of the sheet there: 195 + (274 - 195) * 17.0287 / 40 = 228.6317 mL.
    expect(report).toMatchObject({ verdict: 'pass', nearestBoundary: expect.any(String), reasons: [] });
    expect(report.marginMl).toBeCloseTo(260 - 228.6317, 3);
    expect(report.marginPercent).toBeCloseTo((100 * (260 - 228.6317)) / 228.6317, 2);
    expect(report.sheet).toMatchObject({ id: 'demonstration', invented: true });
    expect(report.warnings.map(({ code }: { code: string }) => code)).toContain('limit.invented');
    expect(report.gradingRevision).toBeGreaterThan(0);
  });

  it('tells people the verdict, and that the numbers are invented', () => {
    const { status, stdout } = grade('--volume', '120');
    expect(status).toBe(0);
    expect(stdout).toMatch(/VERDICT fail/);
    expect(stdout).toMatch(/invented numbers/);
    expect(stdout).toMatch(/mL \(.* %\) below/);
  });

  it('gives "not valid" with its reasons where the cranking was too short; a given reason lets it stand', () => {
    const short = write(folder, 'short.csv', twoHertzCsv([20, 20]));
    const graded = meniscus('grade', short, '--limits', sheet, '--volume', '150', '--json');
    expect(graded.status).toBe(0);
    const report = JSON.parse(graded.stdout);
    expect(report).toMatchObject({ verdict: 'not valid', confidence: null });
    expect(report.reasons.map(({ code }: { code: string }) => code)).toContain('check.time-outside');
    const stands = meniscus(
      'grade',
      short,
      '--limits',
      sheet,
      '--volume',
      '150',
      '--accept-time',
      'weak battery',
      '--json',
    );
    expect(JSON.parse(stands.stdout).reasons.map(({ code }: { code: string }) => code)).not.toContain(
      'check.time-outside',
    );
  });
});

describe('meniscus grade, with input that cannot be used', () => {
  it.each([
    ['a sheet that is not there', ['grade', csv, '--limits', `${folder}/absent.json`, '--volume', '9'], /./],
    ['a sheet that is no JSON', ['grade', csv, '--limits', csv, '--volume', '9'], /./],
    [
      'a sheet with a mistake',
      ['grade', csv, '--limits', write(folder, 'bad.json', '{"formatVersion":1}'), '--volume', '9'],
      /missing/,
    ],
    ['no limits', ['grade', csv, '--volume', '9'], /--limits/],
    ['no volume', ['grade', csv, '--limits', sheet], /--volume/],
    ['a volume that is no number', ['grade', csv, '--limits', sheet, '--volume', 'full'], /'full'/],
    [
      'a volume beyond the vessel',
      ['grade', csv, '--limits', sheet, '--volume', '300', '--vessel', 'cylinder-250'],
      /250/,
    ],
    [
      'an unknown vessel',
      ['grade', csv, '--limits', sheet, '--volume', '9', '--vessel', 'bucket'],
      /bucket.*cylinder-250/,
    ],
  ])('%s: one line of reason and remedy, nothing on standard output, exit code 2', (_, args, reason) => {
    const { status, stdout, stderr } = meniscus(...args);
    expect(stderr).toMatch(reason);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
  });

  it('help lists the commands', () => {
    expect(meniscus('help')).toMatchObject({ status: 0, stdout: expect.stringContaining('meniscus grade') });
  });
});
