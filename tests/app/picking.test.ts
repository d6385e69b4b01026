import { expect, onTestFinished, test } from 'vitest';
import { pickDesk, type Picking } from '../../src/app/picking.ts';

const watched = () => {
  const desk = pickDesk<string, number>();
  const seen: (Picking<string, number> | null)[] = [];
  const watching = desk.asked$.subscribe((asked) => seen.push(asked));
  onTestFinished(() => watching.unsubscribe());
  return { desk, seen };
};

test('a question stands until it is answered, and its answer reaches who asked', async () => {
  const { desk, seen } = watched();
  const answer = desk.ask(['a', 'b']);
  expect(seen.at(-1)?.options).toEqual(['a', 'b']);
  seen.at(-1)?.answer(7);
  expect(await answer).toBe(7);
  expect(seen.at(-1)).toBeNull();
});

test('a newer question gives up the older one', async () => {
  const { desk, seen } = watched();
  const first = desk.ask(['a']);
  const second = desk.ask(['b']);
  expect(await first).toBeNull();
  expect(seen.at(-1)?.options).toEqual(['b']);
  seen.at(-1)?.answer(null);
  expect(await second).toBeNull();
});
