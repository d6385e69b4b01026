import { problem } from '../src/problems/problem.ts';
import { failed, ok, type Result } from '../src/problems/result.ts';

/** A log that unpacks to more would not fit a tab beside what is made of it. */
const LIMIT_MB = 512;

/** Whether the bytes begin as a gzip member does: 1F 8B (RFC 1952, 2.3.1). The name of a file is no proof. */
export const isGzip = (bytes: Uint8Array): boolean => bytes[0] === 0x1f && bytes[1] === 0x8b;

/**
 * Unpacks a gzip file; bytes that are none come back as they are. A damaged or cut file, or one that holds more than
 * `limitMb`, is a problem: half a log would look like a short crank.
 */
export async function unpackGzip(
  name: string,
  bytes: Uint8Array,
  limitMb: number = LIMIT_MB,
): Promise<Result<Uint8Array>> {
  if (!isGzip(bytes)) return ok(bytes);
  const reader = new Blob([bytes.slice()]).stream().pipeThrough(new DecompressionStream('gzip')).getReader();
  const parts: Uint8Array[] = [];
  let length = 0;
  try {
    for (let read = await reader.read(); !read.done; read = await reader.read()) {
      parts.push(read.value);
      length += read.value.length;
      if (length <= limitMb * 1_048_576) continue;
      await reader.cancel();
      return failed(problem('link.gzip-too-large', { name, limitMb }));
    }
  } catch (error) {
    return failed(
      problem('link.gzip-damaged', { name, detail: error instanceof Error ? error.message : String(error) }),
    );
  }
  return ok(joined(parts, length));
}

function joined(parts: readonly Uint8Array[], length: number): Uint8Array {
  const whole = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
