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
} as const;
