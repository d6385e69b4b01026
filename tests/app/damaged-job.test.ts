import { describe, expect, test } from 'vitest';
import { damagedJob } from '../../src/app/damaged-job.ts';
import { newJob } from '../../src/app/new-job.ts';
import { viewJob } from '../../src/app/job-view.ts';
import { runOfJob } from '../../src/app/start-check.ts';
import { checkOf, LOW_RAIL_PRESSURE } from '../../src/procedures/library.ts';
import { problem } from '../../src/problems/problem.ts';

const damage = problem('storage.damaged', { what: 'Job', id: 'job-1', detail: 'entries: expected array' });
const view = viewJob(newJob({ id: 'job-1', createdAt: '2026-11-25T08:00:00.000Z' }), []);
const run = (id: string, day: string, check: string) =>
  runOfJob(view, checkOf(LOW_RAIL_PRESSURE, check)!, {
    id,
    createdAt: `2026-11-${day}T08:00:00.000Z`,
    sheet: null,
  });

describe('a damaged job', () => {
  test('is named by its last run, and sends nobody to delete it', () => {
    const first = run('a', '25', 'air-in-fuel');
    const last = run('b', '26', 'pump-return');
    const { name, problem: text } = damagedJob('job-1', damage, [first, last]);
    expect(name).toContain('the last of its 2 runs is “');
    expect(name).toContain(last.title);
    expect(name).toContain('26 Nov 2026');
    expect(text.message).toContain('entries: expected array');
    expect(text.remedy).toContain('under Runs');
    expect(text.remedy).not.toContain('Delete');
    expect(damagedJob('job-1', damage, [last]).name).toContain('its only run is');
  });

  test('without runs is named by its id, and its runs are not promised', () => {
    const { name, problem: text } = damagedJob('job-1', damage, []);
    expect(name).toContain('job-1');
    expect(text.remedy).toContain('No run of it is left');
  });

  test('of a newer version is to be reloaded, not begun anew', () => {
    const newer = problem('storage.newer-document', { what: 'Job', id: 'job-1' });
    expect(damagedJob('job-1', newer, []).problem.remedy).toContain('Reload');
  });
});
