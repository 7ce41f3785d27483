import type { Layout, Wall } from '../model/layout.ts';
import type { SourceSpan } from '../model/source.ts';
import { recording, recordingEach } from '../recording.ts';
import type { Steps } from '../steps.ts';
import { finish } from '../steps.ts';
import { acceptedOnHouse } from './acceptances.ts';
import { hasSameFields } from './as-before.ts';
import type { RawFinding } from './check-wall.ts';
import type { Rule, Seen } from './define.ts';
import type { NotChecked } from './finding.ts';
import { headOf } from './head-of-house.ts';
import { rules } from './registry.ts';
import type { RunResult } from './run-rule.ts';
import { nothingHeard, runRule, withoutProposals } from './run-rule.ts';

export interface HouseChecked {
  readonly findings: readonly RawFinding[];
  readonly acceptedAs: ReadonlyMap<RawFinding, string>;
  readonly notChecked: readonly NotChecked[];
}

/** What each rule on the house said last, and what it had looked at. */
export type HouseMemory = Map<Rule, { readonly read: Read; readonly source: SourceSpan; readonly result: RunResult }>;

/**
 * The rules on the house as a whole, after those on its walls. Each hears what came up before it. With a memory, a rule runs again
 * only when a part of the house that it read is another object than before.
 */
export function checkHouse(layout: Layout, onWalls: Seen, memory?: HouseMemory): HouseChecked {
  return finish(checkHouseInSteps(layout, onWalls, memory));
}

/** The same, leaving off after each rule that ran. */
export function* checkHouseInSteps(layout: Layout, onWalls: Seen, memory?: HouseMemory): Steps<HouseChecked> {
  const findings: RawFinding[] = [];
  const acceptedAs = new Map<RawFinding, string>();
  const notChecked: NotChecked[] = [];
  const source = headOf(layout);
  if (!source) return { findings, acceptedAs, notChecked };
  let seen = onWalls;
  for (const rule of rules) {
    if (rule.on !== 'house') continue;
    const before = memory?.get(rule);
    const result = memory ? resultFrom(memory, rule, layout, source, seen) : run(rule, layout, source, seen);
    const accepted = acceptedOnHouse(layout, result.findings, seen.acceptances);
    for (const [raw, reason] of accepted.acceptedAs) acceptedAs.set(raw, reason);
    for (const raw of result.findings) findings.push(raw);
    for (const each of result.notChecked) notChecked.push(each);
    if (result.crashes.length > 0) seen = { ...seen, crashes: [...seen.crashes, ...result.crashes] };
    if (accepted.seen !== seen.acceptances) seen = { ...seen, acceptances: accepted.seen };
    if (result !== before?.result) yield;
  }
  return { findings, acceptedAs, notChecked };
}

function run(rule: Rule, layout: Layout, source: SourceSpan, seen: Seen): RunResult {
  const thing = { id: 'house', source, station: undefined, layer: 'title' as const };
  const heard = nothingHeard();
  runRule(rule, layout, [{ subject: { layout }, wall: undefined, piece: undefined, ...thing }], seen, heard);
  return heard;
}

interface Read {
  readonly layout: Map<keyof Layout, unknown>;
  /** Which parts of walls were looked at on any of them: of most rules few are. */
  readonly ofWalls: ReadonlySet<PropertyKey>;
  readonly seen: ReadonlyMap<keyof Seen, unknown>;
}

function resultFrom(memory: HouseMemory, rule: Rule, layout: Layout, source: SourceSpan, seen: Seen): RunResult {
  const before = memory.get(rule);
  if (before && before.source === source && isAsRead(before.read, layout, seen)) return before.result;
  const { walls } = layout;
  const read = {
    ...{ layout: new Map<keyof Layout, unknown>(), seen: new Map<keyof Seen, unknown>() },
    ofWalls: new Set<PropertyKey>(),
  };
  const seenThrough = { ...layout, walls: recordingEach(walls, read.ofWalls) };
  const said = run(rule, recording(seenThrough, read.layout), source, recording(seen, read.seen));
  if (read.layout.has('walls')) read.layout.set('walls', walls);
  const result = { ...said, findings: withoutProposals(said.findings) };
  memory.set(rule, { read, source, result });
  return result;
}

function isAsRead(read: Read, layout: Layout, seen: Seen): boolean {
  for (const [part, value] of read.layout) {
    if (part === 'walls' ? !areWallsAsRead(read, layout.walls) : layout[part] !== value) return false;
  }
  for (const [part, value] of read.seen) if (!isListAsRead(seen[part], value)) return false;
  return true;
}

function areWallsAsRead(read: Read, walls: Layout['walls']): boolean {
  const before = read.layout.get('walls') as Layout['walls'];
  if (before === walls) return true;
  if (before.length !== walls.length) return false;
  const parts = [...read.ofWalls] as (keyof Wall)[];
  const isAsRead = walls.every((wall, at) => {
    const was = before[at];
    return was === wall || (was !== undefined && parts.every((part) => was[part] === wall[part]));
  });
  // Of the walls of before nothing is kept longer than it must be.
  if (isAsRead) read.layout.set('walls', walls);
  return isAsRead;
}

/** Lists of what came up are made anew for each round; what is in them mostly is not. */
function isListAsRead(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (!Array.isArray(a) || !Array.isArray(b) || a.length !== b.length) return false;
  return a.every((each: object, index) => each === b[index] || hasSameFields(each, b[index] as object));
}
