const SUMMARY =
  /^(?:average|avg|mean|median|min|minimum|max|maximum|total|sum|count|range|std|stdev|std\.? ?dev|standard deviation|summary|statistics|ø|⌀|mittel|mittelwert|durchschnitt|schnitt|minimalwert|maximalwert|summe|gesamt|anzahl|standardabweichung|moyenne|moy|somme|écart|ecart|nombre|promedio|media|mín|mínimo|minimo|máx|máximo|maximo|suma|end of|ende|eof|fin)(?:$|[\s.:=_()\-/])/i;

/** Whether a cell begins a row of a summary: "Average", "Min:", "Max", "Total", "Ø", in the languages of the headers. */
export const isSummaryLabel = (cell: string): boolean => SUMMARY.test(cell.trim());
