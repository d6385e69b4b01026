/** What can go wrong with case sets, cases and results of training. */
export const TRAINING_PROBLEMS = {
  'training.not-a-set': {
    message: 'This file is no case set: {detail}.',
    remedy:
      'Open a file that was saved with “Save the set” on the training page, or correct that place in it.',
  },
  'training.range-backwards': {
    message: 'In the case set "{set}" the least is above the most: {what}.',
    remedy: 'Swap the two numbers in the file and open it again.',
  },
  'training.defect-twice': {
    message: 'The case set "{set}" names the defect "{defect}" twice.',
    remedy: 'Keep one of the two; give it a larger weight if it is to come more often.',
  },
  'training.no-general-complaint': {
    message:
      'In the case set "{set}" every complaint fits some defects only, so a draw could be left without one.',
    remedy: 'Add a complaint with an empty "fits": one that any driver could say.',
  },
  'training.no-second-defect': {
    message:
      'The case set "{set}" asks for two defects, but no other of its defects lies at another part than "{defect}".',
    remedy: 'Add a defect at another part, or ask for one defect only.',
  },
  'training.words-tell': {
    message: 'The case set "{set}" gives the defect away: "{words}" says "{found}".',
    remedy: 'Write what the driver notices, not what is wrong.',
  },
  'training.set-kept': {
    message: 'A case set with the id {id} lies here already, and it is another one.',
    remedy: 'Give the set in the file an id of its own; cases of the one that lies here stay as they are.',
  },
  'training.set-missing': {
    message: 'This case was drawn from the case set {id}, which is not in this browser.',
    remedy: 'Open the set’s file on the training page; it must be the very same set.',
  },
  'training.set-changed': {
    message: 'The case set {id} in this browser is not the one from which this case was drawn.',
    remedy: 'Work the case where it was begun, or bring the set in its old wording under its own id.',
  },
  'training.not-a-case': {
    message: 'The job’s engine "{id}" is no training case.',
    remedy: 'Begin a new case on the training page.',
  },
  'training.not-a-seed': {
    message: '"{typed}" is no number of a case.',
    remedy: 'Type a whole number from 0 to 4,294,967,295, or let one be drawn.',
  },
  'training.not-results': {
    message: 'This file holds no training results: {detail}.',
    remedy:
      'Open a JSON file that was saved with “Save as JSON” on the training page. A CSV file is for a spreadsheet only.',
  },
} as const;
