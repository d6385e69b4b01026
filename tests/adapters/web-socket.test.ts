import { Subject, VirtualTimeScheduler } from 'rxjs';
import { describe, expect, test } from 'vitest';
import { socketChoice, webSocketAdapter, type SocketMeans } from '../../adapters/web-socket.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import type { Problem } from '../../src/problems/problem.ts';
import { millis } from '../../src/quantities/time.ts';
import { fakeSocket, type FakeSocket } from './fixtures/fake-socket.ts';

const text = (value: string) => new TextEncoder().encode(value);
const CHOICE = { url: 'ws://192.168.4.1:81/', device: 'Network bridge 192.168.4.1:81' };

function setUp(part: Partial<SocketMeans> = {}, choice: object = {}) {
  const scheduler = new VirtualTimeScheduler(undefined, 0);
  const sockets: FakeSocket[] = [];
  const connect = (url: string) => {
    sockets.push(fakeSocket(url));
    return sockets.at(-1)!;
  };
  const ask = () => Promise.resolve('192.168.4.1:81');
  const adapter = webSocketAdapter({
    clock: () => millis(scheduler.now()),
    ask,
    securePage: false,
    connect,
    scheduler,
    ...part,
  });
  const seen = { events: [] as LinkEvent[], errors: [] as Problem[] };
  const subscription = adapter.open({ ...CHOICE, ...choice }).subscribe({
    next: (event) => seen.events.push(event),
    error: (problem: Problem) => seen.errors.push(problem),
  });
  const write = (bytes: Uint8Array) => {
    const first = seen.events[0];
    return first?.kind === 'open' && first.write ? first.write(bytes) : null;
  };
  const bytes = () =>
    seen.events.flatMap((event) => (event.kind === 'bytes' ? [new TextDecoder().decode(event.bytes)] : []));
  const pass = (ms: number) => {
    scheduler.maxFrames += ms;
    scheduler.flush();
  };
  return { adapter, socket: sockets[0]!, sockets, ...seen, subscription, write, bytes, pass };
}

describe('the address of a bridge', () => {
  test.each([
    ['ws://bridge.local:81/can', 'ws://bridge.local:81/can'],
    ['  wss://bridge.example/  ', 'wss://bridge.example/'],
    ['192.168.4.1:81', 'ws://192.168.4.1:81/'],
    ['bridge', 'ws://bridge/'],
    ['localhost:81', 'ws://localhost:81/'],
    ['//bridge:81/can?rate=250', 'ws://bridge:81/can?rate=250'],
    ['[fe80::1]:81', 'ws://[fe80::1]:81/'],
    ['ws://bridge/#part', 'ws://bridge/'],
  ])('%s is opened as %s', (typed, url) => {
    expect(socketChoice(typed, false)).toMatchObject({ ok: true, value: { url } });
  });

  test.each(['', '   ', 'ws://', 'bridge:99999', 'two words', 'ftp://bridge', 'file:///etc', 'ws://:81'])(
    '%j is none',
    (typed) => {
      expect(socketChoice(typed, false)).toMatchObject({
        ok: false,
        problem: { code: 'device.socket-address', context: { typed: typed.trim() } },
      });
    },
  );

  test.each([
    ['http://bridge:81/ws', 'ws://bridge:81/ws'],
    ['https://bridge/ws', 'wss://bridge/ws'],
  ])('%s is that of a page; %s is offered', (typed, better) => {
    expect(socketChoice(typed, false)).toMatchObject({
      problem: { code: 'device.socket-scheme', context: { better } },
    });
  });

  test.each([
    ['ws://192.168.4.1:81', false],
    ['192.168.4.1:81', false],
    ['ws://localhost.example:81', false],
    ['ws://1270.0.0.1.example', false],
    ['wss://192.168.4.1:81', true],
    ['ws://localhost:81', true],
    ['ws://bridge.localhost:81', true],
    ['ws://127.0.0.1:81', true],
    ['ws://[::1]:81', true],
  ])('%s from an https page: allowed is %s', (typed, allowed) => {
    const choice = socketChoice(typed, true);
    expect(choice.ok).toBe(allowed);
    if (!choice.ok) expect(choice.problem.code).toBe('device.socket-mixed');
  });

  test('names the bridge without what may be secret in it', () => {
    expect(socketChoice('ws://me:word@bridge:81/can?token=1', false)).toMatchObject({
      value: { device: 'Network bridge bridge:81' },
    });
  });

  test('that was kept and is wrong now is a problem on opening, and opens nothing', () => {
    const { errors, sockets } = setUp({ securePage: true });
    expect([errors.map(({ code }) => code), sockets]).toEqual([['device.socket-mixed'], []]);
  });
});

describe('choosing', () => {
  test('takes what the person typed, and lists what was opened before', async () => {
    const { adapter } = setUp({
      known: () => Promise.resolve(['ws://a:1/', 'not one of them', 'ws://b:2/']),
    });
    const chosen = await adapter.choose();
    expect(chosen).toEqual({ ok: true, value: CHOICE });
    expect(chosen.ok && adapter.key(chosen.value)).toBe('ws://192.168.4.1:81/');
    expect((await adapter.known()).map(({ url }) => url)).toEqual(['ws://a:1/', 'ws://b:2/']);
    expect(await setUp().adapter.known()).toEqual([]);
  });

  test('is not possible where there is no WebSocket', async () => {
    const { adapter, errors } = setUp({ connect: undefined });
    expect(adapter.availability()).toMatchObject({ problem: { code: 'device.no-web-socket' } });
    expect(await adapter.choose()).toMatchObject({ problem: { code: 'device.no-web-socket' } });
    expect(errors).toMatchObject([{ code: 'device.no-web-socket' }]);
  });
});

describe('connecting', () => {
  test('asks for binary messages as buffers and opens when the bridge answers', () => {
    const { socket, events, pass } = setUp();
    expect([socket.url, socket.binaryType, events]).toEqual([CHOICE.url, 'arraybuffer', []]);
    pass(4_999);
    socket.answer();
    pass(60_000);
    expect(events).toMatchObject([{ kind: 'open', device: CHOICE.device }]);
  });

  test('gives up after 5 s without an answer and lets go', () => {
    const { socket, errors, pass } = setUp();
    pass(4_999);
    expect(errors).toEqual([]);
    pass(1);
    expect(errors).toEqual([
      { code: 'link.open-failed', context: { device: CHOICE.device, detail: 'no answer within 5 s' } },
    ]);
    expect([socket.listeners, socket.readyState]).toEqual([0, 3]);
  });

  test('that fails before it was open is a bridge that cannot be reached', () => {
    const { socket, errors } = setUp();
    socket.end(1006);
    expect(errors).toMatchObject([{ code: 'link.open-failed' }]);
  });

  test('that the browser forbids says so', () => {
    const refuse = () => {
      throw new DOMException('The port 22 is not allowed.', 'SecurityError');
    };
    const { errors } = setUp({ connect: refuse });
    expect(errors).toMatchObject([
      { code: 'device.socket-forbidden', context: { detail: 'The port 22 is not allowed.' } },
    ]);
  });
});

describe('messages', () => {
  test('binary and text become bytes as received, one event a message, empty ones none', () => {
    const { socket, bytes } = setUp();
    socket.answer();
    socket.message(text('T0C').buffer);
    socket.message('F00400\r');
    socket.message('');
    socket.message(new ArrayBuffer(0));
    socket.message(text('xxview').subarray(2));
    socket.message('Grüße');
    expect(bytes()).toEqual(['T0C', 'F00400\r', 'view', 'Grüße']);
  });

  test('that are lines get the line end that they lack, where the person said so', () => {
    const { socket, bytes } = setUp({}, { lineMessages: true });
    socket.answer();
    for (const message of ['{"engineSpeed":151}', 'a\n', 'b\r', '']) socket.message(message);
    socket.message(text('raw').buffer);
    expect(bytes()).toEqual(['{"engineSpeed":151}\n', 'a\n', 'b\r', 'raw']);
  });

  test('of a kind unknown end the connection with a problem', () => {
    const { socket, errors } = setUp();
    socket.answer();
    socket.message({});
    expect(errors).toMatchObject([{ code: 'device.socket-protocol' }]);
    expect(socket.listeners).toBe(0);
  });
});

describe('the end of a connection', () => {
  // Close codes: RFC 6455, 7.4.1; 1012 to 1014 and 3000 on: IANA WebSocket Close Code Number Registry.
  test.each([
    [1000, 'link.lost', 'the bridge closed the connection'],
    [1001, 'link.lost', 'the bridge is going away'],
    [1005, 'link.lost', 'the bridge closed the connection without saying why'],
    [1006, 'link.lost', 'the connection broke off'],
    [1011, 'link.lost', 'the bridge met an error of its own'],
    [1012, 'link.lost', 'the bridge is restarting'],
    [1013, 'link.lost', 'the bridge is too busy now'],
    [1014, 'link.lost', 'a gateway on the way got no proper answer'],
    [3999, 'link.lost', 'code 3999'],
    [1002, 'device.socket-protocol', 'it could not make sense of the connection'],
    [1003, 'device.socket-protocol', 'it does not take this kind of data'],
    [1007, 'device.socket-protocol', 'it got data that did not fit'],
    [1009, 'device.socket-protocol', 'it got a message too big for it'],
    [1010, 'device.socket-protocol', 'it wanted an extension that the browser lacks'],
    [1008, 'device.socket-refused', 'it does not allow this'],
    [3000, 'device.socket-refused', 'it wants a sign-in'],
    [3003, 'device.socket-refused', 'it forbids this'],
    [3008, 'device.socket-refused', 'it waited too long'],
    [4001, 'device.socket-refused', 'code 4001'],
  ])('with %i is %s: %s', (code, problemCode, why) => {
    const { socket, errors } = setUp();
    socket.answer();
    socket.end(code);
    expect(errors).toEqual([{ code: problemCode, context: { device: CHOICE.device, why, code } }]);
  });

  test("tells the server's own words where it gave some", () => {
    const { socket, errors } = setUp();
    socket.answer();
    socket.end(4003, 'one client only');
    expect(errors).toMatchObject([{ context: { why: 'one client only' } }]);
  });

  test('is followed by the network coming back, which offers the same bridge again', () => {
    const online$ = new Subject<unknown>();
    const { adapter } = setUp({ online$ });
    const returns: unknown[] = [];
    const subscription = adapter.returned$(CHOICE).subscribe((choice) => returns.push(choice));
    online$.next('online');
    expect(returns).toEqual([CHOICE]);
    subscription.unsubscribe();
    expect(online$.observed).toBe(false);
  });
});

describe('writing', () => {
  test('sends the bytes as one binary message', async () => {
    const { socket, write } = setUp();
    socket.answer();
    expect(await write(text('C\r'))).toEqual({ ok: true, value: undefined });
    expect(socket.sent.map((bytes) => new TextDecoder().decode(bytes))).toEqual(['C\r']);
  });

  test('to a bridge that takes nothing is refused before it piles up', async () => {
    const { socket, write } = setUp();
    socket.answer();
    socket.bufferedAmount = 65_530;
    expect(await write(text('123456'))).toMatchObject({ ok: true });
    expect(await write(text('1234567'))).toMatchObject({ problem: { code: 'link.write-failed' } });
    expect(socket.sent).toHaveLength(1);
  });

  test('that the socket throws on is a problem, and so is one after it closed', async () => {
    const { socket, write } = setUp();
    socket.answer();
    socket.send = () => {
      throw new DOMException('closing', 'InvalidStateError');
    };
    expect(await write(text('V\r'))).toMatchObject({ problem: { code: 'link.write-failed' } });
    socket.readyState = 2;
    expect(await write(text('V\r'))).toMatchObject({ problem: { code: 'link.closed' } });
  });
});
