import { readFileSync } from 'node:fs';
import type { Vessel } from '../checks/measurement.ts';
import { VESSELS, vesselById } from '../checks/vessels.ts';
import type { Verdict } from '../grading/verdict.ts';
import { checkFacts } from '../jobs/check-facts.ts';
import { judgeRun, type JudgedRun } from '../jobs/judge-run.ts';
import { startingValues, type RunValues } from '../jobs/run-entries.ts';
import type { LimitSheet } from '../limits/limit-sheet.ts';
import { parseLimitSheet } from '../limits/parse-limit-sheet.ts';
import { problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import type { Command } from './arguments.ts';
import { crankReport, crankText, problemLine, tableOf, type CrankReport } from './crank-report.ts';
import type { ReadLog } from './read-log.ts';

type GradeCommand = Extract<Command, { name: 'grade' }>;
type ProblemLine = ReturnType<typeof problemLine>;

/** What `grade` prints with --json. */
export interface GradeReport extends CrankReport {
  readonly averageSpeedRpm: number | null;
  readonly sampleAverageRpm: number | null;
  readonly crankSeconds: number;
  readonly volumeMl: number;
  readonly vessel: string;
  readonly verdict: Verdict['word'];
  readonly leaning: Verdict['leaning'];
  readonly confidence: number | null;
  readonly marginMl: number | null;
  readonly marginPercent: number | null;
  readonly nearestBoundary: string | null;
  readonly reasons: readonly ProblemLine[];
  readonly sheet: Pick<LimitSheet, 'id' | 'title' | 'revision' | 'invented'>;
  readonly gradingRevision: number;
}

/** Grades the cranks of a log on the first speed chart of a sheet. Fails where the sheet, the vessel or the volume cannot be used. */
export function gradeReport(command: GradeCommand, input: ReadLog): Result<GradeReport> {
  const sheet = readSheet(command.limits);
  if (!sheet.ok) return sheet;
  const chart = sheet.value.limits.find(({ kind }) => kind === 'speed chart');
  if (!chart) return failed(problem('limit.no-speed-chart', { sheet: sheet.value.title }));
  const vessel = vesselFor(command);
  if (!vessel.ok) return vessel;
  const values = valuesOf(command, vessel.value);
  const facts = checkFacts(input.state, tableOf(input), values);
  const judged = judgeRun(sheet.value, chart.check, facts, values);
  if (!judged.ok) return judged;
  const { verdict, volumeProblem } = judged.value;
  if (!verdict) return failed(volumeProblem ?? problem('check.no-volume'));
  return ok({ ...crankReport(command.file, input), ...gradeLines(judged.value, verdict, sheet.value) });
}

function readSheet(file: string): Result<LimitSheet> {
  let json: unknown;
  try {
    json = JSON.parse(readFileSync(file, 'utf8'));
  } catch (error) {
    return failed(
      problem('limit.not-a-sheet', { detail: error instanceof Error ? error.message : String(error) }),
    );
  }
  return parseLimitSheet(json);
}

/** The vessel asked for, or the smallest graduated cylinder that holds the volume. */
function vesselFor({ vessel, volumeMl }: GradeCommand): Result<Vessel> {
  const found = vessel
    ? vesselById(vessel)
    : (VESSELS.find(({ measures, capacityMl }) => measures && capacityMl >= volumeMl) ??
      VESSELS.findLast((each) => each.measures));
  const has = VESSELS.map(({ id }) => id).join(', ');
  return found ? ok(found) : failed(problem('check.unknown-vessel', { vessel: vessel ?? '', has }));
}

function valuesOf({ volumeMl, acceptTime }: GradeCommand, vessel: Vessel): RunValues {
  const typedAt = { atIso: '1970-01-01T00:00:00Z', reason: '' };
  const volume = { kind: 'volume' as const, readingsMl: [volumeMl], typed: String(volumeMl), ...typedAt };
  return {
    ...startingValues(vessel),
    volume,
    volumes: [volume],
    overrides: acceptTime === null ? new Map() : new Map([['check.time-outside', acceptTime]]),
  };
}

function gradeLines(
  { delivery }: JudgedRun,
  verdict: Verdict,
  sheet: LimitSheet,
): Omit<GradeReport, keyof CrankReport> & Pick<CrankReport, 'warnings'> {
  const { volume } = delivery;
  return {
    averageSpeedRpm: finite(delivery.average?.meanRpm),
    sampleAverageRpm: finite(delivery.average?.sampleMeanRpm),
    crankSeconds: delivery.crankSeconds,
    volumeMl: volume?.valueMl ?? NaN,
    vessel: volume?.vessel.name ?? '',
    verdict: verdict.word,
    leaning: verdict.leaning,
    confidence: verdict.confidence,
    ...marginOf(verdict),
    reasons: verdict.reasons.map(problemLine),
    warnings: verdict.warnings.map(problemLine),
    sheet: { id: sheet.id, title: sheet.title, revision: sheet.revision, invented: sheet.invented },
    gradingRevision: verdict.gradingRevision,
  };
}

const marginOf = ({ nearest }: Verdict) => ({
  marginMl: nearest && nearest.distance,
  marginPercent: nearest && nearest.distancePercent,
  nearestBoundary: nearest && nearest.name,
});

const finite = (value: number | undefined): number | null =>
  value !== undefined && Number.isFinite(value) ? value : null;

const BOUNDARY_WORDS: Readonly<Record<string, string>> = {
  failBelow: 'the fail line',
  passAbove: 'the pass line',
  failAbove: 'the upper fail line',
};

/** What `grade` prints for people: the cranks, then the verdict and what it stands on. */
export function gradeText(report: GradeReport): string {
  const { averageSpeedRpm, crankSeconds, volumeMl, vessel, sheet, marginMl, marginPercent, nearestBoundary } =
    report;
  const sure = report.confidence === null ? '' : `, ${(report.confidence * 100).toFixed(1)} % sure`;
  const leaning = report.verdict === 'too close to call' ? `, leaning to ${report.leaning}` : '';
  const margin =
    marginMl === null || marginPercent === null
      ? []
      : [
          `${Math.abs(marginMl).toFixed(1)} mL (${Math.abs(marginPercent).toFixed(1)} %) ${marginMl < 0 ? 'below' : 'above'} ${BOUNDARY_WORDS[nearestBoundary ?? ''] ?? nearestBoundary}`,
        ];
  return [
    crankText({ ...report, warnings: [] }),
    `average ${averageSpeedRpm === null ? '–' : averageSpeedRpm.toFixed(1)} rpm over ${crankSeconds.toFixed(2)} s, ${volumeMl} mL in ${vessel}`,
    `sheet   ${sheet.title}, revision ${sheet.revision}${sheet.invented ? ' (invented numbers)' : ''}`,
    '',
    `VERDICT ${report.verdict}${leaning}${sure}`,
    ...margin.map((line) => `        ${line}`),
    ...report.reasons.map(({ message, remedy }) => `      - ${message} ${remedy}`),
    ...report.warnings.map(({ message, remedy }) => `      ! ${message} ${remedy}`),
    '',
  ].join('\n');
}
