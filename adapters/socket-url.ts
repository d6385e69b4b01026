import { problem } from '../src/problems/problem.ts';
import { failed, ok, type Result } from '../src/problems/result.ts';

/** What an address is, ready to be opened. `host` is what the screen calls the bridge: name and port, nothing secret. */
export interface SocketAddress {
  readonly url: string;
  readonly host: string;
}

/** Schemes that people copy from a browser's address line, and what is meant by them here. */
const MEANT: Readonly<Record<string, string>> = { 'http:': 'ws:', 'https:': 'wss:' };

/**
 * Reads an address that a person typed: `ws://` or `wss://`, or bare `host:port` (also `//host/path`), completed to `ws://`.
 * A fragment is dropped, since no WebSocket may have one. `securePage`: the page came over https, from where a browser opens
 * no `ws://` but on this computer (Mixed Content, W3C, 5.2; Secure Contexts, 3.1).
 * @returns the address; or what is wrong with it and the cure.
 */
export function socketAddress(typed: string, securePage: boolean): Result<SocketAddress> {
  const text = typed.trim();
  const url = parse(completed(text));
  if (url === null || url.hostname === '') return failed(problem('device.socket-address', { typed: text }));
  url.hash = '';
  const meant = MEANT[url.protocol];
  if (meant !== undefined) {
    const better = url.href.replace(url.protocol, meant);
    return failed(problem('device.socket-scheme', { typed: text, better }));
  }
  if (url.protocol !== 'ws:' && url.protocol !== 'wss:')
    return failed(problem('device.socket-address', { typed: text }));
  if (securePage && url.protocol === 'ws:' && !isThisComputer(url.hostname))
    return failed(problem('device.socket-mixed', { host: url.host }));
  return ok({ url: url.href, host: url.host });
}

/** `localhost:81` would parse as a scheme of that name, so only `//` tells that there is one. */
function completed(text: string): string {
  if (text.startsWith('//')) return `ws:${text}`;
  return /^[a-z][a-z0-9+.-]*:\/\//i.test(text) ? text : `ws://${text}`;
}

function parse(text: string): URL | null {
  try {
    return new URL(text);
  } catch {
    return null;
  }
}

/** Hosts that browsers trust without encryption: localhost and the loopback addresses. Source: Secure Contexts, 3.1. */
const isThisComputer = (host: string): boolean =>
  host === 'localhost' || host.endsWith('.localhost') || host === '[::1]' || /^127(\.\d+){3}$/.test(host);
