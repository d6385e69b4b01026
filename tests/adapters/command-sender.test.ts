import { expect, test } from 'vitest';
import { commandSender } from '../../adapters/command-sender.ts';
import type { WriteBytes } from '../../src/link/link-event.ts';
import { problem, type Problem } from '../../src/problems/problem.ts';
import { failed, ok } from '../../src/problems/result.ts';
import { turns } from './fixtures/turns.ts';

function setUp(outcome: Awaited<ReturnType<WriteBytes>> = ok(undefined)) {
  const told: Problem[] = [];
  const sent: string[] = [];
  const sender = commandSender((each) => told.push(each));
  const write: WriteBytes = (bytes) => {
    sent.push(String.fromCharCode(...bytes));
    return Promise.resolve(outcome);
  };
  return { sender, told, sent, write };
}

test('sends each command by the link it was given, as ASCII', async () => {
  const { sender, sent, told, write } = setUp();
  sender.sendBy(write);
  sender.send('S5\r');
  sender.sendBytes(Uint8Array.of(0x4c, 0x0d));
  await turns();
  expect([sent, told]).toEqual([['S5\r', 'L\r'], []]);
});

test('sends nothing before there is a link, and nothing after it is over', async () => {
  const { sender, sent, write } = setUp();
  sender.send('V\r');
  sender.sendBy(write);
  sender.sendBy(null);
  sender.send('C\r');
  await turns();
  expect(sent).toEqual([]);
});

test('tells a failure, but not one of a link that went away meanwhile', async () => {
  const { sender, told, write } = setUp(failed(problem('link.write-failed', { device: 'b', detail: 'x' })));
  sender.sendBy(write);
  sender.send('S5\r');
  await turns();
  expect(told.map(({ code }) => code)).toEqual(['link.write-failed']);
  sender.send('L\r');
  sender.sendBy(null);
  await turns();
  expect(told).toHaveLength(1);
});
