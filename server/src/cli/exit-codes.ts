/** Scripts rely on these. Of several, the greatest is given. */
export const exitCodes = {
  clean: 0,
  /** An error or a stop was found. */
  found: 1,
  /** A file, an option or an output made it impossible to do what was asked. */
  couldNotRun: 2,
  /** Ours, not the user's. */
  defect: 3,
} as const;
export type ExitCode = (typeof exitCodes)[keyof typeof exitCodes];

export function graver(a: ExitCode, b: ExitCode): ExitCode {
  return a >= b ? a : b;
}
