import type { CheckSettings, CollectedVolumeSettings, SpeedWindow } from '../checks/check-settings.ts';
import { problem, type Problem } from '../problems/problem.ts';
import type { Procedure } from './procedure.ts';

/** Settings of checks that have the right form but cannot be measured by, each with the check and why. */
export const settingsMistakes = ({ title, checks }: Procedure): readonly Problem[] =>
  checks.flatMap((check) =>
    whyImpossible(check.settings).map((why) =>
      problem('procedure.settings-impossible', { procedure: title, check: check.title, why }),
    ),
  );

function whyImpossible(settings: CheckSettings): readonly string[] {
  switch (settings.kind) {
    case 'crank delivery':
      return [];
    case 'collected volume':
      return collectedReasons(settings);
    case 'steady pressure':
      return windowReasons(settings.speed);
    case 'pressure build':
      return said(
        settings.toKPa <= settings.fromKPa,
        'the pressure is to rise, but ends no higher than it begins.',
      );
    case 'pressure decay':
      return said(
        settings.toKPa >= settings.fromKPa,
        'the pressure is to fall, but ends no lower than it begins.',
      );
    case 'pressure deviation':
      return [
        ...said(!rising(settings.speedBandsRpm), 'the bands of speed do not rise.'),
        ...said(!rising(settings.loadBandsPercent), 'the bands of load do not rise.'),
        ...said(
          settings.leastSeconds < settings.stretchSeconds,
          'the drive may be shorter than one stretch.',
        ),
      ];
    case 'inspection':
      return said(
        new Set(settings.points.map(({ id }) => id)).size < settings.points.length,
        'two of its points have the same id.',
      );
  }
}

const collectedReasons = ({
  speed,
  startedBy,
  trigger,
  holds,
}: CollectedVolumeSettings): readonly string[] => [
  ...windowReasons(speed),
  ...said(startedBy === 'signal' && trigger === null, 'it is started by a signal, but none is named.'),
  ...said(reversed(holds?.min, holds?.max), 'what must hold has its lowest value above its highest.'),
];

const windowReasons = (speed: SpeedWindow | null): readonly string[] =>
  said(reversed(speed?.minRpm, speed?.maxRpm), 'its lowest speed lies above its highest.');

const reversed = (min: number | null | undefined, max: number | null | undefined): boolean =>
  typeof min === 'number' && typeof max === 'number' && min > max;

const rising = (values: readonly number[]): boolean =>
  values.every((value, place) => place === 0 || value > values[place - 1]!);

const said = (is: boolean, why: string): readonly string[] => (is ? [why] : []);
