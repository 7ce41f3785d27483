import { cornersOf, seenRound } from '../fit/corners.ts';
import { lineOf, othersOfLine, speaksForLine } from '../fit/storeys.ts';
import { provenIn } from '../fit/tested-anchors.ts';
import { withEdits } from '../fixes/apply-in-memory.ts';
import type { Acceptance, Layout, Wall } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import type { Steps } from '../steps.ts';
import { finish } from '../steps.ts';
import type { AcceptedOnWall } from './acceptances.ts';
import { acceptedOnWall, seenOnWalls } from './acceptances.ts';
import type { HouseMemory } from './check-house.ts';
import { checkHouse, checkHouseInSteps } from './check-house.ts';
import type { RawFinding, WallChecked, WallPart } from './check-wall.ts';
import { checkWallInSteps, proposalsOnWall, wholeWall } from './check-wall.ts';
import type { Checked } from './checked.ts';
import type { Crash, OpenQuestion, Rule, Seen } from './define.ts';
import type { Finding, NotChecked } from './finding.ts';
import { isForgotten } from './load-path/wall-line-forgotten.ts';
import type { RunResult } from './run-rule.ts';
import { withoutProposals } from './run-rule.ts';
import type { CheckAgain, Edited } from './verified-fixes.ts';
import { verifiedFixes } from './verified-fixes.ts';

/**
 * Everything that the rules have to say of a house. Total: a rule that throws costs its own findings, is reported, and stops
 * nothing else. Walls of which nothing changed keep their results, see `dependsOn`.
 * @param edited what fixes are tried with; by itself it knows no edit that shows in the text only
 * @param memory of the same house while it is edited: a finding that still holds is the same object as before
 */
export function checkLayout(
  layout: Layout,
  edited: Edited = withEdits,
  memory: CheckMemory = createCheckMemory(),
): Checked {
  return finish(checkLayoutInSteps(layout, edited, memory));
}

/** The same, leaving off after each rule that had to run: on a wall, the first of which takes long, or on the house. */
export function* checkLayoutInSteps(layout: Layout, edited: Edited, memory: CheckMemory): Steps<Checked> {
  const trial = { layout, edited };
  const walls: KeptWall['round'][] = [];
  for (const wall of layout.walls) {
    const checked = checkedBefore(layout, wall) ?? (yield* checkedAgain(layout, wall));
    walls.push(keptWall(layout, wall, checked, memory, trial));
  }
  const onWalls = allOnWalls(layout, walls);
  const house = yield* checkHouseInSteps(layout, onWalls.seen, memory.house);
  const onHouse = house.findings.map((raw) => keptOnHouse(raw, house.acceptedAs.get(raw), memory, trial));
  return {
    findings: onHouse.concat(onWalls.findings),
    notChecked: house.notChecked.concat(onWalls.notChecked),
  };
}

function allOnWalls(layout: Layout, walls: readonly KeptWall['round'][]): Checked & { readonly seen: Seen } {
  const acceptances = seenOnWalls(
    layout,
    walls.map(({ accepted }) => accepted),
  );
  const openQuestions: OpenQuestion[] = [];
  const crashes: Crash[] = [];
  const notChecked: NotChecked[] = [];
  const findings: Finding[] = [];
  for (const { checked, findings: own } of walls) {
    for (const each of checked.openQuestions) openQuestions.push(each);
    for (const each of checked.crashes) crashes.push(each);
    for (const each of checked.notChecked) notChecked.push(each);
    for (const each of own) findings.push(each);
  }
  return { seen: { openQuestions, crashes, acceptances }, findings, notChecked };
}

/** What was found of a house, kept while it is edited; for one house at a time. */
export interface CheckMemory {
  readonly walls: WeakMap<Wall, KeptWall>;
  readonly house: HouseMemory;
  readonly houseFindings: WeakMap<RawFinding, KeptOnHouse>;
}

export function createCheckMemory(): CheckMemory {
  return { walls: new WeakMap(), house: new Map(), houseFindings: new WeakMap() };
}

/** What fixes are worked out from: the newest layout that the finding holds in. */
interface Trial {
  readonly layout: Layout;
  readonly edited: Edited;
}

interface KeptWall {
  trial: Trial;
  round: {
    readonly checked: WallChecked;
    readonly accepted: AcceptedOnWall;
    readonly houseWide: readonly Acceptance[];
    readonly findings: readonly Finding[];
  };
  readonly known: WeakMap<RawFinding, { readonly accepted: string | undefined; readonly finding: Finding }>;
}

function keptWall(
  layout: Layout,
  wall: Wall,
  checked: WallChecked,
  memory: CheckMemory,
  trial: Trial,
): KeptWall['round'] {
  const houseWide = layout.title.accepted;
  const before = memory.walls.get(wall);
  if (before) before.trial = trial;
  // The tolerance that an acceptance allows for is one of the rules, of which `checked` is made.
  if (before && before.round.checked === checked && before.round.houseWide === houseWide) return before.round;
  const accepted = acceptedOnWall(layout, wall, checked);
  const round = { checked, accepted, houseWide, findings: [] };
  const kept: KeptWall = before ?? { trial, round, known: new WeakMap() };
  memory.walls.set(wall, kept);
  kept.round = {
    ...round,
    findings: checked.findings.map((raw) => onWall(wall, raw, accepted.acceptedAs.get(raw), kept)),
  };
  return kept.round;
}

function onWall(wall: Wall, raw: RawFinding, accepted: string | undefined, kept: KeptWall): Finding {
  const known = kept.known.get(raw);
  if (known && known.accepted === accepted) return known.finding;
  const again: CheckAgain = (now) => wallAgain(now, wall);
  const fixesIn = (now: Trial): Finding['fixes'] => {
    const proposing = raw.proposes ? proposingAgain(raw, now.layout, wall) : undefined;
    return proposing ? verifiedFixes(now.layout, proposing, now.edited, again) : [];
  };
  const finding = asFinding(raw, accepted, () => kept.trial, fixesIn);
  kept.known.set(raw, { accepted, finding });
  return finding;
}

/** The same finding of the same wall, with what its rule proposes. */
function proposingAgain(raw: RawFinding, layout: Layout, wall: Wall): RawFinding | undefined {
  const before = proposals.get(layout);
  const findings = before?.wall === wall ? before.findings : proposalsOnWall(layout, wall);
  proposals.set(layout, { wall, findings });
  const { message, span } = raw.finding;
  return findings.find(
    ({ identity, finding }) =>
      identity === raw.identity && finding.message === message && finding.span.start === span.start,
  );
}
/** Findings of one wall are mostly asked one after the other. */
const proposals = new WeakMap<Layout, { readonly wall: Wall; readonly findings: readonly RawFinding[] }>();

interface KeptOnHouse {
  readonly accepted: string | undefined;
  readonly finding: Finding;
  trial: Trial;
}

function keptOnHouse(raw: RawFinding, accepted: string | undefined, memory: CheckMemory, trial: Trial): Finding {
  const before = memory.houseFindings.get(raw);
  if (before && before.accepted === accepted) {
    before.trial = trial;
    return before.finding;
  }
  const kept: KeptOnHouse = {
    accepted,
    trial,
    finding: asFinding(
      raw,
      accepted,
      () => kept.trial,
      (now) => fixesOnHouse(raw, now),
    ),
  };
  memory.houseFindings.set(raw, kept);
  return kept.finding;
}

/** A rule on the house may have looked at an earlier layout, of which what it proposes would still speak. */
function fixesOnHouse(raw: RawFinding, { layout, edited }: Trial): Finding['fixes'] {
  if (!raw.proposes) return [];
  const now = houseAgain(layout).findings.find((each) => each.identity === raw.identity);
  return now ? verifiedFixes(layout, now, edited, houseAgain) : [];
}

const keptParts = new WeakMap<Wall, KeptParts>();
interface KeptParts {
  /** Where they are the same objects, no part needs a closer look. */
  readonly around: readonly unknown[];
  readonly parts: readonly KeptPart[];
  readonly checked: WallChecked;
}
interface KeptPart {
  readonly inputs: readonly unknown[];
  readonly part: WallPart;
}

function checkedWall(layout: Layout, wall: Wall): WallChecked {
  return checkedBefore(layout, wall) ?? finish(checkedAgain(layout, wall));
}

/** What was found of a wall, where nothing at all changed that it rests on. */
function checkedBefore(layout: Layout, wall: Wall): WallChecked | undefined {
  const before = keptParts.get(wall);
  return before && sameInputs(before.around, allAround(layout, wall)) ? before.checked : undefined;
}

function* checkedAgain(layout: Layout, wall: Wall): Steps<WallChecked> {
  const before = keptParts.get(wall);
  const around = allAround(layout, wall);
  const parts: KeptPart[] = [];
  for (const [index, { besides, inputs }] of dependsOn(layout, wall).entries()) {
    const known = before?.parts[index];
    const isKept = known && sameInputs(known.inputs, inputs);
    parts.push(isKept ? known : { inputs, part: yield* keptPart(layout, wall, besides) });
  }
  const checked = before?.parts.every((each, index) => each.part === parts[index]?.part)
    ? before.checked
    : wholeWall(parts.map(({ part }) => part));
  keptParts.set(wall, { around, parts, checked });
  return checked;
}

function* keptPart(layout: Layout, wall: Wall, besides: Rule['besides']): Steps<WallPart> {
  const part = yield* checkWallInSteps(layout, wall, besides);
  return { ...part, findings: withoutProposals(part.findings) };
}

/** Everything that `dependsOn` looks at, at a glance. */
function allAround(layout: Layout, wall: Wall): readonly unknown[] {
  const { left, right } = cornersOf(layout, wall);
  const around: unknown[] = [
    ofWholeHouse(layout),
    left?.neighbour,
    left?.turn,
    right?.neighbour,
    right?.turn,
    lineOf(layout, wall),
    provenIn(layout, wall),
    isForgotten(layout, wall),
    speaksForLine(layout, wall),
  ];
  for (const other of othersOfLine(layout, wall)) around.push(other);
  return around;
}

/** All that the findings of a wall rest on beside the wall itself; an edit elsewhere leaves them as they are. */
function dependsOn(
  layout: Layout,
  wall: Wall,
): readonly { readonly besides: Rule['besides']; readonly inputs: readonly unknown[] }[] {
  const { left, right } = cornersOf(layout, wall);
  const line = lineOf(layout, wall);
  const common = [
    ofWholeHouse(layout),
    line?.storeys?.source,
    line?.storeys?.kind,
    knownValue(line?.storeys),
    line?.exempt?.from,
    provenIn(layout, wall),
    isForgotten(layout, wall),
    speaksForLine(layout, wall),
    ...seenRound(left),
    ...seenRound(right),
  ];
  return [
    { besides: undefined, inputs: common },
    { besides: 'round-corners', inputs: [left?.neighbour, right?.neighbour, ...common] },
    { besides: 'along-line', inputs: [...othersOfLine(layout, wall), line, ...common] },
  ];
}

const wholes = new WeakMap<Layout['rules'], (readonly unknown[])[]>();

/** What all walls rest on, as one object that stays while its parts do. */
function ofWholeHouse(layout: Layout): readonly unknown[] {
  const before = wholeOfLayouts.get(layout);
  if (before) return before;
  const { storeys, floorUnderside } = layout.house;
  const inputs = [
    layout.connectors,
    layout.title.units,
    // Findings lead to the lines that say these, so a line that is read anew counts as another.
    storeys?.source,
    floorUnderside?.source,
    storeys?.kind,
    knownValue(storeys),
    floorUnderside?.kind,
    knownValue(floorUnderside),
    // Sheets go in through the space that the wall stands along.
    ...layout.spaces,
  ];
  const known = wholes.get(layout.rules) ?? [];
  const whole = known.find((each) => sameInputs(each, inputs)) ?? inputs;
  // Of the houses open side by side; an older one only costs checking its walls once more.
  wholes.set(layout.rules, [whole, ...known.filter((each) => each !== whole)].slice(0, 8));
  wholeOfLayouts.set(layout, whole);
  return whole;
}
const wholeOfLayouts = new WeakMap<Layout, readonly unknown[]>();

function sameInputs(a: readonly unknown[], b: readonly unknown[]): boolean {
  if (a.length !== b.length) return false;
  for (let index = 0; index < a.length; index += 1) if (!Object.is(a[index], b[index])) return false;
  return true;
}

/** The fixes are worked out when somebody reads them, and once for each layout that the finding holds in. */
function asFinding(
  raw: RawFinding,
  accepted: string | undefined,
  trialNow: () => Trial,
  work: (trial: Trial) => Finding['fixes'],
): Finding {
  let known: { readonly trial: Trial; readonly fixes: Finding['fixes'] } | undefined;
  const finding = { ...raw.finding, accepted, fixes: [] };
  workOfFindings.set(finding, () => {
    const trial = trialNow();
    if (known?.trial !== trial) known = { trial, fixes: work(trial) };
    return known.fixes;
  });
  return Object.defineProperty(finding, 'fixes', fixesWhenRead);
}

/** One getter for all: a getter of its own would make every finding an object of another shape, slow to look at. */
const fixesWhenRead: PropertyDescriptor = {
  enumerable: true,
  get(this: Finding): Finding['fixes'] {
    return workOfFindings.get(this)?.() ?? [];
  },
};
const workOfFindings = new WeakMap<object, () => Finding['fixes']>();

function wallAgain(layout: Layout, wall: Wall): RunResult | undefined {
  const now = layout.walls.find((each) => each.id === wall.id);
  return now && checkedWall(layout, now);
}

function houseAgain(layout: Layout): RunResult {
  const walls = layout.walls.map((wall) => ({ wall, checked: checkedWall(layout, wall) }));
  const openQuestions = walls.flatMap(({ checked }) => checked.openQuestions);
  const crashes = walls.flatMap(({ checked }) => checked.crashes);
  const acceptances = seenOnWalls(
    layout,
    walls.map(({ wall, checked }) => acceptedOnWall(layout, wall, checked)),
  );
  const house = checkHouse(layout, { openQuestions, crashes, acceptances });
  return {
    findings: [...house.findings, ...walls.flatMap(({ checked }) => checked.findings)],
    notChecked: [...house.notChecked, ...walls.flatMap(({ checked }) => checked.notChecked)],
    openQuestions,
    crashes,
  };
}
