/** How a piece of work that may hang ended. */
export type Outcome<T> =
  | { readonly kind: 'done'; readonly value: T }
  | { readonly kind: 'failed'; readonly error: unknown }
  | { readonly kind: 'late' }
  | { readonly kind: 'stopped' };

/**
 * Waits for `work` at most `limitMs` and until `signal` is aborted, whichever comes first. Never rejects; the work itself
 * goes on unheard. Leaves no timer and no listener behind.
 */
export async function within<T>(
  work: Promise<T>,
  limitMs: number,
  signal?: AbortSignal,
): Promise<Outcome<T>> {
  const result = work.then(
    (value): Outcome<T> => ({ kind: 'done', value }),
    (error: unknown): Outcome<T> => ({ kind: 'failed', error }),
  );
  if (signal?.aborted) return { kind: 'stopped' };
  let free = () => {};
  const cut = new Promise<Outcome<T>>((resolve) => {
    const timer = setTimeout(() => resolve({ kind: 'late' }), limitMs);
    const onAbort = () => resolve({ kind: 'stopped' });
    signal?.addEventListener('abort', onAbort);
    free = () => {
      clearTimeout(timer);
      signal?.removeEventListener('abort', onAbort);
    };
  });
  const outcome = await Promise.race([result, cut]);
  free();
  return outcome;
}
