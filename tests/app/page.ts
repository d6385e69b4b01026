import { userEvent } from 'vitest/browser';

/** The first element that fits, in the page and in every shadow below. */
export function deep<T extends Element = HTMLElement>(
  root: Element | ShadowRoot,
  selector: string,
): T | null {
  const found = root.querySelector<T>(selector);
  if (found) return found;
  const shadows = root instanceof Element && root.shadowRoot ? [root.shadowRoot] : [];
  const below = [...root.querySelectorAll('*')].flatMap(({ shadowRoot }) => (shadowRoot ? [shadowRoot] : []));
  for (const shadow of [...shadows, ...below]) {
    const inner = deep<T>(shadow, selector);
    if (inner) return inner;
  }
  return null;
}

/** All elements that fit, in the page and in every shadow below. */
export function deepAll<T extends Element = HTMLElement>(root: Element | ShadowRoot, selector: string): T[] {
  const shadows = root instanceof Element && root.shadowRoot ? [root.shadowRoot] : [];
  const below = [...root.querySelectorAll('*')].flatMap(({ shadowRoot }) => (shadowRoot ? [shadowRoot] : []));
  return [
    ...root.querySelectorAll<T>(selector),
    ...[...shadows, ...below].flatMap((shadow) => deepAll<T>(shadow, selector)),
  ];
}

/** Waits, frame by frame, until something holds. */
export async function until(holds: () => boolean, what = String(holds)): Promise<void> {
  const startMs = performance.now();
  while (!holds()) {
    if (performance.now() - startMs > 8000) throw new Error(`never came true: ${what}`);
    await new Promise(requestAnimationFrame);
  }
}

const wordsOf = (element: Element): string =>
  (element.getAttribute('aria-label') ?? element.closest('label')?.textContent ?? element.textContent ?? '')
    .replace(/\s+/g, ' ')
    .trim();

/** What has the focus, in whichever shadow it lies, in its words. */
export function focusedName(): string {
  let focused = document.activeElement;
  while (focused?.shadowRoot?.activeElement) focused = focused.shadowRoot.activeElement;
  return focused ? wordsOf(focused) : '';
}

/** Goes on with the Tab key until the thing of this name has the focus: what cannot be reached so fails. */
export async function tabTo(name: string): Promise<void> {
  for (let turn = 0; turn < 80; turn += 1) {
    await userEvent.keyboard('{Tab}');
    if (focusedName().startsWith(name)) return;
  }
  throw new Error(`Tab never reached ${name}`);
}

/** Clicks the button of this name. */
export function press(root: Element, name: string): void {
  const button = deepAll<HTMLButtonElement>(root, 'button').find((each) => wordsOf(each).startsWith(name));
  if (!button) throw new Error(`there is no button ${name}`);
  button.click();
}
