import { cornersOf } from '../fit/corners.ts';
import { wallsOfLine } from '../fit/storeys.ts';
import { withEdits } from '../fixes/apply-in-memory.ts';
import type { InRuns } from '../list-in-runs.ts';
import { changedPlaces, createRuns, isSameList, joined, sameAtEnds, sameList } from '../list-in-runs.ts';
import type { Acceptance, Layout, Wall } from '../model/layout.ts';
import { perimeterOf } from '../model/taped-outline.ts';
import { placeInList } from '../place-in-list.ts';
import { withoutSpareRoom } from '../spare-room.ts';
import type { Steps } from '../steps.ts';
import { finish } from '../steps.ts';
import type { AcceptedOnWall } from './acceptances.ts';
import { acceptedOnWall, nothingAccepted, seenOnWalls } from './acceptances.ts';
import { asBefore } from './as-before.ts';
import type { HouseMemory } from './check-house.ts';
import { checkHouse, checkHouseInSteps } from './check-house.ts';
import type { RawFinding, WallChecked, WallPart } from './check-wall.ts';
import { checkWallInSteps, oncePerMeasurement, proposalsOnWall, wholeWall } from './check-wall.ts';
import type { Checked } from './checked.ts';
import type { Rule, Seen } from './define.ts';
import type { Finding } from './finding.ts';
import { allAround, ofWholeHouse, restsOn } from './rests-on.ts';
import type { RunResult } from './run-rule.ts';
import { withoutProposals } from './run-rule.ts';
import type { Edited } from './verified-fixes.ts';
import { verifiedFixes } from './verified-fixes.ts';

/**
 * Everything that the rules have to say of a house. Total: a rule that throws costs its own findings, is reported, and stops
 * nothing else. Walls of which nothing changed keep their results, see `restsOn`.
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
  const { last } = memory;
  const rounds = last ? last.rounds.slice(0, layout.walls.length) : [];
  for (const place of wallsDue(last, layout)) {
    const wall = layout.walls[place];
    if (!wall) continue;
    const checked = checkedBefore(layout, wall) ?? (yield* checkedAgain(layout, wall));
    rounds[place] = keptWall(layout, wall, checked, memory);
  }
  const onWalls = allOnWalls(layout, memory.inRuns(rounds));
  const house = yield* checkHouseInSteps(layout, onWalls.seen, memory.house);
  const rawOnHouse = asBefore(last?.rawOnHouse ?? [], house.findings);
  const onHouse = house.findings.map((raw, index) =>
    keptOnHouse(rawOnHouse[index] ?? raw, house.acceptedAs.get(raw), memory),
  );
  const now = { trial, rounds, rawOnHouse };
  if (last) leaveBehind(last, now, memory);
  memory.last = now;
  return {
    findings: onHouse.concat(onWalls.findings),
    notChecked: house.notChecked.concat(onWalls.notChecked),
  };
}

/** The places of those walls that an edit may have changed something for: see `restsOn`. */
function wallsDue(last: LastRound | undefined, layout: Layout): Iterable<number> {
  const before = last?.trial.layout;
  const isAllDue =
    !before ||
    ofWholeHouse(before) !== ofWholeHouse(layout) ||
    before.lines !== layout.lines ||
    before.record !== layout.record ||
    before.title.accepted !== layout.title.accepted ||
    before.walls.length !== layout.walls.length ||
    perimeterOf(before).length !== perimeterOf(layout).length;
  if (isAllDue) return layout.walls.keys();
  const due = new Set<number>();
  for (const place of changedPlaces(before.walls, layout.walls)) {
    due.add(place);
    for (const house of [before, layout]) {
      const wall = house.walls[place];
      if (!wall) continue;
      const { left, right } = cornersOf(house, wall);
      // Who stands beside it, or along its line, stands at the same place in both houses, or has changed too.
      for (const other of [left?.neighbour, right?.neighbour, ...wallsOfLine(house, wall)]) {
        const placeOfOther = other && placeInList(house.walls, other);
        if (placeOfOther !== undefined) due.add(placeOfOther);
      }
    }
  }
  return due;
}

/** What there is to say of a run of walls. Lists of which an edit changes no member stay the same objects. */
interface OnWalls extends Omit<WallChecked, 'findings'> {
  readonly findings: readonly Finding[];
  readonly accepted: readonly AcceptedOnWall[];
}

function roundsTogether(rounds: readonly KeptWall['round'][], before: OnWalls | undefined): OnWalls {
  return {
    findings: rounds.flatMap((round) => round.findings),
    notChecked: rounds.flatMap(({ checked }) => checked.notChecked),
    openQuestions: sameList(
      before?.openQuestions,
      rounds.flatMap(({ checked }) => checked.openQuestions),
    ),
    crashes: rounds.flatMap(({ checked }) => checked.crashes),
    accepted: rounds.flatMap(({ accepted }) => (accepted === nothingAccepted ? [] : [accepted])),
  };
}

function allOnWalls(layout: Layout, runs: readonly OnWalls[]): Checked & { readonly seen: Seen } {
  const all = <Member>(listIn: (run: OnWalls) => readonly Member[]): readonly Member[] => joined(runs.map(listIn));
  return {
    seen: {
      openQuestions: all((run) => run.openQuestions),
      crashes: all((run) => run.crashes),
      acceptances: seenOnWalls(
        layout,
        all((run) => run.accepted),
      ),
    },
    findings: all((run) => run.findings),
    notChecked: all((run) => run.notChecked),
  };
}

/** What was found of a house, kept while it is edited; for one house at a time. */
export interface CheckMemory {
  readonly walls: WeakMap<Wall, KeptWall>;
  readonly inRuns: InRuns<KeptWall['round'], OnWalls>;
  readonly house: HouseMemory;
  readonly findings: WeakMap<RawFinding, Finding>;
  /** The last that a finding on the house held in which holds no longer. */
  readonly heldOnHouse: WeakMap<RawFinding, Trial>;
  /** The last that came to its end. */
  last: LastRound | undefined;
}

export function createCheckMemory(): CheckMemory {
  return {
    walls: new WeakMap(),
    inRuns: createRuns(roundsTogether),
    house: new Map(),
    findings: new WeakMap(),
    heldOnHouse: new WeakMap(),
    last: undefined,
  };
}

interface LastRound {
  readonly trial: Trial;
  /** Of each wall. */
  readonly rounds: readonly KeptWall['round'][];
  readonly rawOnHouse: readonly RawFinding[];
}

/** Findings of walls that are gone now, and of the house that hold no longer, keep what they last held in. */
function leaveBehind(last: LastRound, now: LastRound, memory: CheckMemory): void {
  const walls = unshared(last.trial.layout.walls, now.trial.layout.walls);
  const leave = (wall: Wall, trial: Trial | undefined): void => {
    const kept = memory.walls.get(wall);
    if (kept) kept.left = trial;
  };
  for (const wall of walls.before) leave(wall, last.trial);
  for (const wall of walls.now) leave(wall, undefined);
  const onHouse = unshared(last.rawOnHouse, now.rawOnHouse);
  for (const raw of onHouse.before) memory.heldOnHouse.set(raw, last.trial);
  for (const raw of onHouse.now) memory.heldOnHouse.delete(raw);
}

/** The parts of two lists between what they share at their ends. */
function unshared<Member>(before: readonly Member[], now: readonly Member[]) {
  const { start, end } = sameAtEnds(before, now);
  return { before: before.slice(start, before.length - end), now: now.slice(start, now.length - end) };
}

/** What fixes are worked out from: the newest layout that the finding holds in. */
interface Trial {
  readonly layout: Layout;
  readonly edited: Edited;
}

interface KeptWall {
  /** Of a wall that is gone, the last that it stood in. */
  left: Trial | undefined;
  round: {
    readonly checked: WallChecked;
    readonly accepted: AcceptedOnWall;
    readonly houseWide: readonly Acceptance[];
    readonly findings: readonly Finding[];
  };
}

function keptWall(layout: Layout, wall: Wall, checked: WallChecked, memory: CheckMemory): KeptWall['round'] {
  const houseWide = layout.title.accepted;
  const before = memory.walls.get(wall);
  // The tolerance that an acceptance allows for is one of the rules, of which `checked` is made.
  if (before && before.round.checked === checked && before.round.houseWide === houseWide) return before.round;
  const accepted = acceptedOnWall(layout, wall, checked);
  const round = { checked, accepted, houseWide, findings: [] };
  const kept: KeptWall = before ?? { left: undefined, round };
  memory.walls.set(wall, kept);
  kept.round = {
    ...round,
    findings: checked.findings.map((raw) => onWall(wall, raw, accepted.acceptedAs.get(raw), kept, memory)),
  };
  return kept.round;
}

function onWall(
  wall: Wall,
  raw: RawFinding,
  accepted: string | undefined,
  kept: KeptWall,
  memory: CheckMemory,
): Finding {
  const known = memory.findings.get(raw);
  if (known && known.accepted === accepted) return known;
  const finding = asFinding(raw, accepted, { raw, wall, kept, memory, done: undefined });
  memory.findings.set(raw, finding);
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

function keptOnHouse(raw: RawFinding, accepted: string | undefined, memory: CheckMemory): Finding {
  const before = memory.findings.get(raw);
  if (before && before.accepted === accepted) return before;
  const finding = asFinding(raw, accepted, { raw, wall: undefined, kept: undefined, memory, done: undefined });
  memory.findings.set(raw, finding);
  return finding;
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
  /** What all parts rest on. */
  readonly common: readonly unknown[];
  readonly parts: readonly KeptPart[];
  readonly checked: WallChecked;
}
interface KeptPart {
  /** What it alone rests on. */
  readonly own: readonly unknown[];
  readonly part: WallPart;
}

function checkedWall(layout: Layout, wall: Wall): WallChecked {
  return checkedBefore(layout, wall) ?? finish(checkedAgain(layout, wall));
}

/** What was found of a wall, where nothing at all changed that it rests on. */
function checkedBefore(layout: Layout, wall: Wall): WallChecked | undefined {
  const before = keptParts.get(wall);
  return before && isSameList(before.around, allAround(layout, wall)) ? before.checked : undefined;
}

function* checkedAgain(layout: Layout, wall: Wall): Steps<WallChecked> {
  const before = keptParts.get(wall);
  const around = allAround(layout, wall);
  const { common, apart } = restsOn(layout, wall);
  const isCommonKept = before && isSameList(before.common, common);
  const parts: KeptPart[] = [];
  for (const [index, { besides, own }] of apart.entries()) {
    const known = before?.parts[index];
    const isKept = isCommonKept && known && isSameList(known.own, own);
    parts.push(isKept ? known : { own: own.slice(), part: yield* keptPart(layout, wall, besides) });
  }
  const checked = before?.parts.every((each, index) => each.part === parts[index]?.part)
    ? before.checked
    : withoutSpareRoom(wholeWall(parts.map(({ part }) => part)));
  // Copies have no room for more than is in them.
  keptParts.set(wall, {
    around: around.slice(),
    common: isCommonKept ? before.common : common.slice(),
    parts: parts.slice(),
    checked,
  });
  return checked;
}

function* keptPart(layout: Layout, wall: Wall, besides: Rule['besides']): Steps<WallPart> {
  const heard = yield* checkWallInSteps(layout, wall, besides);
  const { findings, openQuestions, crashes, unreached } = heard;
  const notChecked = oncePerMeasurement(heard.notChecked);
  const lists = [findings, notChecked, openQuestions, crashes, unreached];
  if (lists.every(({ length }) => length === 0)) return nothingToSay;
  const kept = withoutProposals(findings);
  return withoutSpareRoom({ findings: kept, notChecked, openQuestions, crashes, unreached });
}
const nothingToSay: WallPart = { findings: [], notChecked: [], openQuestions: [], crashes: [], unreached: [] };

/** The fixes are worked out when somebody reads them, and once for each layout that the finding holds in. */
function asFinding(raw: RawFinding, accepted: string | undefined, work: WorkOfFixes): Finding {
  // Put on as a new property: to change one into a getter would make of each finding an object that is large and slow to look at.
  const finding = Object.defineProperty({ ...raw.finding, accepted } as Finding, 'fixes', fixesWhenRead);
  workOfFindings.set(finding, work);
  return finding;
}

/** One getter for all: a getter of its own would make every finding an object of another shape, slow to look at. */
const fixesWhenRead: PropertyDescriptor = {
  enumerable: true,
  get(this: Finding): Finding['fixes'] {
    const work = workOfFindings.get(this);
    return work ? fixesOf(work) : [];
  },
};
/** What the fixes of a finding are worked out from: as data, since findings are many. */
interface WorkOfFixes {
  readonly raw: RawFinding;
  /** `undefined`: of the house. */
  readonly wall: Wall | undefined;
  readonly kept: KeptWall | undefined;
  readonly memory: CheckMemory;
  done: { readonly trial: Trial; readonly fixes: Finding['fixes'] } | undefined;
}
const workOfFindings = new WeakMap<object, WorkOfFixes>();

function fixesOf(work: WorkOfFixes): Finding['fixes'] {
  const { raw, wall, kept, memory } = work;
  const trial = (kept ? kept.left : memory.heldOnHouse.get(raw)) ?? memory.last?.trial;
  if (!trial) return [];
  if (work.done?.trial !== trial)
    work.done = { trial, fixes: wall ? fixesOnWall(raw, wall, trial) : fixesOnHouse(raw, trial) };
  return work.done.fixes;
}

function fixesOnWall(raw: RawFinding, wall: Wall, { layout, edited }: Trial): Finding['fixes'] {
  const proposing = raw.proposes ? proposingAgain(raw, layout, wall) : undefined;
  return proposing ? verifiedFixes(layout, proposing, edited, (now) => wallAgain(now, wall)) : [];
}

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
