/**
 * A span as a person reads it while it counts up: tenths below 10 s, whole seconds below 2 min, then minutes and hours.
 * Rounded down, so that nothing looks older than it is. Negative and not finite give 0.0 s.
 */
export function spanWords(seconds: number): string {
  if (!(seconds > 0) || !Number.isFinite(seconds)) return '0.0 s';
  if (seconds < 10) return `${(Math.floor(seconds * 10 + 1e-9) / 10).toFixed(1)} s`;
  if (seconds < 120) return `${Math.floor(seconds)} s`;
  const minutes = Math.floor(seconds / 60);
  if (minutes < 60) return `${minutes} min ${Math.floor(seconds % 60)} s`;
  return `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}
