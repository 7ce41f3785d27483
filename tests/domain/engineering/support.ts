import type { Refused, Trace } from '../../../language/domain/engineering/trace.ts';
import { isRefused } from '../../../language/domain/engineering/trace.ts';

/** The result, where the test knows that there is one. */
export function done<T extends object>(outcome: T | Refused): T {
  if (isRefused(outcome)) throw new Error(outcome.reason);
  return outcome;
}

/** The trace and all below it. */
export function everyTrace(trace: Trace): readonly Trace[] {
  return [trace, ...trace.inputs.flatMap(everyTrace)];
}
