/** Texts of the `log.` problems. {names} are filled from the problem's context. */
export const LOG_PROBLEMS = {
  'log.empty': {
    message: 'The file {name} is empty.',
    remedy: 'Choose the file that the logger wrote.',
  },
  'log.spreadsheet': {
    message: 'This is a spreadsheet workbook or a zip archive, not a text log.',
    remedy: 'Open it in the spreadsheet, save the sheet with the log as CSV, and choose that file.',
  },
  'log.compressed': {
    message: 'This is a compressed file.',
    remedy: 'Unpack it and choose the log inside.',
  },
  'log.not-text': {
    message: 'This is not a text log: it looks like {what}.',
    remedy: 'Export the log as CSV or text from the program that recorded it, and choose that file.',
  },
  'log.not-a-table': {
    message: 'This is {what}, not a table of values.',
    remedy: 'Export the log as CSV from the program that recorded it, and choose that file.',
  },
  'log.no-rows': {
    message: 'No row of numbers was found. The file has {rows} lines with text; the first is "{first}".',
    remedy: 'Check that the log was recorded, and export it with its values.',
  },
  'log.one-row': {
    message: 'The log has only one row of values.',
    remedy: 'An average needs the readings over the whole crank: export all rows of the log.',
  },
  'log.decimal-comma-clash': {
    message:
      'The header has {headers} columns but the rows have up to {cells}: decimal commas and commas between the columns cannot be told apart.',
    remedy: 'Export the log again with semicolons or tabs between the columns, or with decimal points.',
  },
  'log.no-speed': {
    message: 'Found {count} columns: {columns}; none looks like engine speed.',
    remedy: 'Choose the column that holds it, or export the log with engine speed.',
  },
  'log.which-speed': {
    message: 'Found {count} columns: {columns}; which of them is engine speed is not certain ({candidates}).',
    remedy: 'Choose the column that holds engine speed.',
  },
  'log.speed-by-content': {
    message: '"{column}": Taken as engine speed because of its values only: check it.',
    remedy: 'If another column holds engine speed, choose that one.',
  },
  'log.speed-unit': {
    message:
      'The column "{column}" looks like engine speed, but its values (up to {highest}) do not read as rpm.',
    remedy: 'Say what unit the column is in, or choose another column.',
  },
  'log.no-time': {
    message: 'Found {count} columns: {columns}; none holds the time of the readings.',
    remedy:
      'Give the interval between two rows, choose the column with the time, or export the log with time.',
  },
  'log.which-time': {
    message: 'The column "{column}" may be the time or only count the rows.',
    remedy: 'Say whether it is a time and in which unit, or give the interval between two rows.',
  },
  'log.time-unit': {
    message: 'The column "{column}" looks like time, but its unit is not certain.',
    remedy: 'Say whether it is in seconds, milliseconds or minutes.',
  },
  'log.coarse-time': {
    message: 'The column "{column}" gives time only to the minute: the readings between are not told apart.',
    remedy: 'Give the interval between two rows, or export the log with seconds.',
  },
  'log.unit': {
    message: 'The unit of "{column}" is not stated; its values (up to {highest}) could be in more than one.',
    remedy: 'Say which unit it is in. Until then the column is not read.',
  },
  'log.unit-by-size': {
    message:
      'The unit of "{column}" is not stated; {unit} was taken from the size of its values (up to {highest}).',
    remedy: 'Check that this is so, or choose the unit.',
  },
  'log.absolute-pressure': {
    message: '"{column}" is stated as absolute pressure, which is some 100 kPa above gauge pressure.',
    remedy: 'Export it as gauge pressure, or choose its unit. Until then the column is not read.',
  },
  'log.decimal-mark': {
    message: 'It is not certain whether the comma in numbers like "{sample}" stands before a fraction.',
    remedy: 'Say whether it is a decimal comma or sets off thousands.',
  },
  'log.delimiter': {
    message: 'It is not certain whether rows like "{sample}" hold one number or several.',
    remedy: 'Say what stands between the columns.',
  },
  'log.bad-answer': {
    message: 'The answer for {what} does not fit this log: {detail}.',
    remedy: 'Choose one of the columns and units offered, and an interval above zero.',
  },
  'log.plan-does-not-fit': {
    message: 'No row of this file can be read as it was set up: {detail}.',
    remedy: 'Check that the file is the one that was set up, or set it up again.',
  },
  'log.time-backwards': {
    message:
      'The time in the log steps back at line {line}. The readings after it are taken as a new stretch.',
    remedy: 'Nothing needs to be done, unless the step lies within a crank: then record the crank again.',
  },
  'log.bad-plan': {
    message: 'How this log was read cannot be understood any more.',
    remedy: 'Open the log file again and confirm its columns.',
  },
  'log.is-a-folder': {
    message: '{name} is a folder.',
    remedy: 'Name the log file in it.',
  },
  'log.unreadable': {
    message: '{name} cannot be read: {detail}.',
    remedy: 'Check the name and that the file may be read.',
  },
  'log.no-such-column': {
    message: 'There is no column {asked}; the file has: {has}.',
    remedy: 'Name one of these, or give its number from 1.',
  },
} as const;
