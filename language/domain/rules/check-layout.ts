import { cornersOf } from '../fit/corners.ts';
import { lineOf } from '../fit/storeys.ts';
import type { Layout, Wall } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import { acceptedOnWalls } from './acceptances.ts';
import { checkHouse } from './check-house.ts';
import type { RawFinding, WallChecked } from './check-wall.ts';
import { checkWall } from './check-wall.ts';
import type { Checked } from './checked.ts';
import type { Crash, OpenQuestion } from './define.ts';
import type { Finding, NotChecked } from './finding.ts';
import { verifiedFixes } from './verified-fixes.ts';

/**
 * Everything that the rules have to say of a house. Total: a rule that throws costs its own findings, is reported, and stops
 * nothing else. Walls of which nothing changed keep their results, see `dependsOn`.
 */
export function checkLayout(layout: Layout): Checked {
  const walls = layout.walls.map((wall) => ({ wall, checked: checkedWall(layout, wall) }));
  const { acceptedAs, seen: acceptances } = acceptedOnWalls(layout, walls);
  const openQuestions: OpenQuestion[] = [];
  const crashes: Crash[] = [];
  const notChecked: NotChecked[] = [];
  const findings: Finding[] = [];
  for (const { wall, checked } of walls) {
    openQuestions.push(...checked.openQuestions);
    crashes.push(...checked.crashes);
    notChecked.push(...checked.notChecked);
    for (const raw of checked.findings) findings.push(asFinding(layout, wall, raw, acceptedAs.get(raw)));
  }
  const house = checkHouse(layout, { openQuestions, crashes, acceptances });
  return {
    findings: [
      ...house.findings.map((raw) => asFinding(layout, undefined, raw, house.acceptedAs.get(raw))),
      ...findings,
    ],
    notChecked: [...house.notChecked, ...notChecked],
  };
}

const kept = new WeakMap<Wall, { readonly inputs: readonly unknown[]; readonly checked: WallChecked }>();

function checkedWall(layout: Layout, wall: Wall): WallChecked {
  const inputs = dependsOn(layout, wall);
  const before = kept.get(wall);
  if (before?.inputs.every((input, index) => Object.is(input, inputs[index]))) return before.checked;
  const checked = checkWall(layout, wall);
  kept.set(wall, { inputs, checked });
  return checked;
}

/** All that the findings of a wall rest on beside the wall itself; an edit elsewhere leaves them as they are. */
function dependsOn(layout: Layout, wall: Wall): readonly unknown[] {
  const { left, right } = cornersOf(layout, wall);
  const line = lineOf(layout, wall);
  return [
    layout.rules,
    layout.connectors,
    layout.title.units,
    left?.neighbour,
    left?.turn,
    right?.neighbour,
    right?.turn,
    layout.house.storeys?.kind,
    knownValue(layout.house.storeys),
    line?.storeys?.kind,
    knownValue(line?.storeys),
    line?.exempt?.from,
  ];
}

/** The fixes are worked out when somebody reads them, and only once. */
function asFinding(layout: Layout, wall: Wall | undefined, raw: RawFinding, accepted: string | undefined): Finding {
  let fixes: Finding['fixes'] | undefined;
  return {
    ...raw.finding,
    accepted,
    get fixes() {
      fixes ??= wall ? verifiedFixes(layout, wall, raw) : [];
      return fixes;
    },
  };
}
