/** Texts of the `check.` problems of the checks that are no crank delivery; part of check-problems.ts. */
export const VALUE_PROBLEMS = {
  'check.no-settings': {
    message: 'The run does not say how its check ({kind}) is to be done.',
    remedy: 'Begin the run anew from the procedure.',
  },
  'check.limit-not-a-window': {
    message:
      'The limit of {check} in "{sheet}" is a chart over cranking speed; this check needs a lowest or highest value.',
    remedy: 'Choose a sheet with a lowest or highest value for this check, or correct this one.',
  },
  'check.value-negative': {
    message: '{value} {unit} is below zero, which this check cannot measure.',
    remedy: 'Type what the instrument showed, without a sign.',
  },
  'check.instrument-unknown': {
    message: 'Nothing was said about how good the instrument is, so the value counts as exact.',
    remedy: 'Type the tolerance and the step of its scale.',
  },
  'check.no-signal': {
    message: 'There is no {signal} in the data.',
    remedy: 'Choose a source or a log that has it, or type the value from a gauge.',
  },
  'check.speed-not-known': {
    message: 'Engine speed is not in the data, so it is not known where the engine ran at {window}.',
    remedy: 'Choose the stretch by hand, or log engine speed as well.',
  },
  'check.speed-below-window': {
    message: 'Engine speed is {speed} rpm; the check is done at {window}.',
    remedy: 'Bring the engine up to that speed and hold it.',
  },
  'check.speed-above-window': {
    message: 'Engine speed is {speed} rpm; the check is done at {window}.',
    remedy: 'Bring the engine down to that speed and hold it.',
  },
  'check.not-steady': {
    message: 'Not steady yet: {seconds} s so far; {least} s within {within} kPa are needed.',
    remedy: 'Hold the engine still. If the pressure keeps moving, choose the stretch by hand and say why.',
  },
  'check.step-unknown': {
    message:
      'The {signal} never moved in the log, so how finely it was logged is not known and counts as exact.',
    remedy: 'Look in the log at how many digits it has: the true value may lie half a step off.',
  },
  'check.stretch-chosen': {
    message: 'The stretch was chosen by hand ({why}).',
    remedy: 'Look at it in the trace before the result is believed.',
  },
  'check.stretch-empty': {
    message: 'There are fewer than two values in the stretch that was chosen.',
    remedy: 'Choose a longer stretch, or go back to the one that was found.',
  },
  'check.stretch-not-steady': {
    message:
      'In the chosen stretch of {seconds} s the pressure moves by {range} kPa; steady means {least} s within {within} kPa.',
    remedy: 'Choose a steadier stretch, or repeat the check.',
  },
  'check.stretch-off-speed': {
    message: 'Part of the chosen stretch does not lie at {window}.',
    remedy: 'Choose a stretch in which the engine ran at that speed.',
  },
  'check.at-top-of-range': {
    message: 'The {signal} stands at {top} kPa, the most that the bus can say, so it may be higher.',
    remedy: 'Read it on a gauge and type the value.',
  },
  'check.restriction-negative': {
    message: 'The reading of {pressure} kPa lies above the atmosphere, so it is no restriction.',
    remedy:
      'Check where the sensor or gauge is fitted. If it shows absolute pressure, take its reading from that of the atmosphere and type the difference.',
  },
  'check.restriction-impossible': {
    message: 'A restriction of {value} kPa cannot be: no more than the atmosphere itself can be missing.',
    remedy:
      'If the gauge shows absolute pressure, take its reading from that of the atmosphere (101.3 kPa at sea level) and type the difference.',
  },
  'check.build-starts-above': {
    message: 'The pressure was at {to} kPa or more before each try began.',
    remedy: 'Let it fall, then repeat.',
  },
  'check.build-not-begun': {
    message: 'The pressure never rose through {from} kPa.',
    remedy: 'Check that the data cover the rise.',
  },
  'check.build-not-reached': {
    message: 'In {seconds} s the pressure came to {highest} kPa and did not reach {to} kPa.',
    remedy:
      'Crank for as long as the starter may, then read on: a pressure that does not come up is a result too.',
  },
  'check.build-later-try': {
    message: 'The pressure was reached only in {which}; what came before may have filled the rail already.',
    remedy: 'Let the pressure fall to zero and repeat with one try.',
  },
  'check.decay-not-begun': {
    message: 'The pressure never fell through {from} kPa.',
    remedy:
      'Begin from a higher pressure, record from before the engine is shut off, and turn the key on again once it stands, so that its controller goes on sending.',
  },
  'check.decay-not-ended': {
    message: 'In {seconds} s the pressure fell to {lowest} kPa and has not reached {to} kPa.',
    remedy: 'Go on recording until it has, or until the limit has passed.',
  },
  'check.decay-not-exponential': {
    message: 'The pressure does not fall like an exponential, so one time constant does not describe it.',
    remedy: 'Look at the trace: a valve that opens or closes, or an engine that still turns, bends it.',
  },
  'check.engine-still-turns': {
    message: 'The engine still turned while the pressure fell (up to {speed} rpm).',
    remedy:
      'Begin the decay after the engine has come to rest: choose the stretch by hand, or use a lower pressure.',
  },
  'check.engine-stop-unknown': {
    message:
      'Engine speed is not in the data, so it is not known whether the engine stood while the pressure fell.',
    remedy: 'Make sure that it stood.',
  },
  'check.drive-too-short': {
    message: 'The drive has {seconds} s with both pressures; {least} s are needed.',
    remedy: 'Drive for longer, or log both pressures all the time.',
  },
  'check.commanded-too-low': {
    message: 'The commanded pressure came to {highest} kPa only; {least} kPa are needed to say something.',
    remedy: 'Drive with more load, as up a hill in a high gear.',
  },
  'check.drive-without-speed': {
    message: 'Engine speed is not in the data, so the start of the engine may count as part of the drive.',
    remedy: 'Log engine speed as well, or choose the stretch by hand.',
  },
  'check.drive-without-load': {
    message: 'Engine load is not in the data, so nothing can be said by load.',
    remedy: 'Log engine torque as well.',
  },
  'check.clock-running': {
    message: 'The collection clock still runs.',
    remedy: 'Stop it, or type the time.',
  },
  'check.clock-reversed': {
    message: 'The collection clock was stopped before it was started.',
    remedy: 'Time the collecting again, or type the time.',
  },
  'check.clock-too-long': {
    message: 'A collection of {minutes} min is longer than 30 min: the clock was forgotten.',
    remedy: 'Type the right time, or repeat.',
  },
  'check.hold-unknown': {
    message: 'Whether there was {allowed} ({signal}) during the collection is not known.',
    remedy: 'Log it while collecting, or see that it holds.',
  },
  'check.hold-partly-known': {
    message: 'Whether there was {allowed} ({signal}) is known for only {percent} % of the collection.',
    remedy: 'Look for a loose connection, and log it all the time while collecting.',
  },
  'check.frames-missing': {
    message: 'About {percent} % of the engine speed messages did not arrive.',
    remedy: 'Look at the cable, its plug and the bridge before an odd value is believed.',
  },
  'check.signal-hole': {
    message: 'The {signal} was missing for {seconds} s in a row within what was measured.',
    remedy: 'Look at the trace: what it did meanwhile is not known. Repeat if the verdict is close.',
  },
  'check.not-held': {
    message:
      'The {signal} was not held during the collection: {percent} % of the time it was not {allowed} (worst: {worst}).',
    remedy: 'Repeat and hold it, before the verdict is believed.',
  },
  'check.points-open': {
    message: 'Not looked at yet: {number} of the points. {points}',
    remedy: 'Look at each point and say what you see.',
  },
  'check.point-not-in-order': {
    message: 'Not in order: {point} ({note}).',
    remedy: 'Put it right before going on.',
  },
} as const;
