/** Keys that belong to a field, to the browser, or are held down. */
export function isTyping(event: KeyboardEvent): boolean {
  const held = event.ctrlKey || event.metaKey || event.altKey || event.repeat;
  return (
    held ||
    event
      .composedPath()
      .some((target) => target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement)
  );
}
