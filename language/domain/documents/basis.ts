import type { Layout } from '../model/layout.ts';
import type { Checked } from '../rules/checked.ts';

/** What every output must say of itself: rules, counts, caution. */
export interface Basis {
  /** For example `Existing-building code appendix, chapter A3, 2021`; `no rule set chosen` where that is so. */
  readonly rules: string;
  readonly label: 'prescriptive - not engineered' | "for engineer's review";
  /** A live stop: relabels every output. */
  readonly stopped: boolean;
  /** Connector values are invented: DEMO VALUES across every output. */
  readonly demo: boolean;
  readonly counts: { readonly stops: number; readonly errors: number; readonly warnings: number; readonly infos: number; readonly notChecked: number; readonly assumed: number };
  /** `N errors under RULES; N not checked for want of measurements; N assumed.` and the caution that follows it. */
  readonly lines: readonly string[];
}

export function basisOf(_layout: Layout, _checked: Checked): Basis {
  throw new Error('being written');
}
