/** Lends the server the collector of garbage, for the pauses of typing: see `freeYoung` in `server/src/start.ts`. */
export const serverFlags: readonly string[] = ['--expose-gc'];
