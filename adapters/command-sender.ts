import type { WriteBytes } from '../src/link/link-event.ts';
import type { Problem } from '../src/problems/problem.ts';

/** Sends to the bridge by what the link gave for it; null: the link is over, and nothing is sent. */
export interface CommandSender {
  sendBy(write: WriteBytes | null): void;
  send(command: string): void;
  sendBytes(bytes: Uint8Array): void;
}

/** A sender of commands. A failure is told, but not once the link is over: that tells itself. */
export function commandSender(tell: (problem: Problem) => void): CommandSender {
  let write: WriteBytes | null = null;
  const send = async (bytes: Uint8Array) => {
    const outcome = await write?.(bytes);
    if (outcome?.ok === false && write) tell(outcome.problem);
  };
  return {
    sendBy: (next) => void (write = next),
    send: (command) => void send(ascii(command)),
    sendBytes: (bytes) => void send(bytes),
  };
}

const ascii = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
