import type { Layout } from '../model/layout.ts';
import { acceptedOnHouse } from './acceptances.ts';
import type { Seen } from './define.ts';
import type { NotChecked } from './finding.ts';
import { headOf } from './head-of-house.ts';
import { rules } from './registry.ts';
import type { RunResult } from './run-rule.ts';
import { runRule } from './run-rule.ts';

export interface HouseChecked {
  readonly findings: RunResult['findings'];
  readonly acceptedAs: ReadonlyMap<RunResult['findings'][number], string>;
  readonly notChecked: readonly NotChecked[];
}

/** The rules on the house as a whole, after those on its walls. Each hears what came up before it. */
export function checkHouse(layout: Layout, onWalls: Seen): HouseChecked {
  const findings: RunResult['findings'][number][] = [];
  const acceptedAs = new Map<RunResult['findings'][number], string>();
  const notChecked: NotChecked[] = [];
  const source = headOf(layout);
  if (!source) return { findings, acceptedAs, notChecked };
  const site = {
    subject: { layout },
    wall: undefined,
    piece: undefined,
    id: 'house',
    source,
    station: undefined,
    layer: 'title' as const,
  };
  let seen = onWalls;
  for (const rule of rules) {
    if (rule.on !== 'house') continue;
    const result = runRule(rule, layout, site, seen);
    const accepted = acceptedOnHouse(layout, result.findings, seen.acceptances);
    for (const [raw, reason] of accepted.acceptedAs) acceptedAs.set(raw, reason);
    findings.push(...result.findings);
    notChecked.push(...result.notChecked);
    seen = { ...seen, crashes: [...seen.crashes, ...result.crashes], acceptances: accepted.seen };
  }
  return { findings, acceptedAs, notChecked };
}
