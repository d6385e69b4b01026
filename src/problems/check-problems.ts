import { VALUE_PROBLEMS } from './value-problems.ts';

/** Texts of the `check.` problems. {names} are filled from the problem's context. */
export const CHECK_PROBLEMS = {
  'check.no-cranks': {
    message: 'No crank was found in this data.',
    remedy: 'Check that the log covers the cranking and that engine speed is in it.',
  },
  'check.all-cranks-left-out': {
    message: 'Every crank was left out, so nothing counts.',
    remedy: 'Let at least one crank count, or repeat the run.',
  },
  'check.no-volume': {
    message: 'No volume has been entered.',
    remedy: 'Read the vessel at eye level and type what it shows.',
  },
  'check.volume-not-a-number': {
    message: 'The volume is not a number.',
    remedy: 'Type the reading in digits, for example 212.',
  },
  'check.volume-negative': {
    message: 'A volume of {reading} mL cannot be: it is below zero.',
    remedy: 'Read the vessel again and type what it shows.',
  },
  'check.volume-beyond-vessel': {
    message: '{reading} mL is more than the {vessel} holds ({capacity} mL).',
    remedy:
      'Check the reading and the chosen vessel. If it was emptied and filled again, enter each filling.',
  },
  'check.vessel-unfit': {
    message: 'The vessel "{vessel}" is described in a way that cannot be right.',
    remedy: 'Give its capacity, the step between two marks (above 0, below the capacity) and its tolerance.',
  },
  'check.line-residue': {
    message: 'What may stay in the line ({residue} mL) must be zero or more.',
    remedy: 'Estimate how much more or less fuel may be in the drain line after the run than before it.',
  },
  'check.no-time': {
    message: 'The limit holds for {target} s of collecting, but no time was measured.',
    remedy: 'Time the collecting with the clock on the screen, or type the time from a stopwatch.',
  },
  'check.time-outside': {
    message: 'The time was {seconds} s; the limit asks for {target} s ({from} to {to} s).',
    remedy:
      'Repeat with the right time. If that cannot be done, the volume scaled to {target} s can stand as an estimate, with a reason.',
  },
  'check.crank-cut': {
    message: 'The data of crank {number} is cut off, so it lasted longer than it shows.',
    remedy:
      'Start recording before the key is turned and stop it afterwards, then repeat. Or set the edge by hand, with a reason.',
  },
  'check.crank-data-lost': {
    message: 'The data stopped during crank {number}, so its true length is not known.',
    remedy: 'Check the connection and repeat. Or set the edge by hand, with a reason.',
  },
  'check.engine-started': {
    message:
      'The engine started during crank {number}; from then on the pump turned faster than the chart is made for.',
    remedy: 'Keep the engine from starting as its maker describes, empty the vessel and repeat.',
  },
  'check.coverage-low': {
    message: 'Speed readings are missing in crank {number}: {percent} % of it is covered.',
    remedy:
      'Look for a loose connection or a slow logger. The average may be off; repeat if the verdict is close.',
  },
  'check.coverage-too-low': {
    message: 'Speed is known for only {percent} % of crank {number}, too little for an average.',
    remedy: 'Check the connection or log more often, then repeat.',
  },
  'check.no-speed-in-crank': {
    message: 'There is no speed reading in crank {number}.',
    remedy: 'Check its edges, or leave it out with a reason.',
  },
  'check.crank-count': {
    message: '{found} cranks count; the check asks for {asked}.',
    remedy:
      'Each crank loses some delivery to filling the rail. Repeat with the number asked for if the verdict is close.',
  },
  'check.crank-long': {
    message: 'One crank lasted {seconds} s; the check asks for cranks of {asked} s.',
    remedy: 'Let the starter cool, and keep to the length asked for.',
  },
  'check.crank-left-out': {
    message: 'Crank {number} was left out ({why}).',
    remedy: 'Make sure that what it delivered is not in the vessel.',
  },
  'check.left-out-without-reason': {
    message: 'Crank {number} was left out without a reason.',
    remedy: 'Say why it does not count, or let it count.',
  },
  'check.edges-set': {
    message: 'The edges of crank {number} were set by hand ({why}).',
    remedy: 'The found edges are kept beside them in the crank table.',
  },
  'check.edges-without-reason': {
    message: 'The edges of crank {number} were set by hand without a reason.',
    remedy: 'Say why, or go back to the found edges.',
  },
  'check.edges-wrong': {
    message: 'The edges of crank {number} leave no time between them.',
    remedy: 'Set its end after its start, or go back to the found edges.',
  },
  'check.condition-outside': {
    message: 'The {condition} was {value}; the limit holds for {allowed}.',
    remedy: 'Bring it into that range and repeat.',
  },
  'check.condition-unknown': {
    message: 'The {condition} was not measured; the limit holds for {allowed}.',
    remedy: 'Measure it another way and enter it.',
  },
  'check.overridden': {
    message: 'Set aside by the person who graded: {what} Their reason: {why}',
    remedy: 'Say so to whoever decides on this verdict.',
  },
  'check.override-without-reason': {
    message: 'This was set aside without a reason: {what}',
    remedy: 'Give the reason. It is printed on the report.',
  },
  'check.scaled-estimate': {
    message: 'Graded on an estimate: {measured} mL in {seconds} s, scaled to {estimate} mL in {target} s.',
    remedy: 'Repeat with the right time before money is spent on this verdict.',
  },
  'check.beaker': {
    message: 'The volume was read on a {vessel}. Its marks are approximate.',
    remedy: 'Pour it into a graduated cylinder and enter that reading.',
  },
  'check.no-speed': {
    message: 'There is no average cranking speed, and the chart depends on it.',
    remedy: 'Check that engine speed is in the data, or type the average speed.',
  },
  'check.speed-doubt-unknown': {
    message: 'There are too few speed readings to say how sure the average is.',
    remedy: 'Log speed at least twice a second and repeat.',
  },
  'check.too-slow-for-chart': {
    message: 'Cranking too slow for this chart ({speed} rpm, chart starts at {starts} rpm).',
    remedy: 'Charge the batteries and repeat.',
  },
  'check.too-fast-for-chart': {
    message: 'Cranking too fast for this chart ({speed} rpm, chart ends at {ends} rpm).',
    remedy: 'Check that the engine was not firing and that the speed reading is right, then repeat.',
  },
  'check.other-quantity': {
    message: 'This limit is for a {limit}, but a {measured} was measured.',
    remedy: 'Choose the limit that belongs to this check.',
  },
  'check.no-value': {
    message: 'The measured value or its uncertainty is not a number.',
    remedy: 'Measure again, or correct the entry.',
  },
  'check.one-run': {
    message: 'There is only one valid run.',
    remedy: 'Repeat it before the result is believed.',
  },
  'check.not-repeatable': {
    message: 'The runs differ by {range}; up to {limit} ({from}) would be repeatable.',
    remedy: 'Look for air, a moving drain line, other cranking speeds or a wrong reading, then repeat.',
  },
  'check.runs-too-close': {
    message: 'Every run is too close to the line to call.',
    remedy: 'See under each run what would settle it.',
  },
  'check.verdicts-disagree': {
    message: 'The runs do not agree: {verdicts}.',
    remedy: 'Find what differed between them, then repeat until they agree.',
  },
  'check.no-vessel': {
    message: 'A volume was typed, but not what it was read off.',
    remedy: 'Choose the vessel: its marks decide how sure the volume is.',
  },
  'check.unknown-vessel': {
    message: 'There is no vessel called {vessel}.',
    remedy: 'Choose one of: {has}.',
  },
  ...VALUE_PROBLEMS,
} as const;
