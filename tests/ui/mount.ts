import axe from 'axe-core';
import { html, render, type LitElement, type TemplateResult } from 'lit';
import { adoptDocumentStyles } from '../../src/ui/tokens.ts';

/** Puts a template on the page with the document's tokens, and waits until its elements are drawn. */
export async function mount<T extends HTMLElement = LitElement>(template: TemplateResult): Promise<T> {
  adoptDocumentStyles(document);
  document.documentElement.lang = 'en';
  document.title = 'Element under test';
  const main = document.createElement('main');
  document.body.append(main);
  render(html`${template}`, main);
  const element = main.firstElementChild as T;
  await settled(element);
  return element;
}

/** Waits for an element and every element in its shadow. */
export async function settled(element: Element): Promise<void> {
  if ('updateComplete' in element) await element.updateComplete;
  for (const inner of element.shadowRoot?.querySelectorAll('*') ?? []) {
    if (inner.localName.startsWith('m-')) await settled(inner);
  }
}

export function clearPage(): void {
  document.body.replaceChildren();
  delete document.documentElement.dataset['theme'];
}

export const THEMES = ['light', 'dark'] as const;

/** What axe finds wrong in either theme, as readable lines; an empty list is a pass. */
export async function axeFindings(element: Element): Promise<readonly string[]> {
  const found: string[] = [];
  for (const theme of THEMES) {
    document.documentElement.dataset['theme'] = theme;
    const { violations } = await axe.run(element, { rules: { region: { enabled: false } } });
    for (const { id, nodes } of violations) {
      found.push(...nodes.map((node) => `${theme}: ${id}: ${node.failureSummary ?? ''} ${node.html}`));
    }
  }
  return found;
}

/** Waits until a change of size or theme has been drawn: the observer's frame, the element's, and one more. */
export async function drawn(): Promise<void> {
  for (let turn = 0; turn < 4; turn += 1) await new Promise(requestAnimationFrame);
}

/** The text of an element as drawn, spaces made one. */
export const textOf = (element: Element): string => {
  const parts: string[] = [];
  const walk = (node: Node) => {
    if (node instanceof Text) parts.push(node.data);
    if (node instanceof Element && node.shadowRoot) walk(node.shadowRoot);
    if (!(node instanceof HTMLStyleElement)) node.childNodes.forEach(walk);
  };
  walk(element);
  return parts.join(' ').replace(/\s+/g, ' ').trim();
};

export function one<T extends Element = HTMLElement>(element: Element, selector: string): T {
  const found = element.shadowRoot?.querySelector<T>(selector);
  if (!found) throw new Error(`${element.localName} has no ${selector}`);
  return found;
}

export const every = <T extends Element = HTMLElement>(element: Element, selector: string): T[] => [
  ...(element.shadowRoot?.querySelectorAll<T>(selector) ?? []),
];

/** Collects the details of an event that bubbles out of an element. */
export function heard<K extends keyof HTMLElementEventMap>(element: HTMLElement, name: K): unknown[] {
  const details: unknown[] = [];
  element.addEventListener(name, (event) => details.push((event as unknown as CustomEvent).detail));
  return details;
}

/** What reaches past the right edge of an element at a width in CSS pixels: would scroll a phone sideways. Empty is a pass. */
export async function sideways(element: HTMLElement, widthPx = 358): Promise<readonly string[]> {
  element.style.setProperty('width', `${widthPx}px`);
  await drawn();
  const edge = element.getBoundingClientRect().left + widthPx + 0.5;
  return every(element, '*:not(.unseen)')
    .filter((inner) => inner.getBoundingClientRect().right > edge)
    .map((inner) => `${inner.localName}.${inner.className} ${inner.getBoundingClientRect().right}`);
}

/** The targets smaller than a gloved finger needs, as readable lines. */
export const smallTargets = (element: Element, selector: string): readonly string[] =>
  every(element, selector)
    .filter((target) => target.getBoundingClientRect().height < 48)
    .map((target) => `${textOf(target)}: ${target.getBoundingClientRect().height}`);
