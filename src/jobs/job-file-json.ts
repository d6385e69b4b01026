/** Exact JSON: what JSON itself cannot hold is an object with one key that begins with `$` (docs/job-file.md). */
type Tagged = { readonly [key: `$${string}`]: unknown };

/** A document as one line of JSON without a line end. Bytes and columns become base64, NaN, infinities and -0 their names. */
export const toExactJson = (document: unknown): string => JSON.stringify(plainOf(document));

/** The document of a line, exactly as it was. Throws where the line is no such JSON: the caller reads files, and makes it a problem. */
export const fromExactJson = (line: string): unknown => exactOf(JSON.parse(line));

function plainOf(value: unknown): unknown {
  if (typeof value === 'number') return isPlainNumber(value) ? value : { $number: nameOf(value) };
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map(plainOf);
  if (value instanceof Uint8Array) return { $bytes: toBase64(value) };
  if (value instanceof Uint32Array) return { $uint32: toBase64(littleEndian(value, 4)) };
  if (value instanceof Float64Array) return { $float64: toBase64(littleEndian(value, 8)) };
  const copy = Object.fromEntries(Object.entries(value).map(([key, item]) => [key, plainOf(item)]));
  return Object.keys(copy).some((key) => key.startsWith('$')) ? ({ $object: copy } satisfies Tagged) : copy;
}

function exactOf(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map(exactOf);
  const [tag, ...more] = Object.keys(value);
  if (tag?.startsWith('$') && more.length === 0) return untagged(tag, (value as Tagged)[tag as '$']);
  return exactObject(value);
}

const exactObject = (value: object): object =>
  Object.fromEntries(Object.entries(value).map(([key, item]) => [key, exactOf(item)]));

function untagged(tag: string, content: unknown): unknown {
  if (tag === '$object' && typeof content === 'object' && content !== null) return exactObject(content);
  if (typeof content !== 'string') throw new SyntaxError(`${tag} without text`);
  switch (tag) {
    case '$number':
      return Number(content);
    case '$bytes':
      return fromBase64(content);
    case '$uint32':
      return columns(content, 4, (length) => new Uint32Array(length), DataView.prototype.getUint32);
    case '$float64':
      return columns(content, 8, (length) => new Float64Array(length), DataView.prototype.getFloat64);
    default:
      throw new SyntaxError(`unknown mark ${tag}`);
  }
}

const isPlainNumber = (value: number): boolean => Number.isFinite(value) && !Object.is(value, -0);
const nameOf = (value: number): string => (Object.is(value, -0) ? '-0' : String(value));

function littleEndian(values: Uint32Array | Float64Array, width: 4 | 8): Uint8Array {
  const view = new DataView(new ArrayBuffer(values.length * width));
  values.forEach((value, place) => {
    if (width === 4) view.setUint32(4 * place, value, true);
    else view.setFloat64(8 * place, value, true);
  });
  return new Uint8Array(view.buffer);
}

function columns<C extends Uint32Array | Float64Array>(
  base64: string,
  width: 4 | 8,
  make: (length: number) => C,
  read: (this: DataView, at: number, littleEndian: boolean) => number,
): C {
  const bytes = fromBase64(base64);
  if (bytes.length % width !== 0) throw new SyntaxError('a column that ends within a value');
  const view = new DataView(bytes.buffer);
  const values = make(bytes.length / width);
  for (let place = 0; place < values.length; place++) values[place] = read.call(view, width * place, true);
  return values;
}

const DIGITS = Uint8Array.from('ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/', (digit) =>
  digit.charCodeAt(0),
);
const PAD = 61; // =

/** RFC 4648, 4. By hand: Node's btoa takes fifty times as long. */
function toBase64(bytes: Uint8Array): string {
  const text = new Uint8Array(4 * Math.ceil(bytes.length / 3)).fill(PAD);
  let to = 0;
  for (let at = 0; at < bytes.length; at += 3) {
    const left = bytes.length - at;
    const three = (bytes[at]! << 16) | ((bytes[at + 1] ?? 0) << 8) | (bytes[at + 2] ?? 0);
    text[to] = DIGITS[three >> 18]!;
    text[to + 1] = DIGITS[(three >> 12) & 63]!;
    if (left > 1) text[to + 2] = DIGITS[(three >> 6) & 63]!;
    if (left > 2) text[to + 3] = DIGITS[three & 63]!;
    to += 4;
  }
  return new TextDecoder().decode(text);
}

function fromBase64(base64: string): Uint8Array<ArrayBuffer> {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let at = 0; at < text.length; at++) bytes[at] = text.charCodeAt(at);
  return bytes;
}
