/** Texts of the `storage.` problems. {names} are filled from the problem's context. */
export const STORAGE_PROBLEMS = {
  'storage.unavailable': {
    message: 'This browser does not let Meniscus keep anything ({detail}).',
    remedy:
      'Leave private browsing, or allow storage for this page. You can go on, but nothing will be kept.',
  },
  'storage.newer-version': {
    message:
      'What is kept here was written by a newer Meniscus. It was not changed; this page cannot read it.',
    remedy: 'Reload this page to get the newer version. A run made now, before that, is not kept.',
  },
  'storage.upgrade-failed': {
    message: 'What is kept here could not be brought to the new form ({detail}). It stands as it was.',
    remedy: 'Reload the page. If it happens again, export what you need with the version before.',
  },
  'storage.blocked': {
    message: 'Another tab with an older Meniscus holds what is kept here.',
    remedy: 'Finish the run there, close that tab, and this page goes on by itself.',
  },
  'storage.blocking': {
    message: 'A newer Meniscus in another tab is waiting for this one.',
    remedy: 'Finish the run here, then reload or close this tab.',
  },
  'storage.terminated': {
    message: 'The browser cut the connection to what is kept here.',
    remedy: 'Reload the page. What was saved until then is kept.',
  },
  'storage.full': {
    message: 'There is no room left to keep more.',
    remedy:
      'Free disk space, or delete recordings that are no longer needed. What was saved until now is kept.',
  },
  'storage.closed': {
    message: 'Nothing can be kept now: the store was closed.',
    remedy: 'Reload the page.',
  },
  'storage.failed': {
    message: 'The browser could not read or write what is kept ({detail}).',
    remedy: 'Try again. If it stays so, reload the page; what was saved until now is kept.',
  },
  'storage.damaged': {
    message: '{what} {id} is damaged and cannot be read ({detail}).',
    remedy: 'The others are not touched. Delete it if it is not needed.',
  },
  'storage.newer-document': {
    message: '{what} {id} was written by a newer Meniscus.',
    remedy: 'Reload this page to get the newer version. Nothing was changed.',
  },
  'storage.not-found': {
    message: '{what} {id} is not kept here.',
    remedy: 'It may have been deleted, or made in another browser or on another computer.',
  },
  'storage.exists': {
    message: '{what} {id} is kept here already.',
    remedy: 'Start a new one: what is kept is not written over.',
  },
  'storage.recording-closed': {
    message: 'Recording {id} is closed and never changes again.',
    remedy: 'Start a new recording.',
  },
  'storage.recording-cut': {
    message: 'Recording {id} was not closed: the page ended while it ran. It is whole up to {untilMs} ms.',
    remedy: 'Use what is there, or record again if the end is missing.',
  },
  'storage.chunk-missing': {
    message: 'A piece of recording {id} is missing or damaged here.',
    remedy: 'Cranks that touch this place do not count. Record again if it matters.',
  },
  'storage.not-saved': {
    message: 'The last {bytes} bytes of the recording could not be saved.',
    remedy: 'Free disk space and record again. What was saved until then is kept.',
  },
  'storage.entries-dropped': {
    message: '{what} {id} has entries that this change would lose.',
    remedy: 'Reload the page: another tab may have added to it. Entries are only ever added.',
  },
  'storage.job-fixed': {
    message: 'The {what} of job {id} was fixed when it was started and cannot be changed.',
    remedy: 'Start a new job with the right one.',
  },
  'storage.job-signed': {
    message: 'Job {id} is signed and read only. Nothing was changed.',
    remedy: 'Open it again with a reason, as a new revision, before anything is added.',
  },
  'storage.run-fixed': {
    message: 'The {what} of run {id} was fixed when it was started and cannot be changed.',
    remedy: 'Start a new run with the right one.',
  },
  'storage.verdict-fixed': {
    message: 'The verdict of run {id} stands as it was graded.',
    remedy: 'A new verdict needs a new entry: a corrected volume, a crank left out, or a note that says why.',
  },
  'storage.unknown-code': {
    message: 'Something was noted here with a reason that this version does not know ({code}).',
    remedy: 'Open it with the version that made it.',
  },
} as const;
