/** Where a command writes: results to `out`, words about them to `err`. */
export interface Terminal {
  out(text: string): void;
  err(text: string): void;
}

/** `sillwright: …` on the error stream. */
export function complain(terminal: Terminal, message: string): void {
  terminal.err(`sillwright: ${message}\n`);
}
