import { rmSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { afterAll, describe, expect, it } from 'vitest';
import { eec1Data, eec1Line } from '../pipeline/fixtures/eec1-log.ts';
import { meniscus, newFolder, twoHertzCsv, write } from './run-command.ts';

const folder = newFolder();
afterAll(() => rmSync(folder, { recursive: true }));

/**
 * Worked by hand: at 0 rpm at 1.5 s and 160 rpm at 2.0 s the line passes 50 rpm at 1.65625 s; from 160 rpm at 6.5 s to 0 at 7.0 s it
 * passes 30 rpm at 6.90625 s. Area 36.09375 + 720 + 38.59375 = 794.6875 rpm s over 5.25 s = 151.3690 rpm (measurement.md 2 and 3).
 */
const BY_HAND = {
  startSeconds: 1.6563,
  endSeconds: 6.9063,
  durationSeconds: 5.25,
  meanSpeedRpm: 151.369,
  sampleMeanRpm: 160,
  minRpm: 160,
  maxRpm: 160,
  samples: 10,
  endedBy: 'released',
  cutAtStart: false,
};
const csv = write(folder, 'crank.csv', twoHertzCsv([10]));
const rpmAt = (row: number) => (row >= 4 && row < 14 ? 160 : 0);
const candumpText = Array.from({ length: 20 }, (_, row) => eec1Line(row * 500, rpmAt(row))).join('');

describe('meniscus cranks', () => {
  it('gives a speed log as JSON, with the values worked by hand', () => {
    const { status, stdout, stderr } = meniscus('cranks', csv, '--json');
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    const report = JSON.parse(stdout);
    expect(report).toMatchObject({ file: csv, format: 'speed log', malformed: 0, malformedByReason: {} });
    expect(report.signals).toEqual({
      engineSpeed: { origin: null, samples: 20, min: 0, max: 160, unit: 'rpm' },
    });
    expect(report.cranks).toHaveLength(1);
    expect(report.cranks[0]).toMatchObject(BY_HAND);
  });

  it.each([
    ['candump text', candumpText],
    ['gzip', gzipSync(candumpText)],
  ])('gives the same for %s, where a line that is no frame is counted', (name, content) => {
    const file = write(folder, `${name}.log`, content);
    const report = JSON.parse(meniscus('cranks', file, '--json').stdout);
    expect(report).toMatchObject({
      format: 'candump',
      malformed: 0,
      signals: { engineSpeed: { origin: 0, samples: 20 } },
    });
    expect(report.cranks[0]).toMatchObject(BY_HAND);
  });

  it('counts lines that are no frames, by reason', () => {
    const file = write(folder, 'noise.log', candumpText.replace('\n', '\n(1700000000.2) can0 0CF0\n'));
    const report = JSON.parse(meniscus('cranks', file, '--json').stdout);
    expect(report.malformed).toBe(1);
    expect(Object.values(report.malformedByReason)).toEqual([1]);
    expect(report.cranks[0]).toMatchObject(BY_HAND);
  });

  it('shows a short table to people', () => {
    const { status, stdout } = meniscus('cranks', csv);
    expect(status).toBe(0);
    expect(stdout).toMatch(/mean rpm/);
    expect(stdout).toMatch(/^ +1 +1\.66 +6\.91 +5\.25 +151\.4 +160\.0 .* released$/m);
  });

  it('says that there is no crank, which is a result', () => {
    const file = write(folder, 'rest.csv', twoHertzCsv([]).concat('2.0,0\n2.5,0\n3.0,0\n3.5,0\n4.0,0\n'));
    expect(meniscus('cranks', file)).toMatchObject({
      status: 0,
      stdout: expect.stringContaining('No crank was found'),
    });
    expect(JSON.parse(meniscus('cranks', file, '--json').stdout).cranks).toEqual([]);
  });

  it('needs an interval for frames without time, and then gives the plain mean', () => {
    const lines = Array.from(
      { length: 20 },
      (_, row) => `can0 0CF00400 [8] ${eec1Data(rpmAt(row)).match(/../g)!.join(' ')}\n`,
    );
    const file = write(folder, 'untimed.txt', lines.join(''));
    const refused = meniscus('cranks', file);
    expect(refused).toMatchObject({
      status: 2,
      stdout: '',
      stderr: expect.stringMatching(/no time stamps.*interval/),
    });
    const { cranks } = JSON.parse(meniscus('cranks', file, '--interval', '500', '--json').stdout);
    expect(cranks[0]).toMatchObject(BY_HAND);
  });
});

describe('meniscus cranks, with input that cannot be used', () => {
  it.each([
    ['a file that is not there', ['cranks', `${folder}/absent.log`], /absent\.log/],
    ['a folder', ['cranks', folder], /folder/],
    ['an empty file', ['cranks', write(folder, 'empty.log', '')], /empty|nothing/i],
    ['text that is no log', ['cranks', write(folder, 'letter.txt', 'Dear reader,\nthis is no log.\n')], /./],
    ['a column that is not there', ['cranks', csv, '--speed-column', 'Speed 2'], /Speed 2.*Engine Speed/],
    ['an interval of nothing', ['cranks', csv, '--interval', '0'], /--interval/],
    ['no file', ['cranks'], /FILE/],
    ['an unknown command', ['measure', csv], /'measure'/],
    ['an unknown option', ['cranks', csv, '--fast'], /--fast/],
    [
      'damaged gzip',
      ['cranks', write(folder, 'cut.gz', gzipSync('x'.repeat(999)).subarray(0, 20))],
      /cut\.gz/,
    ],
    [
      'a CSV without time',
      ['cranks', write(folder, 'untimed.csv', `rpm\n${'0\n0\n160\n160\n150\n'.repeat(4)}`)],
      /interval/i,
    ],
  ])('%s: one line of reason and remedy, nothing on standard output, exit code 2', (_, args, reason) => {
    const { status, stdout, stderr } = meniscus(...args);
    expect(stderr).toMatch(reason);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
  });

  it('reads a CSV without time once the interval is given', () => {
    const rows = Array.from({ length: 20 }, (_, row) => `${rpmAt(row)}\n`).join('');
    const file = write(folder, 'rpm-only.csv', `rpm\n${rows}`);
    const { cranks } = JSON.parse(meniscus('cranks', file, '--interval', '500', '--json').stdout);
    expect(cranks[0]).toMatchObject(BY_HAND);
  });
});
