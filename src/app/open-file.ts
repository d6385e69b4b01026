import { unpackGzip } from '../../adapters/unpack-gzip.ts';
import type { LogPlan } from '../logs/log-plan.ts';
import { planSpeedLog, type LogAnswers } from '../logs/plan-import.ts';
import { ok, type Result } from '../problems/result.ts';
import { recogniseWire } from '../wire/recognise.ts';
import type { WireProtocol } from '../wire/wire-decoder.ts';
import type { DroppedFile } from './services.ts';

/** What a dropped file turned out to be: bus text that needs no questions, or numbers with a plan to confirm. */
export type OpenedFile =
  | { readonly kind: 'frames'; readonly wire: WireProtocol; readonly bytes: Uint8Array }
  | { readonly kind: 'numbers'; readonly plan: LogPlan; readonly bytes: Uint8Array };

/** Unpacks and recognises a file. Everything that cannot be used gives a problem with its remedy. */
export async function openFile(file: DroppedFile): Promise<Result<OpenedFile>> {
  const unpacked = await unpackGzip(file.name, file.bytes);
  if (!unpacked.ok) return unpacked;
  const bytes = unpacked.value;
  const wire = recogniseWire(bytes);
  return wire ? ok({ kind: 'frames', wire, bytes }) : planNumbers(bytes, {});
}

/** Plans a file of numbers anew with the person's answers so far. */
export function planNumbers(bytes: Uint8Array, answers: LogAnswers): Result<OpenedFile> {
  const plan = planSpeedLog(bytes, answers);
  return plan.ok ? ok({ kind: 'numbers', plan: plan.value, bytes }) : plan;
}
