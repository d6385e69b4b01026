import { BUS_PROBLEMS } from './bus-problems.ts';
import { BLUETOOTH_PROBLEMS } from './bluetooth-problems.ts';
import { DEVICE_PROBLEMS } from './device-problems.ts';
import { SEARCH_PROBLEMS } from './search-problems.ts';
import { CHECK_PROBLEMS } from './check-problems.ts';
import { JOB_PROBLEMS } from './job-problems.ts';
import { LIMIT_PROBLEMS } from './limit-problems.ts';
import { LINK_PROBLEMS } from './link-problems.ts';
import { LOG_PROBLEMS } from './log-problems.ts';
import { PHOTO_PROBLEMS } from './photo-problems.ts';
import { PROCEDURE_PROBLEMS } from './procedure-problems.ts';
import { STORAGE_PROBLEMS } from './storage-problems.ts';
import { TRACING_PROBLEMS } from './tracing-problems.ts';
import { TRAINING_PROBLEMS } from './training-problems.ts';
import { WIRE_PROBLEMS } from './wire-problems.ts';

/** Every problem code with what happened and what to do. One file a folder of origin, joined here. */
export const CATALOGUE = {
  ...LINK_PROBLEMS,
  ...WIRE_PROBLEMS,
  ...LOG_PROBLEMS,
  ...LIMIT_PROBLEMS,
  ...CHECK_PROBLEMS,
  ...STORAGE_PROBLEMS,
  ...BUS_PROBLEMS,
  ...BLUETOOTH_PROBLEMS,
  ...DEVICE_PROBLEMS,
  ...SEARCH_PROBLEMS,
  ...TRACING_PROBLEMS,
  ...JOB_PROBLEMS,
  ...PHOTO_PROBLEMS,
  ...PROCEDURE_PROBLEMS,
  ...TRAINING_PROBLEMS,
} as const;

export type ProblemCode = keyof typeof CATALOGUE;
