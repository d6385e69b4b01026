import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

/** Bytes in use after a full collection, typed arrays included. For tests: it stops the world. */
export function collectedHeap(): () => number {
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc') as () => void;
  return () => {
    // Buffers are given back in the background, after the collection that freed them: the least of a few readings counts.
    let least = Infinity;
    for (let time = 0; time < 4; time++) {
      collect();
      const { heapUsed, arrayBuffers } = process.memoryUsage();
      least = Math.min(least, heapUsed + arrayBuffers);
    }
    return least;
  };
}
