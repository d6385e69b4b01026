import type { CheckKind } from '../checks/check-kind.ts';

/** What a marginal result of one kind of check says, and what it does not. */
export interface MarginalMeaning {
  /** What it means, under full load above all. */
  readonly means: string;
  readonly meansNot: string;
  /** What to look for where the vehicle runs on. */
  readonly watchFor: string;
}

/** Common practice, no source: in words that an owner understands too. */
export const MARGINAL_MEANING: Readonly<Record<CheckKind, MarginalMeaning>> = {
  'crank delivery': {
    means:
      'Marginal while cranking means: enough to start and to idle today. Under full load, with hot fuel, the pump may not hold the commanded rail pressure.',
    meansNot:
      'It does not prove that a particular part is worn, and it does not say when it will fail: speed, fuel temperature and the supply side move the result too.',
    watchFor: 'Longer cranking before it starts, hot more than cold.',
  },
  'steady pressure': {
    means:
      'A marginal pressure means: just enough at this operating point. Under full load much more fuel flows, and the high-pressure pump may run short of it.',
    meansNot:
      'It does not tell the supply pump from a filter, the suction line or air: each of them gives the same value.',
    watchFor:
      'Loss of power that comes with load and goes when the throttle is eased; filters that clog early.',
  },
  'collected volume': {
    means:
      'A marginal return means: this part loses nearly as much as it may. Under full load the rail pressure is higher and so is the loss, and the pump may not make up for it.',
    meansNot:
      'It does not prove wear: hot or thin fuel returns more, and so does a rail pressure above the asked one.',
    watchFor: 'Hard starting with a hot engine; the same volume measured again at the next service.',
  },
  'pressure build': {
    means:
      'A marginal build means: it starts, but late. For full load it says little by itself: at speed the pump delivers many times as much.',
    meansNot:
      'It does not say where the pressure is lost: weak batteries and a trace of air delay it as well.',
    watchFor: 'Longer cranking from week to week, or after standing overnight.',
  },
  'pressure decay': {
    means:
      'A marginal decay means: something that closes the rail is not quite tight. A sound pump makes up for it while the engine runs; under full load or while cranking hot it may not.',
    meansNot: 'It does not say which valve or injector it is: the return volumes do.',
    watchFor: 'Hard starting soon after a hot engine was switched off.',
  },
  'pressure deviation': {
    means:
      'A marginal drive means: the pressure fell short, though not by too much, on this route. With more load, hotter fuel or a longer hill it may fall further short, and the engine derates.',
    meansNot: 'It does not show on which side the fuel is missing: the checks before it do.',
    watchFor: 'Loss of power on long hills or with a trailer, more so with hot fuel.',
  },
  inspection: {
    means:
      'A marginal inspection means: good enough to go on measuring. Under full load, when most fuel flows, it may be just what is missing.',
    meansNot: 'It does not prove anything by itself: a look is not a measurement.',
    watchFor: 'The same point at the next service, sooner than planned.',
  },
};
