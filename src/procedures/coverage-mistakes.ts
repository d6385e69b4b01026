import { problem, type Problem } from '../problems/problem.ts';
import { ADVICE_WORDS, type Procedure, type ProcedureCheck } from './procedure.ts';
import { STATION_IDS, STATIONS } from './station.ts';

/** What a procedure leaves out: dangers, stations that nobody speaks for, causes that nothing leads to, and sides in the wrong order. */
export const coverageMistakes = (procedure: Procedure): readonly Problem[] => [
  ...withoutCautions(procedure),
  ...unspokenStations(procedure),
  ...clearsWhatItDoesNotSpeakFor(procedure),
  ...unnamedCauses(procedure),
  ...lowBehindHigh(procedure),
];

const withoutCautions = ({ title, checks }: Procedure): readonly Problem[] =>
  checks
    .filter(({ cautions }) => cautions.length === 0)
    .map((check) => problem('procedure.no-cautions', { procedure: title, check: check.title }));

const unspokenStations = ({ title, checks }: Procedure): readonly Problem[] =>
  STATION_IDS.filter((station) => !checks.some(({ stations }) => stations.includes(station))).map((station) =>
    problem('procedure.station-unspoken', { procedure: title, station: STATIONS[station].name }),
  );

const clearsWhatItDoesNotSpeakFor = ({ title, checks }: Procedure): readonly Problem[] =>
  checks.flatMap((check) =>
    check.clears
      .filter((station) => !check.stations.includes(station))
      .map((station) =>
        problem('procedure.clears-unspoken', {
          procedure: title,
          check: check.title,
          station: STATIONS[station].name,
        }),
      ),
  );

function unnamedCauses({ title, checks, causes }: Procedure): readonly Problem[] {
  const named = new Set(checks.flatMap(namedBy));
  return causes
    .filter(({ id }) => !named.has(id))
    .map((cause) => problem('procedure.cause-unnamed', { procedure: title, cause: cause.text }));
}

const namedBy = ({ advice, settings }: ProcedureCheck): readonly (string | null)[] => [
  ...ADVICE_WORDS.flatMap((word) => advice[word].causes),
  ...(settings.kind === 'inspection' ? settings.points.map(({ cause }) => cause) : []),
];

/** A check of the low side alone belongs before every check of the high side alone. */
function lowBehindHigh({ title, checks }: Procedure): readonly Problem[] {
  const onlyOn = ({ stations }: ProcedureCheck, side: 'low' | 'high') =>
    stations.length > 0 && stations.every((station) => STATIONS[station].side === side);
  const firstHigh = checks.findIndex((check) => onlyOn(check, 'high'));
  if (firstHigh < 0) return [];
  return checks
    .slice(firstHigh)
    .filter((check) => onlyOn(check, 'low'))
    .map((check) =>
      problem('procedure.low-behind-high', {
        procedure: title,
        check: check.title,
        high: checks[firstHigh]!.title,
      }),
    );
}
