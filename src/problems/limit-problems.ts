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
  'limit.confirm-again': {
    message:
      'The numbers of "{sheet}" were last confirmed on {confirmedOn}, {days} days before the run. That is longer than {allowed} days.',
    remedy:
      'Compare them with current service information before you take the verdict as final, then enter name and date.',
  },
  'limit.printed-number': {
    message: 'The printed number "{typed}" cannot be read: {why}.',
    remedy: 'Type it with a point for the decimals and without separators between thousands.',
  },
  'limit.printed-unit': {
    message: 'At {place} the printed unit {unit} is none of {quantity}.',
    remedy: 'Choose the unit that the numbers were printed in.',
  },
  'limit.printed-differs': {
    message: 'At {place} the printed number {printed} is {converted}, but the sheet holds {kept}.',
    remedy: 'Type the printed number again; the other one is worked out from it.',
  },
  'limit.printed-points': {
    message: 'At {place} there are {printed} printed points for {kept} points of the curve.',
    remedy: 'Give each point of the curve its printed numbers, or give none.',
  },
  'limit.prefix-twice': {
    message: 'At {place} the serial number {serial} begins with the prefix {prefix} once more.',
    remedy: 'With a prefix, enter only what follows it.',
  },
  'limit.replaces-itself': {
    message: 'The revision {id} says that it replaces itself.',
    remedy: 'Name the revision that it replaces, or none.',
  },
  'limit.no-serials': {
    message: '"{sheet}" has no serial range, so it holds for no engine.',
    remedy: 'Add the serial numbers that it holds for.',
  },
  'limit.ranges-overlap': {
    message: 'Two serial ranges of "{sheet}" overlap: {one} and {other}. Both hold {serial}.',
    remedy: 'Compare both with the source; one may be mistyped.',
  },
  'limit.serial-gap': {
    message: 'No sheet of the family {family} holds between {after} and {before}, for {check}.',
    remedy: 'If engines with those numbers exist, add a range or a sheet for them.',
  },
  'limit.sheets-overlap': {
    message:
      '"{one}" and "{other}" of the family {family} both hold for serial number {serial}, and both have limits for {check}.',
    remedy:
      'Correct the ranges. If one is a later revision of the other, enter it as a revision, so that it replaces it.',
  },
  'limit.revision-kept': {
    message: 'Revision {revision} of "{sheet}" is kept here already, with other numbers.',
    remedy:
      'Compare the two. If the new numbers hold, bring them as a new revision; the kept one stays as it is.',
  },
  'limit.revision-used': {
    message: 'A run was graded on revision {revision} of "{sheet}", so it cannot be changed any more.',
    remedy: 'Make a new revision of it.',
  },
  'limit.id-twice': {
    message: 'The file holds two revisions with the id {id}.',
    remedy: 'Give each revision an id of its own, or leave one out.',
  },
  'limit.not-a-speed-chart': {
    message: 'The limit for {check} in the sheet {sheet} is not a speed chart.',
    remedy: 'Choose a sheet whose limit for this check is a chart of volume over cranking speed.',
  },
  'limit.no-sheet': {
    message: 'No limit sheet was chosen for this run, so {check} cannot be graded.',
    remedy:
      'Choose a sheet for this engine, or enter its limits under "Limit sheets". The measurement is kept.',
  },
  'limit.no-speed-chart': {
    message: 'The sheet {sheet} holds no chart of volume over cranking speed.',
    remedy: 'Choose a sheet with one, or add it.',
  },
} as const;
