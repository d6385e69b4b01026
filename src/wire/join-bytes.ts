/** The bytes kept from before and those that came now as one; no copy where nothing was kept. */
export function joinBytes(rest: Uint8Array, fresh: Uint8Array): Uint8Array {
  if (rest.length === 0) return fresh;
  const both = new Uint8Array(rest.length + fresh.length);
  both.set(rest);
  both.set(fresh, rest.length);
  return both;
}
