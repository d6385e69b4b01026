/** A SHA-256 that takes its bytes piece by piece: a job file is too large to be held twice. */
export interface Sha256 {
  update(bytes: Uint8Array): void;
  /** 64 small hexadecimal digits. Nothing may be added after it. */
  hex(): string;
}

const BLOCK = 64;

/** The first `bits` of the fractional part of a root of the first primes: how FIPS 180-4, 4.2.2 and 5.3.3, defines the constants. */
const fraction = (root: number): number => ((root - Math.floor(root)) * 2 ** 32) | 0;

const PRIMES = Array.from({ length: 312 }, (_, number) => number).filter(
  (number) =>
    number > 1 &&
    Array.from({ length: number - 2 }, (_, k) => k + 2).every((divisor) => number % divisor !== 0),
);
const ROUND = Int32Array.from(PRIMES.slice(0, 64), (prime) => fraction(Math.cbrt(prime)));
const START = PRIMES.slice(0, 8).map((prime) => fraction(Math.sqrt(prime)));

const turn = (word: number, bits: number): number => (word >>> bits) | (word << (32 - bits));

/** Starts a digest (FIPS 180-4, 6.2). The state lives in what is returned, nowhere else. */
export function startSha256(): Sha256 {
  const hash = Int32Array.from(START);
  const words = new Int32Array(64);
  const rest = new Uint8Array(BLOCK);
  let held = 0;
  let length = 0;
  const take = (bytes: Uint8Array) => {
    let at = 0;
    if (held > 0) {
      at = Math.min(BLOCK - held, bytes.length);
      rest.set(bytes.subarray(0, at), held);
      held += at;
      if (held < BLOCK) return;
      block(hash, words, rest, 0);
      held = 0;
    }
    for (; at + BLOCK <= bytes.length; at += BLOCK) block(hash, words, bytes, at);
    rest.set(bytes.subarray(at));
    held = bytes.length - at;
  };
  return {
    update: (bytes) => {
      length += bytes.length;
      take(bytes);
    },
    hex: () => {
      const tail = new Uint8Array(1 + ((2 * BLOCK - 9 - held) % BLOCK) + 8);
      tail[0] = 0x80;
      const view = new DataView(tail.buffer);
      view.setUint32(tail.length - 8, Math.floor(length / 2 ** 29));
      view.setUint32(tail.length - 4, (length * 8) >>> 0);
      take(tail);
      return Array.from(hash, (word) => (word >>> 0).toString(16).padStart(8, '0')).join('');
    },
  };
}

/** One block of 64 bytes from `at` into the hash (FIPS 180-4, 6.2.2). `words` is room to work in. */
function block(hash: Int32Array, words: Int32Array, bytes: Uint8Array, at: number): void {
  for (let t = 0; t < 16; t++) {
    const from = at + 4 * t;
    words[t] = (bytes[from]! << 24) | (bytes[from + 1]! << 16) | (bytes[from + 2]! << 8) | bytes[from + 3]!;
  }
  for (let t = 16; t < 64; t++) {
    const [x, y] = [words[t - 15]!, words[t - 2]!];
    const small = turn(x, 7) ^ turn(x, 18) ^ (x >>> 3);
    const large = turn(y, 17) ^ turn(y, 19) ^ (y >>> 10);
    words[t] = large + words[t - 7]! + small + words[t - 16]!;
  }
  let a = hash[0]!;
  let b = hash[1]!;
  let c = hash[2]!;
  let d = hash[3]!;
  let e = hash[4]!;
  let f = hash[5]!;
  let g = hash[6]!;
  let h = hash[7]!;
  // Plain assignments: taking the eight apart as a list costs three times as much.
  for (let t = 0; t < 64; t++) {
    const sum = turn(e, 6) ^ turn(e, 11) ^ turn(e, 25);
    const first = (h + sum + ((e & f) ^ (~e & g)) + ROUND[t]! + words[t]!) | 0;
    const second = ((turn(a, 2) ^ turn(a, 13) ^ turn(a, 22)) + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    h = g;
    g = f;
    f = e;
    e = (d + first) | 0;
    d = c;
    c = b;
    b = a;
    a = (first + second) | 0;
  }
  const added = [a, b, c, d, e, f, g, h];
  for (let place = 0; place < 8; place++) hash[place] = hash[place]! + added[place]!;
}
