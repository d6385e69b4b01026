/** Equal as stored. Both went through the same schema, so their keys stand in the same order. NaN equals NaN. */
export function storedEqual(a: unknown, b: unknown): boolean {
  return a === b || plain(a) === plain(b);
}

/** Whether the list goes on from `before`: all of it, unchanged, in its place. */
export const goesOn = (before: readonly unknown[], after: readonly unknown[]): boolean =>
  storedEqual(before, after.slice(0, before.length));

/** Bytes are compared by their values; a number that is none keeps its name (JSON would make null of it). */
const plain = (document: unknown): string =>
  JSON.stringify(document, (_key, value: unknown) => {
    if (typeof value === 'number' && !Number.isFinite(value)) return `${value}`;
    return value;
  });
