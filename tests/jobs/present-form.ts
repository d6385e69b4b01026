/** A sheet of format 1 as format 2 has it, written out by hand: it stands for itself and replaces nothing. */
const presentSheet = <S extends { readonly id: string }>(sheet: S) => ({
  ...sheet,
  formatVersion: 2 as const,
  sheetId: sheet.id,
  replaces: null,
});

/** A golden run with the copies of its sheets in the present form; nothing else of it may change when it is read. */
export const presentForm = <
  R extends { readonly sheet: { readonly id: string }; readonly entries: readonly object[] },
>(
  run: R,
) => ({
  ...run,
  formatVersion: 3 as const,
  jobId: null,
  kind: 'crank delivery' as const,
  guide: null,
  valueSummary: null,
  sheet: presentSheet(run.sheet),
  entries: run.entries.map((entry) =>
    'sheet' in entry ? { ...entry, sheet: presentSheet(entry.sheet as { id: string }) } : entry,
  ),
});
