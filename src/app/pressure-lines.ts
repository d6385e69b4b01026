import { pressureFinding } from '../j1939/low-rail-pressure.ts';
import type { RunValues } from '../jobs/run-entries.ts';

type Codes = NonNullable<RunValues['codes']>;

/** The trouble codes of a run that are about this check: low rail or supply pressure, active now, in plain words, each once. */
export function pressureLines({ active }: Pick<Codes, 'active'>): readonly string[] {
  const lines = active.flatMap(({ codes }) =>
    codes.flatMap((code) => {
      const found = pressureFinding(code);
      const about = found?.finding === 'low rail' || found?.finding === 'low supply';
      return found && about ? [`Trouble code SPN ${code.spn}, FMI ${code.fmi}: ${found.words}`] : [];
    }),
  );
  return [...new Set(lines)];
}
