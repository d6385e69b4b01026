/** Where the person is. The address holds it after the `#`, so that every screen can be reloaded and gone back from. */
export type Route =
  | { readonly page: 'jobs' }
  | { readonly page: 'job'; readonly jobId: string }
  | { readonly page: 'runs' }
  | { readonly page: 'run'; readonly runId: string }
  | { readonly page: 'import' }
  | { readonly page: 'source' }
  | { readonly page: 'sheets' }
  | { readonly page: 'procedures' }
  | { readonly page: 'model' }
  | { readonly page: 'training' }
  | { readonly page: 'trainingCase'; readonly jobId: string }
  | { readonly page: 'settings' }
  | { readonly page: 'notFound'; readonly hash: string };

const PLAIN = ['runs', 'import', 'source', 'sheets', 'procedures', 'model', 'training', 'settings'] as const;

/** Pages of one thing, by the first word of their address. */
const WITH_ID = {
  run: (runId: string): Route => ({ page: 'run', runId }),
  job: (jobId: string): Route => ({ page: 'job', jobId }),
  training: (jobId: string): Route => ({ page: 'trainingCase', jobId }),
};

/** Reads a location hash such as `#/run/abc`. Anything unknown is `notFound`, never an error. */
export function parseRoute(hash: string): Route {
  const parts = hash.replace(/^#\/?/, '').split('/').filter(Boolean);
  if (parts.length === 0) return { page: 'jobs' };
  const [first = '', second] = parts;
  if (second !== undefined && parts.length === 2 && Object.hasOwn(WITH_ID, first))
    return WITH_ID[first as keyof typeof WITH_ID](decode(second));
  const plain = PLAIN.find((page) => page === first);
  return plain && parts.length === 1 ? { page: plain } : { page: 'notFound', hash };
}

/** The hash of a route; `parseRoute` gives the route back. */
export function routeHash(route: Route): string {
  if (route.page === 'jobs') return '#/';
  if (route.page === 'job') return `#/job/${encodeURIComponent(route.jobId)}`;
  if (route.page === 'trainingCase') return `#/training/${encodeURIComponent(route.jobId)}`;
  if (route.page === 'run') return `#/run/${encodeURIComponent(route.runId)}`;
  return route.page === 'notFound' ? route.hash : `#/${route.page}`;
}

function decode(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
