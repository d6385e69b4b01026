/** Texts of the `job.` problems. {names} are filled from the problem's context. */
export const JOB_PROBLEMS = {
  'job.not-concluded': {
    message: 'Job {id} has no conclusion that could be signed.',
    remedy: 'Write the conclusion first, then sign it.',
  },
  'job.not-closed': {
    message: 'Job {id} is open: there is nothing to open again.',
    remedy: 'Go on with it as it stands.',
  },
  'job.no-such-work': {
    message: 'The work that this belongs to is not noted in the job, or was withdrawn.',
    remedy: 'Reload the job and note the work again if it was done.',
  },
  'job.not-a-number': {
    message: 'The {what} "{typed}" are no number.',
    remedy: 'Type digits with a point, in {unit}, for example 12345.6.',
  },
  'job.impossible-number': {
    message: 'The {what} cannot be {typed} {unit}.',
    remedy:
      'Read it again. Meters that count in miles or tenths mislead; more than {most} {unit} is not plausible.',
  },
  'job.vin-length': {
    message: 'The VIN "{vin}" has {length} characters, not 17.',
    remedy:
      'Read it again off the plate. Leave it out if the vehicle has none, or an older one of another length.',
  },
  'job.vin-characters': {
    message: 'The VIN "{vin}" holds a character that no VIN has.',
    remedy: 'Read it again: capital letters and digits, never I, O or Q; 1 and 0 are meant.',
  },
  'job.vin-check-digit': {
    message: 'The check digit of the VIN "{vin}" does not fit.',
    remedy:
      'Compare it with the plate. A vehicle made for a market without check digits may have a right VIN that does not fit.',
  },
  'job.vin-is-serial': {
    message: 'VIN and engine serial number are both "{vin}".',
    remedy: 'Type the VIN off the vehicle plate and the serial number off the engine plate.',
  },
  'job.serial-is-vin': {
    message: 'The engine serial number "{serial}" looks like a VIN.',
    remedy: 'Type it as VIN, and the serial number off the engine plate: it decides which limit sheet holds.',
  },
  'job.in-the-future': {
    message: 'Something in this job is dated {when}, which is still to come.',
    remedy: 'Set the clock of this computer right. What was entered stays as it is.',
  },
  'job.procedure-shipped': {
    message: 'The procedure {id} comes with Meniscus and cannot be changed or taken away.',
    remedy: 'Make a copy of it and change that.',
  },
  'job.procedure-kept': {
    message: 'The procedure {id} is kept here already and reads otherwise.',
    remedy: 'Keep the change as a new revision: jobs may have been done by the one before.',
  },
  'job.not-a-job-file': {
    message: 'This is no job file of Meniscus.',
    remedy:
      'Choose a file that was exported from a job here. Speed logs and limit sheets have their own import.',
  },
  'job.newer-job-file': {
    message: 'This job file was written by a newer Meniscus (form {version}). Nothing was changed.',
    remedy: 'Reload this page to get the newer version, then import it again.',
  },
  'job.file-damaged': {
    message: 'This job file is damaged: {detail}. Nothing was changed.',
    remedy: 'Copy or export it again where it came from.',
  },
  'job.file-too-large': {
    message: 'This job file holds more than {most} MB. Nothing was changed.',
    remedy: 'Export the job again; leave recordings out that do not belong to it.',
  },
  'job.other-content': {
    message: '{what} {id} lies here already with other content. Nothing was changed.',
    remedy: 'One of both was altered outside Meniscus. Ask where the file came from for a new export.',
  },
  'job.import-moved': {
    message: 'What lies here has changed since the file was looked through. Nothing was changed by the file.',
    remedy: 'Open the file again and choose anew.',
  },
} as const;
