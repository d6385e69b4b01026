/** Equal as stored: numbers as numbers (NaN equals NaN), bytes by their values, a field that is undefined as one that is not there. */
export function storedEqual(a: unknown, b: unknown): boolean {
  if (a === b || Object.is(a, b)) return true;
  if (!isObject(a) || !isObject(b)) return false;
  if (Array.isArray(a) || Array.isArray(b)) return Array.isArray(a) && Array.isArray(b) && equalLists(a, b);
  if (ArrayBuffer.isView(a) || ArrayBuffer.isView(b)) return equalViews(a, b);
  return equalObjects(a as Record<string, unknown>, b as Record<string, unknown>);
}

/** Whether the list goes on from `before`: all of it, unchanged, in its place. */
export const goesOn = (before: readonly unknown[], after: readonly unknown[]): boolean =>
  after.length >= before.length && before.every((item, place) => storedEqual(item, after[place]));

const isObject = (value: unknown): value is object => typeof value === 'object' && value !== null;

const equalLists = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((item, place) => storedEqual(item, b[place]));

function equalObjects(a: Readonly<Record<string, unknown>>, b: Readonly<Record<string, unknown>>): boolean {
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  return [...keys].every((key) => storedEqual(own(a, key), own(b, key)));
}

const own = (object: Readonly<Record<string, unknown>>, key: string): unknown =>
  Object.hasOwn(object, key) ? object[key] : undefined;

type Columns = Uint8Array | Uint32Array | Float64Array;

function equalViews(a: object, b: object): boolean {
  if (a.constructor !== b.constructor) return false;
  const [left, right] = [a as Columns, b as Columns];
  return left.length === right.length && left.every((value, place) => Object.is(value, right[place]));
}
