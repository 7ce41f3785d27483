import type { Finding, NotChecked } from './finding.ts';

/** What the checks made of a layout. */
export interface Checked {
  /** In house order: by wall, then station, then rule. Accepted ones are included and say so. */
  readonly findings: readonly Finding[];
  readonly notChecked: readonly NotChecked[];
}
