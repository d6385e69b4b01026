import { describe, expect, test } from 'vitest';
import { isProblem, play, receivedOf, text, watch, type AdapterRig, type MakeRig } from './adapter-rig.ts';

/** The clauses of a source that can go away and come back (src/link/adapter.ts). Called by describeAdapter where a rig has `device`. */
export function describeDevice<Choice>(make: MakeRig<Choice>, sample: AdapterRig<Choice>): void {
  describe.skipIf(!sample.device)('as a device that can go and come back', () => {
    describeKnown(make);
    describeReturn(make, sample);
  });
}

const deviceOf = <Choice>(rig: AdapterRig<Choice>) => {
  if (!rig.device) throw new Error('the rig has no device');
  return rig.device;
};

function describeKnown<Choice>(make: MakeRig<Choice>): void {
  test('its key is the same each time, open or not', async () => {
    const rig = make([]);
    const { adapter } = deviceOf(rig);
    const key = adapter.key(rig.choice);
    expect(key === null || key.length > 0).toBe(true);
    const seen = await play(rig, []);
    expect(adapter.key(rig.choice)).toBe(key);
    seen.subscription.unsubscribe();
    await rig.settle();
    expect(adapter.key(rig.choice)).toBe(key);
  });

  test('it is known without the chooser, opens so, and asking opens nothing', async () => {
    const rig = make([]);
    const { adapter } = deviceOf(rig);
    const known = await adapter.known();
    await rig.settle();
    expect(rig.held()).toBe(0);
    const same = known.find((each) => adapter.key(each) === adapter.key(rig.choice));
    expect(same).toBeDefined();
    const seen = watch(rig, same);
    await rig.settle();
    rig.feed?.(text('T'));
    await rig.settle();
    expect([seen.errors, receivedOf(rig, seen.events)]).toEqual([[], [84]]);
    seen.subscription.unsubscribe();
    await rig.settle();
  });
}

function describeReturn<Choice>(make: MakeRig<Choice>, sample: AdapterRig<Choice>): void {
  test('listening for its return gives nothing while it is there, and holds nothing afterwards', async () => {
    const rig = make([]);
    const returns: Choice[] = [];
    const seen = await play(rig, []);
    const waiting = deviceOf(rig)
      .adapter.returned$(rig.choice)
      .subscribe((choice) => returns.push(choice));
    await rig.settle();
    seen.subscription.unsubscribe();
    waiting.unsubscribe();
    await rig.settle();
    expect([returns.length, rig.held()]).toEqual([0, 0]);
  });

  const comesBack = sample.device?.replug !== undefined && sample.unplug !== undefined;
  for (const when of ['while it is waited for', 'before it is waited for'] as const)
    test.skipIf(!comesBack || (when === 'before it is waited for' && !sample.device?.stranger))(
      `a device that came back ${when} is given once, and data go on through what is given`,
      async () => {
        const rig = make([]);
        const { adapter, replug } = deviceOf(rig);
        const lost = await play(rig, [text('a')]);
        rig.unplug?.();
        await rig.settle();
        expect(lost.errors.map(isProblem)).toEqual([true]);
        if (when === 'before it is waited for') replug?.();
        const returns: Choice[] = [];
        const waiting = adapter.returned$(rig.choice).subscribe((choice) => returns.push(choice));
        await rig.settle();
        if (when === 'while it is waited for') {
          expect(returns).toEqual([]);
          replug?.();
          await rig.settle();
        }
        expect(returns.map(adapter.key)).toEqual([adapter.key(rig.choice)]);
        waiting.unsubscribe();
        const again = watch(rig, returns[0]);
        await rig.settle();
        rig.feed?.(text('b'));
        await rig.settle();
        expect([again.errors, receivedOf(rig, again.events)]).toEqual([[], [98]]);
        again.subscription.unsubscribe();
        await rig.settle();
        expect(rig.held()).toBe(0);
      },
    );

  test.skipIf(!sample.device?.stranger)('another device of its kind is not taken for it', async () => {
    const rig = make([]);
    const { adapter, stranger } = deviceOf(rig);
    await play(rig, []);
    rig.unplug?.();
    await rig.settle();
    const returns: Choice[] = [];
    const waiting = adapter.returned$(rig.choice).subscribe((choice) => returns.push(choice));
    stranger?.();
    await rig.settle();
    expect(returns).toEqual([]);
    waiting.unsubscribe();
  });
}
