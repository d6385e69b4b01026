import { LitElement } from 'lit';
import { NEVER, Observable, of, Subject, throwError } from 'rxjs';
import { afterEach, describe, expect, test } from 'vitest';
import { Bound } from '../../src/ui/bound.ts';
import { clearPage } from './mount.ts';

let source: () => Observable<number> = () => NEVER;

class BoundProbe extends LitElement {
  readonly bound = new Bound(this, () => source(), -1);
  draws = 0;
  override render() {
    this.draws += 1;
    return String(this.bound.value);
  }
}
customElements.define('bound-probe', BoundProbe);

async function probe(): Promise<BoundProbe> {
  const element = new BoundProbe();
  document.body.append(element);
  await element.updateComplete;
  return element;
}

afterEach(clearPage);

describe('Bound', () => {
  test('shows the initial value until the stream speaks, then each value', async () => {
    const stream = new Subject<number>();
    source = () => stream;
    const element = await probe();
    expect(element.shadowRoot?.textContent).toBe('-1');
    stream.next(7);
    await element.updateComplete;
    expect(element.shadowRoot?.textContent).toBe('7');
  });

  test('drops the stream when the element leaves and returns to it when it comes back', async () => {
    const open: string[] = [];
    source = () =>
      new Observable((subscriber) => {
        open.push('open');
        subscriber.next(open.length);
        return () => open.push('close');
      });
    const element = await probe();
    element.remove();
    expect(open).toEqual(['open', 'close']);
    document.body.append(element);
    await element.updateComplete;
    expect(open).toEqual(['open', 'close', 'open']);
    expect(element.bound.value).toBe(3);
    element.remove();
    expect(open.at(-1)).toBe('close');
  });

  test('asks for its source anew at each connection', async () => {
    source = () => of(1);
    const element = await probe();
    element.remove();
    source = () => of(2);
    document.body.append(element);
    expect(element.bound.value).toBe(2);
  });

  test('keeps the last value and the failure when the stream errors, and forgets the failure on return', async () => {
    source = () => throwError(() => 'lost');
    const element = await probe();
    expect(element.bound).toMatchObject({ value: -1, failure: 'lost' });
    element.remove();
    source = () => NEVER;
    document.body.append(element);
    expect(element.bound.failure).toBeNull();
  });

  test('hears nothing after the element has left', async () => {
    const stream = new Subject<number>();
    source = () => stream;
    const element = await probe();
    element.remove();
    stream.next(9);
    expect(element.bound.value).toBe(-1);
    expect(stream.observed).toBe(false);
  });
});
