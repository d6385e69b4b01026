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
} as const;
