import { drilledInto } from '../fit/drilled-holes.ts';
import { pieceAt } from '../fit/piece-anchors.ts';
import type { Layout, SillPiece, UnplacedSill, Wall } from '../model/layout.ts';
import { applies } from './applies.ts';
import type { Crash, OpenQuestion, Rule } from './define.ts';
import type { NotChecked } from './finding.ts';
import { rules } from './registry.ts';
import type { RuleSite, RunResult } from './run-rule.ts';
import { runRule } from './run-rule.ts';

/** What the rules have to say of one wall, before anybody accepted anything. */
export interface WallChecked {
  readonly findings: readonly RawFinding[];
  readonly notChecked: RunResult['notChecked'];
  readonly openQuestions: readonly OpenQuestion[];
  readonly crashes: readonly Crash[];
}
export type RawFinding = RunResult['findings'][number];

export function checkWall(layout: Layout, wall: Wall): WallChecked {
  const results: RunResult[] = [];
  const unreached: NotChecked[] = [];
  for (const rule of rules) {
    if (rule.on === 'house' || !applies(rule, layout, wall)) continue;
    for (const site of sitesOf(rule, wall)) {
      const result = runRule(rule, layout, site, { openQuestions: [], crashes: [], acceptances: [] });
      results.push(result);
      // What crashed once crashes again; once is enough to say so.
      if (result.crashes.length > 0) break;
    }
    if (rule.on === 'piece') unreached.push(...wall.unplaced.map((each) => notReached(rule, wall, each)));
  }
  return {
    findings: results.flatMap((each) => each.findings).sort(inWallOrder),
    notChecked: oncePerMeasurement([...results.flatMap((each) => each.notChecked), ...unreached]),
    openQuestions: results.flatMap((each) => each.openQuestions),
    crashes: results.flatMap((each) => each.crashes),
  };
}

/** A board that nobody can place is not looked at, which is no clean bill. */
function notReached(rule: Rule, wall: Wall, { name, wants, source }: UnplacedSill): NotChecked {
  return { rule: rule.id, wants, thing: wall.id, wall: wall.name, piece: name, span: source };
}

function sitesOf(rule: Rule, wall: Wall): readonly RuleSite[] {
  switch (rule.on) {
    case 'anchor':
      return drilledInto(wall).flatMap((anchor): readonly RuleSite[] => {
        const { connector } = anchor;
        if (!connector) return [];
        const piece = anchor.station === undefined ? undefined : pieceAt(wall, anchor.station);
        const thing = { id: anchor.id, source: anchor.source, station: anchor.station, layer: 'design' as const };
        return [{ subject: { wall, anchor, connector }, wall, piece, ...thing }];
      });
    case 'piece':
      return wall.pieces.map((piece) => siteOfPiece(wall, piece));
    case 'foundation':
      return wall.foundation.map((stretch) => {
        const thing = { id: stretch.id, source: stretch.source, station: stretch.from, layer: 'survey' as const };
        return { subject: { wall, stretch }, wall, piece: undefined, ...thing };
      });
    case 'wall': {
      const thing = { id: wall.id, source: wall.nameSource, station: undefined, layer: 'survey' as const };
      return [{ subject: { wall }, wall, piece: undefined, ...thing }];
    }
    case 'house':
      return [];
  }
}

function siteOfPiece(wall: Wall, piece: SillPiece): RuleSite {
  const thing = { id: piece.id, source: piece.source, station: piece.from, layer: piece.layer };
  return { subject: { wall, piece }, wall, piece, ...thing };
}

function inWallOrder({ finding: a }: RawFinding, { finding: b }: RawFinding): number {
  const station = (a.station ?? Number.NEGATIVE_INFINITY) - (b.station ?? Number.NEGATIVE_INFINITY);
  if (station !== 0 && !Number.isNaN(station)) return station;
  if (a.rule !== b.rule) return a.rule < b.rule ? -1 : 1;
  return a.span.start - b.span.start;
}

/** A measurement is missing once, however many anchors ask for it. */
function oncePerMeasurement(notChecked: RunResult['notChecked']): RunResult['notChecked'] {
  return [...new Map(notChecked.map((each) => [`${each.rule} ${each.wants} ${each.thing}`, each])).values()];
}
