/** A column of numbers that grows by doubling. */
export function growingFloats() {
  let values = new Float64Array(1024);
  let length = 0;
  return {
    length: (): number => length,
    push(value: number): void {
      if (length === values.length) {
        const larger = new Float64Array(2 * length);
        larger.set(values);
        values = larger;
      }
      values[length++] = value;
    },
    /** The first `count` numbers, on their own. */
    take: (count: number): Float64Array => values.slice(0, count),
  };
}
