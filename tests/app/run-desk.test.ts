import { afterEach, beforeEach, describe, expect, onTestFinished, test, vi } from 'vitest';
import { RunDesk, type DeskView } from '../../src/app/run-desk.ts';
import type { PendingSource } from '../../src/app/services.ts';
import { Subject } from 'rxjs';
import type { StoredRun } from '../../src/jobs/run.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import { problem } from '../../src/problems/problem.ts';
import { failed } from '../../src/problems/result.ts';
import { packChunk } from '../../src/recordings/chunk.ts';
import {
  eec1Line,
  fakeLive,
  fakeServices,
  header,
  LIVE_PENDING,
  NOW_ISO,
  run,
  speeds,
  TWO_CRANKS,
  open,
} from './services.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const settle = (ms = 3000) => vi.advanceTimersByTimeAsync(ms);

/** A desk with its last view, on a serial source whose events the test gives. */
function serialDesk(part: Parameters<typeof fakeServices>[1] = {}, id = 'run-1') {
  const event$ = new Subject<LinkEvent>();
  const base = fakeServices(undefined, part);
  const services = { ...base, live: fakeLive(event$) };
  return { event$, services, ...deskOf(services, run({ adapter: 'web-serial', device: 'bridge' }, id)) };
}

function deskOf(services: ReturnType<typeof fakeServices>, stored: StoredRun) {
  const desk = new RunDesk(services, stored);
  const views: DeskView[] = [];
  const watching = desk.view$.subscribe((view) => views.push(view));
  onTestFinished(() => {
    watching.unsubscribe();
    desk.close();
  });
  return { desk, now: () => views.at(-1)! };
}

const SERIAL: PendingSource = LIVE_PENDING;

const stored = async (services: ReturnType<typeof fakeServices>, id = 'run-1') => {
  const read = await services.runs.get(id);
  if (!read.ok) throw new Error(read.problem.code);
  return read.value;
};

/** A run whose recording of two good cranks is kept already, as after a reload. */
async function recorded(events: readonly LinkEvent[] = TWO_CRANKS) {
  const services = fakeServices();
  await services.recordings.create(header('rec'));
  await services.recordings.append(packChunk('rec', 0, events));
  await services.recordings.close('rec');
  const began: StoredRun = { ...run(), recordingId: 'rec' };
  await services.runs.put(began);
  return { services, began };
}

describe('entries', () => {
  test('are kept at once, before anything follows from them', async () => {
    const services = fakeServices();
    const { desk } = deskOf(services, run());
    desk.enter({ kind: 'note', atIso: NOW_ISO, text: 'first', reason: '' });
    await settle(0);
    expect((await stored(services)).entries).toHaveLength(1);
  });

  test('made quickly one after the other keep their order', async () => {
    const services = fakeServices();
    const slow = services.runs.put;
    let first = true;
    const put: typeof slow = async (each) => {
      if (first) await new Promise((done) => setTimeout(done, (first = false) || 500));
      return slow(each);
    };
    const { desk } = deskOf({ ...services, runs: { ...services.runs, put } }, run());
    for (const text of ['a', 'b', 'c']) desk.enter({ kind: 'note', atIso: NOW_ISO, text, reason: '' });
    await settle();
    expect((await stored(services)).entries.map((entry) => 'text' in entry && entry.text)).toEqual([
      'a',
      'b',
      'c',
    ]);
  });

  test('that cannot be kept say so on screen, and hold until the page is left', async () => {
    const services = fakeServices();
    const put = () => Promise.resolve(failed(problem('storage.full')));
    const { desk, now } = deskOf({ ...services, runs: { ...services.runs, put } }, run());
    desk.enter({ kind: 'note', atIso: NOW_ISO, text: 'a', reason: '' });
    await settle(500);
    expect(now().problem).toEqual(problem('storage.full'));
    expect(now().run.entries).toHaveLength(1);
  });
});

describe('a live source', () => {
  test('is recorded under one id that the run is given once', async () => {
    const { desk, event$, services, now } = serialDesk();
    desk.connect(SERIAL);
    const { recordingId } = desk.run;
    desk.connect(SERIAL);
    expect(desk.run.recordingId).toBe(recordingId);
    event$.next(open());
    await settle();
    expect((await stored(services)).recordingId).toBe(recordingId);
    expect(now().view.link).toBe('waiting');
  });

  test('is closed by typing the volume, before the volume is entered', async () => {
    const { desk, event$, now } = serialDesk();
    desk.connect(SERIAL);
    event$.next(open());
    await settle();
    const order: string[] = [];
    const enter = desk.enter.bind(desk);
    desk.enter = (...entries) => {
      order.push(event$.observed ? 'entered while open' : 'entered when closed');
      enter(...entries);
    };
    desk.enterVolume(300, '300');
    expect(order).toEqual(['entered when closed']);
    await settle();
    expect(now().view.link).toBe('ended');
  });

  test('is closed by leaving the page, and its recording is closed and whole', async () => {
    const { desk, event$, services } = serialDesk();
    desk.connect(SERIAL);
    event$.next(open());
    await settle();
    event$.next({ kind: 'bytes', atMs: 40 as never, bytes: Uint8Array.of(13) });
    desk.close();
    expect(event$.observed).toBe(false);
    await settle();
    const kept = await services.recordings.loadEvents(desk.run.recordingId!);
    expect(kept).toMatchObject({ ok: true, value: { header: { closed: true }, problems: [] } });
    expect(kept.ok && kept.value.events.some(({ kind }) => kind === 'bytes')).toBe(true);
  });

  test('of another run is left alone by leaving the page', async () => {
    const { desk, services } = serialDesk();
    const other = serialDesk({ session: services.session }, 'run-2');
    other.desk.connect(SERIAL);
    await settle();
    desk.close();
    expect(other.event$.observed).toBe(true);
  });

  test('that is lost says why and asks for the volume', async () => {
    const { desk, event$, now } = serialDesk();
    desk.connect(SERIAL);
    event$.next(open());
    await settle();
    event$.error(problem('link.lost', { device: 'bridge', detail: 'unplugged' }));
    await settle();
    expect(now().session.link).toMatchObject({ kind: 'lost', problem: { code: 'link.lost' } });
  });

  test('that cannot be recorded is listened to all the same, and the trouble is shown', async () => {
    const base = fakeServices();
    const create = () => Promise.resolve(failed(problem('storage.full')));
    const { desk, event$, now } = serialDesk({ recordings: { ...base.recordings, create } });
    desk.connect(SERIAL);
    event$.next(open());
    await settle();
    expect(now().saved?.problem).toEqual(problem('storage.full'));
    expect(now().view.link).toBe('waiting');
  });
});

describe('a verdict', () => {
  test('on a volume off a photograph stands on the photograph’s uncertainty, and the entry names the photograph', async () => {
    const { services, began } = await recorded();
    const { desk, now } = deskOf(services, began);
    await desk.replay('instant');
    await settle();
    const photo = {
      photoId: 'photo-1',
      standardUncertaintyMl: 0.6,
      liquid: { x: 300, y: 210 },
    };
    desk.enterVolume(400, '400', photo);
    await settle();
    expect((await stored(services)).entries).toMatchObject([{ kind: 'volume', readingsMl: [400], photo }]);
    const { judged } = now().view;
    if (!judged.ok) throw new Error(judged.problem.code);
    // By hand: class B tolerance 4 mL over sqrt3 (ASTM E1272-02 table 1) and 0.6 mL in quadrature: sqrt(16/3 + 0.36) = 2.38607.
    expect(judged.value.delivery.volume?.standardUncertaintyMl).toBeCloseTo(2.38607, 5);
    expect((await stored(services)).verdict?.word).toBe('pass');
  });

  test('is formed from the volume and kept with what was measured', async () => {
    const { services, began } = await recorded();
    const { desk } = deskOf(services, began);
    await desk.replay('instant');
    await settle();
    expect((await stored(services)).verdict).toBeNull();
    desk.enterVolume(400, '400');
    await settle();
    const kept = await stored(services);
    expect(kept).toMatchObject({ state: 'graded', verdict: { word: 'pass' } });
    // Constant 160 rpm by construction of the readings; two cranks of 15 s.
    expect(kept.measurementSummary?.cranks).toHaveLength(2);
    expect(kept.measurementSummary?.averageSpeedRpm).toBeGreaterThan(150);
  });

  test('stays as it was graded when the run is opened again and replayed', async () => {
    const { services, began } = await recorded();
    const first = deskOf(services, began);
    await first.desk.replay('instant');
    await settle();
    first.desk.enterVolume(400, '400');
    await settle();
    const graded = await stored(services);
    // As if an older grading had found otherwise: opening must not put it right.
    const older: StoredRun = { ...graded, verdict: { ...graded.verdict!, word: 'marginal' } };
    const put = vi.fn(services.runs.put);
    const again = deskOf({ ...services, runs: { ...services.runs, put } }, older);
    await again.desk.replay('instant');
    await settle();
    await again.desk.replay(32);
    await settle(10_000);
    expect(put).not.toHaveBeenCalled();
    expect(again.desk.run.verdict?.word).toBe('marginal');
    expect(again.now().session.link.kind).toBe('ended');
    const judged = again.now().view.judged;
    expect(judged.ok && judged.value.verdict?.word).toBe('pass');
  });

  test('follows a later entry, and keeps what was typed before', async () => {
    const { services, began } = await recorded();
    const { desk } = deskOf(services, began);
    await desk.replay('instant');
    await settle();
    desk.enterVolume(400, '400');
    desk.enterVolume(100, '100');
    await settle();
    const kept = await stored(services);
    expect(kept.verdict?.word).toBe('fail low');
    expect(kept.entries.map((entry) => entry.kind === 'volume' && entry.typed)).toEqual(['400', '100']);
  });

  test('that is lost with the tab between an entry and its grading is formed when the run is opened again', async () => {
    const { services, began } = await recorded();
    const volume = { kind: 'volume', atIso: NOW_ISO, readingsMl: [400], typed: '400', reason: '' } as const;
    const { desk } = deskOf(services, { ...began, entries: [{ ...volume, readingsMl: [400] }] });
    await desk.replay('instant');
    await settle();
    expect((await stored(services)).verdict?.word).toBe('pass');
  });

  test('is not formed while the data still come', async () => {
    const { services, began } = await recorded();
    const { desk, now } = deskOf(services, began);
    await desk.replay(1);
    await settle(5000);
    desk.enter({ kind: 'volume', atIso: NOW_ISO, readingsMl: [400], typed: '400', reason: '' });
    await settle(1000);
    expect(now().session.link.kind).toBe('live');
    expect((await stored(services)).verdict).toBeNull();
  });
});

test('a recording that is not there is told, and nothing else changes', async () => {
  const { desk, now } = deskOf(fakeServices(), { ...run(), recordingId: 'gone' });
  await desk.replay('instant');
  await settle();
  expect(now().problem?.code).toBe('storage.not-found');
  expect(now().playback).toBe('live');
});

test('a recording that was cut is read up to its end, and the cut is told', async () => {
  const services = fakeServices();
  await services.recordings.create(header('rec'));
  await services.recordings.append(packChunk('rec', 0, [open(), ...speeds(20, [[2, 17]])]));
  const { desk, now } = deskOf(services, { ...run(), recordingId: 'rec' });
  await desk.replay('instant');
  await settle();
  expect(now().problem?.code).toBe('storage.recording-cut');
  expect(now().view.table.cranks).toHaveLength(1);
});

describe('a log without times', () => {
  const lines = [
    ...Array.from({ length: 100 }, () => 0),
    ...Array.from({ length: 750 }, () => 160),
    ...Array.from({ length: 100 }, () => 0),
  ];
  const text = lines
    .map((rpm) => `can0  0CF00400   [8]  ${eec1Line(rpm).replace(/../g, '$& ').trim()}\n`)
    .join('');

  test('gives no crank until its interval is given, then is read again with it and graded', async () => {
    const services = fakeServices();
    const stale = run();
    await services.runs.put(stale);
    const { desk, now } = deskOf(services, stale);
    const choice = {
      name: 'x.log',
      bytes: new TextEncoder().encode(text),
      wire: 'candump',
      plan: null,
    } as never;
    desk.connect({ kind: 'log-file', choice, givenIntervalMs: null });
    await vi.waitFor(() => expect(now().saved?.closed).toBe(true), 5000);
    expect(now().view.pipeline?.untimedFrames).toBe(950);
    expect(now().view.table.cranks).toEqual([]);
    desk.enterVolume(400, '400');
    await settle();
    expect((await stored(services)).verdict?.word).toBe('not valid');
    await desk.giveInterval(20);
    await settle();
    // 750 readings, 20 ms apart: 15 s of cranking.
    expect(now().view.pipeline?.untimedFrames).toBe(0);
    const [crank] = now().view.table.cranks;
    expect((crank!.crank.end.atMs - crank!.crank.start.atMs) / 1000).toBeCloseTo(15, 1);
    const kept = await stored(services);
    expect(kept.entries.at(-1)).toMatchObject({ kind: 'interval', intervalMs: 20 });
    expect(kept.measurementSummary?.cranks).toHaveLength(1);
  });
});
