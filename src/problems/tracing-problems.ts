/** Texts of the `tracing.` problems. {names} are filled from the problem's context. */
export const TRACING_PROBLEMS = {
  'tracing.corners-unusable': {
    message: 'The four corners do not make a frame.',
    remedy:
      'Put them on the corners of the chart in the order top left, top right, bottom right, bottom left, seen as the chart is read.',
  },
  'tracing.too-few-marks': {
    message: 'A scale needs at least two marks; there are {marks} so far.',
    remedy: 'Click on another printed number of the scale and type it.',
  },
  'tracing.marks-together': {
    message: 'The marks lie less than {px} pixels apart, too close to fix a scale.',
    remedy: 'Choose marks near the two ends of the scale, or use a larger picture.',
  },
  'tracing.marks-same-value': {
    message: 'All marks carry the same number.',
    remedy: 'Type the number that is printed at each mark.',
  },
  'tracing.marks-out-of-order': {
    message: 'The numbers of the marks do not rise from mark to mark.',
    remedy: 'Check each mark against the graduation that it lies on.',
  },
  'tracing.log-needs-positive': {
    message: 'A logarithmic scale has no zero and nothing below it.',
    remedy: 'Choose marks with numbers above zero, or make the scale linear.',
  },
  'tracing.outside-the-marks': {
    message: 'The liquid line lies outside the marks ({least} to {most} mL). Nothing is read beyond them.',
    remedy: 'Mark a graduation below the line and one above it.',
  },
  'tracing.no-line-there': {
    message: 'Nothing at that place stands out from the paper.',
    remedy: 'Click right on the line, in a stretch where nothing crosses it, or click its points by hand.',
  },
  'tracing.line-too-short': {
    message: 'What lies there could be followed over {columns} pixels only.',
    remedy: 'Click the points of the line by hand.',
  },
  'tracing.no-liquid-line': {
    message: 'The liquid line is not marked yet.',
    remedy: 'Choose “Liquid line” and click on the lowest point of its curve.',
  },
  'tracing.curve-missing': {
    message: 'The boundary “{curve}” has too few points ({points}); it needs at least two.',
    remedy: 'Choose that boundary and click along its line.',
  },
  'tracing.not-a-picture': {
    message: 'The file “{name}” is not a picture that can be opened here.',
    remedy: 'Save or photograph it as PNG, JPEG or WebP. A page of a PDF: take a screenshot of it.',
  },
  'tracing.picture-broken': {
    message: 'The picture “{name}” is damaged or cut short.',
    remedy: 'Copy the file again, or take the photograph once more.',
  },
  'tracing.picture-too-large': {
    message: 'The picture has {megabytes} MB; up to {limit} MB can be opened.',
    remedy: 'Cut it down to the chart or the vessel, or save it as JPEG.',
  },
  'tracing.picture-too-small': {
    message: 'The picture has only {width} by {height} pixels, too few to read numbers from.',
    remedy: 'Go nearer and photograph it again, or use the original instead of a thumbnail.',
  },
  'tracing.picture-work-failed': {
    message: 'The browser could not work on the picture.',
    remedy: 'Close other pages to free memory, then try again with a smaller picture.',
  },
} as const;
