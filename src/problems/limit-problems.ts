/** Texts of the `limit.` problems. {names} are filled from the problem's context. */
export const LIMIT_PROBLEMS = {
  'limit.not-a-sheet': {
    message: 'This is not a limit sheet: {detail}.',
    remedy: 'Choose a limit sheet file, or check the place named.',
  },
  'limit.newer-format': {
    message: 'This limit sheet was written by a newer version (format {found}; this version reads {known}).',
    remedy: 'Update Meniscus, or export the sheet again in the older format.',
  },
  'limit.bad-entry': {
    message: 'The limit sheet has a mistake at {place}: {detail}.',
    remedy: 'Correct that entry against the paper the numbers were read from, then load the sheet again.',
  },
  'limit.speeds-not-ascending': {
    message:
      'The speeds of the curve at {place} do not rise from point to point ({before} rpm is followed by {after} rpm).',
    remedy: 'Put the points in order of rising speed and give each speed once.',
  },
  'limit.negative-number': {
    message: 'The number {value} at {place} is below zero; {quantity} cannot be.',
    remedy: 'Correct it against the paper the numbers were read from.',
  },
  'limit.min-above-max': {
    message: 'At {place} the lowest allowed value ({min}) is above the highest ({max}).',
    remedy: 'Exchange or correct the two numbers.',
  },
  'limit.no-bound': {
    message: '{place} has neither a lowest nor a highest value, so nothing could be judged by it.',
    remedy: 'Give min, max or both.',
  },
  'limit.curves-cross': {
    message:
      'At {place} the curve {lower} lies {byMl} mL above {upper} near {atRpm} rpm; it must never be the higher one.',
    remedy: 'Check the points near that speed against the chart; two of them may be exchanged.',
  },
  'limit.no-common-speeds': {
    message: 'The curves at {place} share no range of speeds, so no point can be judged by all of them.',
    remedy: 'Trace all curves over the same speeds.',
  },
  'limit.check-twice': {
    message: 'The sheet holds two limits for the check {check}; it is not clear which one counts.',
    remedy: 'Keep the one that holds, or make two sheets.',
  },
  'limit.serials-reversed': {
    message: 'At {place} the serial range begins at {from} but ends before it, at {to}.',
    remedy: 'Exchange or correct the two serial numbers.',
  },
  'limit.confirmed-by-nobody': {
    message: 'The sheet says that it was confirmed on {confirmedOn}, but not by whom.',
    remedy: 'Enter who compared the numbers with their source, or remove the date.',
  },
  'limit.check-not-in-sheet': {
    message: 'The sheet "{sheet}" has no limit for the check {check}. It has: {has}.',
    remedy: 'Choose a sheet with that limit, or add the limit to this one.',
  },
  'limit.invented': {
    message: 'The numbers of "{sheet}" were made up for practice.',
    remedy: 'Never judge a real engine by them. Choose the sheet for its serial number.',
  },
  'limit.not-confirmed': {
    message: 'Nobody has confirmed the numbers of "{sheet}" against their source.',
    remedy: 'Compare them with the engine maker’s current figures, then enter name and date.',
  },
  'limit.serial-not-covered': {
    message: 'Serial number {serial} lies outside the ranges that "{sheet}" holds for.',
    remedy: 'Look up the limits for that serial number.',
  },
  'limit.not-yet-valid': {
    message: '"{sheet}" holds only from {validFrom} on.',
    remedy: 'Use the revision that held on the day of the run.',
  },
  'limit.not-a-speed-chart': {
    message: 'The limit for {check} in the sheet {sheet} is not a speed chart.',
    remedy: 'Choose a sheet whose limit for this check is a chart of volume over cranking speed.',
  },
  'limit.no-speed-chart': {
    message: 'The sheet {sheet} holds no chart of volume over cranking speed.',
    remedy: 'Choose a sheet with one, or add it.',
  },
} as const;
