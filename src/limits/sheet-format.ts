type Document = Readonly<Record<string, unknown>>;

/** The format that is written. Older ones are brought to it when they are read. */
export const SHEET_FORMAT = 2;

/** Steps n to n + 1. Each old format keeps a golden file in tests/limits. */
const STEPS: readonly ((sheet: Document) => Document)[] = [
  // Format 1 knew no revisions of one sheet: each stands for itself. An empty end of a range meant an open one.
  (sheet) => ({
    ...sheet,
    sheetId: sheet['id'],
    replaces: null,
    serialRanges: openEnds(sheet['serialRanges']),
  }),
];

/**
 * A sheet of an older format as one of the present format. Whatever else it is given comes back unchanged, for the schema to say what
 * is wrong with it.
 */
export function toCurrentFormat(json: unknown): unknown {
  if (typeof json !== 'object' || json === null || Array.isArray(json)) return json;
  const sheet = json as Document;
  const version = sheet['formatVersion'];
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) return json;
  return STEPS.slice(version - 1).reduce(
    (current, step, index) => ({ ...step(current), formatVersion: version + index + 1 }),
    sheet,
  );
}

function openEnds(ranges: unknown): unknown {
  if (!Array.isArray(ranges)) return ranges;
  return ranges.map((range: unknown) => {
    if (typeof range !== 'object' || range === null) return range;
    return Object.fromEntries(
      Object.entries(range).map(([end, value]: [string, unknown]) => [end, value === '' ? null : value]),
    );
  });
}
