/** Texts of the `photo.` problems. {names} are filled from the problem's context. */
export const PHOTO_PROBLEMS = {
  'photo.file-too-large': {
    message: 'The file “{name}” has {megabytes} MB; photographs up to {limit} MB can be opened.',
    remedy: 'Take the photograph with fewer megapixels, or cut it down to the vessel. Nothing was changed.',
  },
  'photo.not-a-photo': {
    message: 'The file “{name}” is not a photograph that can be opened here.',
    remedy: 'Choose a JPEG, PNG or WebP picture, or take the photograph anew. Nothing was changed.',
  },
  'photo.heic': {
    message: 'The photograph “{name}” is in the HEIF form, which this browser does not open.',
    remedy: 'Send it from the phone as JPEG, or set the phone’s camera to JPEG and take it anew.',
  },
  'photo.broken': {
    message: 'The photograph “{name}” is damaged, cut short or too large to be opened.',
    remedy: 'Copy the file again, or take the photograph once more. Nothing was changed.',
  },
  'photo.too-small': {
    message: 'The photograph has only {width} by {height} pixels, too few to read anything from.',
    remedy: 'Go nearer and take it again, or use the original instead of a thumbnail.',
  },
  'photo.work-failed': {
    message: 'The browser could not make the photograph ready.',
    remedy: 'Close other pages to free memory, or take the photograph with fewer megapixels, and try again.',
  },
  'photo.too-large-to-keep': {
    message: 'The photograph {id} has {megabytes} MB; up to {limit} MB are kept.',
    remedy: 'Make the picture smaller and add it again. Nothing was changed.',
  },
  'photo.unfit': {
    message: 'The photograph {id} is not what it says it is ({detail}).',
    remedy: 'Add it again from its first source. It was not kept, and nothing else was changed.',
  },
  'photo.kept': {
    message: 'Another photograph is already kept under the name {id}.',
    remedy: 'What is kept stays as it is. Add the photograph under another name.',
  },
  'photo.changed': {
    message: 'The photograph {id} is no longer as it was when it was kept.',
    remedy: 'It is not evidence any more: take it from an archived job file, or read the vessel again.',
  },
  'photo.no-uncertainty': {
    message: 'The reading off the photograph came without a usable uncertainty.',
    remedy: 'Mark the graduations and the liquid line on the photograph again.',
  },
} as const;
