/** What can be wrong with a procedure that was edited or brought. */
export const PROCEDURE_PROBLEMS = {
  'procedure.unknown-check': {
    message: 'In the procedure "{procedure}", {place} names the check {id}, which it does not have.',
    remedy: 'Correct the name, or add the check.',
  },
  'procedure.unknown-cause': {
    message: 'In the procedure "{procedure}", {place} names the cause {id}, which it does not have.',
    remedy: 'Correct the name, or add the cause.',
  },
  'procedure.id-twice': {
    message: 'The procedure "{procedure}" has two entries with the id {id}.',
    remedy: 'Give each an id of its own.',
  },
  'procedure.circle': {
    message: 'In the procedure "{procedure}" the check "{check}" waits for itself, by way of what it needs.',
    remedy: 'Take one of the needs out.',
  },
  'procedure.order': {
    message: 'In the procedure "{procedure}" the check "{check}" stands before "{needed}", which it needs.',
    remedy: 'Move it behind, or take the need out.',
  },
  'procedure.no-cautions': {
    message: 'In the procedure "{procedure}" the check "{check}" names no danger.',
    remedy: 'Write down what can hurt somebody in it: no check on the fuel path is without danger.',
  },
  'procedure.station-unspoken': {
    message: 'No check of the procedure "{procedure}" speaks for this station: {station}.',
    remedy: 'Add the station to the check that tells of it, or add a check.',
  },
  'procedure.clears-unspoken': {
    message:
      'In the procedure "{procedure}" the check "{check}" clears a station that it does not speak for: {station}.',
    remedy: 'Add the station to those that it speaks for, or do not let it clear that station.',
  },
  'procedure.cause-unnamed': {
    message: 'No advice of the procedure "{procedure}" leads to this cause: {cause}.',
    remedy: 'Name the cause in the advice of the check that shows it, or take it out.',
  },
  'procedure.low-behind-high': {
    message:
      'In the procedure "{procedure}" the check "{check}" of the low-pressure side stands behind "{high}" of the high-pressure side.',
    remedy: 'Move it forward: the high side cannot be judged on a weak supply.',
  },
  'procedure.settings-impossible': {
    message: 'In the procedure "{procedure}" the settings of the check "{check}" cannot be: {why}',
    remedy: 'Correct the settings of the check.',
  },
} as const;
