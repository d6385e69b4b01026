import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseRoute, routeHash, type Route } from '../../src/app/routes.ts';

test('every plain screen has an address that leads back to it', () => {
  const routes: Route[] = [
    { page: 'jobs' },
    { page: 'runs' },
    { page: 'procedures' },
    { page: 'model' },
    { page: 'training' },
    { page: 'trainingCase', jobId: 'a b/ü?' },
    { page: 'job', jobId: 'a b/ü?' },
    { page: 'import' },
    { page: 'sheets' },
    { page: 'settings' },
    { page: 'run', runId: 'a b/ü?' },
  ];
  for (const route of routes) expect(parseRoute(routeHash(route))).toEqual(route);
});

test('an address that leads nowhere says so and never throws', () => {
  expect(parseRoute('#/run')).toEqual({ page: 'notFound', hash: '#/run' });
  expect(parseRoute('#/run/%E0%A4%A')).toEqual({ page: 'run', runId: '%E0%A4%A' });
  fc.assert(fc.property(fc.string(), (hash) => typeof parseRoute(hash).page === 'string'));
});
