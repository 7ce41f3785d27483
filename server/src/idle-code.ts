import { setFlagsFromString } from 'node:v8';

/**
 * Lets go of compiled code that was not run for two collections of garbage: a first reading runs nearly all of it, an edit little. V8 would
 * wait for six, and keep its first, unoptimised machine code for good; that is 3 MB, and keys are as fast. A V8 that does not know
 * these flags says so and goes on.
 */
export function letGoOfIdleCode(): void {
  setFlagsFromString('--flush-baseline-code');
  setFlagsFromString('--bytecode-old-age=2');
}
