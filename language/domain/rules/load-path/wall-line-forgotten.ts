import { anchorsOf } from '../../fit/piece-anchors.ts';
import { lineOf, othersOfLine, speaksForLine, wallsOfLine } from '../../fit/storeys.ts';
import { insertAnchors } from '../../fixes/anchor-fixes.ts';
import { withEdits } from '../../fixes/apply-in-memory.ts';
import type { ThingEdit } from '../../fixes/edit.ts';
import type { Layout, Wall } from '../../model/layout.ts';
import { formatStation } from '../../units/format-length.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import type { Fix } from '../finding.ts';

export const wallLineForgotten = defineRule({
  id: 'load-path/wall-line-forgotten',
  severity: 'error',
  on: 'wall',
  besides: 'along-line',
  summary: 'A perimeter line has no work on it, no old anchor that counts, and no reason why.',
  why: 'An earthquake pushes in every direction. A house that is tied down on three sides twists about them and leaves its foundation on the fourth.',
  remedy: 'Lay out work on the line; or write `exempt … because` on the line, or `no work because` for the wall.',
  subjects: {},
  examples: [{ failing: demo({ anchors: [] }), passing: demo({ anchors: sound }) }],
  check({ wall }, context) {
    const { layout, showStation } = context;
    if (wall.role !== 'perimeter' || !speaksForLine(layout, wall) || !isForgotten(layout, wall)) return;
    const line = lineOf(layout, wall);
    const walls = [wall, ...othersOfLine(layout, wall)];
    const what =
      line && walls.length > 1
        ? `Line ${line.name} (walls ${walls.map((each) => each.name).join(', ')})`
        : `Wall ${wall.name}${wall.length === undefined ? '' : `, ${showStation(wall.length)} long,`}`;
    context.report({
      message:
        `${what} has no work, no old anchor that counts and no reason why: this side stays loose on its foundation (common practice, no source). ` +
        'Lay out its work, or say why not: `no work because "…"`.',
      about: `line of ${wall.id}`,
      layer: 'design',
      span: wall.nameSource,
      related: wall.pieces.slice(0, 4).map((piece) => ({ span: piece.source, message: `sill ${piece.name} is loose` })),
      fixes: (now) => anchorWhole(now, wall),
    });
  },
});

/**
 * Nobody has begun with the line that a wall belongs to. Of its boards nothing more is said: the line is the matter. A wall
 * without wood on it has nothing to tie down.
 */
export function isForgotten(layout: Layout, wall: Wall): boolean {
  if (wall.role !== 'perimeter' || !isBare(wall)) return false;
  const exempt = lineOf(layout, wall)?.exempt?.from;
  if (exempt === 'all' || exempt === 'anchorage') return false;
  const walls = wallsOfLine(layout, wall);
  return walls.every(isBare) && walls.some((each) => each.pieces.length > 0 || each.unplaced.length > 0);
}

function isBare(wall: Wall): boolean {
  return (
    wall.noWork === undefined &&
    wall.anchors.length + wall.angles.length + wall.panels.length + wall.ties.length + wall.remedies.length === 0 &&
    !wall.blocking.some((each) => each.layer === 'design') &&
    !wall.studs.some((each) => each.layer === 'design') &&
    !wall.pieces.some((piece) => piece.layer === 'design' || anchorsOf(wall, piece).length > 0)
  );
}

/** Anchors for every board of the wall: of the kind that fits each best, and of the next best where there is one. */
function anchorWhole(layout: Layout, wall: Wall): readonly Fix[] {
  const [best, next] = [anchorWith(layout, wall, 0), anchorWith(layout, wall, 1)];
  return [best, next].flatMap((fix, index) =>
    fix && !(index === 1 && JSON.stringify(fix.edits) === JSON.stringify(best?.edits)) ? [fix] : [],
  );
}

function anchorWith(layout: Layout, wall: Wall, choice: number): Fix | undefined {
  const edits: ThingEdit[] = [];
  let now = layout;
  for (const piece of wall.pieces) {
    const here = now.walls.find((each) => each.id === wall.id);
    const board = here?.pieces.find((each) => each.id === piece.id);
    const fixes = here && board ? insertAnchors(now, here, board, { kind: 'piece' }) : [];
    const fix = fixes[choice] ?? fixes[0];
    if (!fix) return undefined;
    edits.push(...fix.edits);
    now = withEdits(now, fix.edits);
  }
  const marks = edits.flatMap((edit) => (edit.kind === 'insert-anchor' ? [edit] : []));
  const [first] = marks;
  const last = marks[marks.length - 1];
  if (!first || !last) return undefined;
  const kinds = [...new Set(marks.map((each) => each.connector))].join(', ');
  const { units } = layout.title;
  const show = (at: typeof first.station): string => formatStation(at, units);
  const which =
    first === last
      ? `${first.mark} at ${show(first.station)}`
      : `${first.mark} at ${show(first.station)} to ${last.mark} at ${show(last.station)}`;
  return { title: `Anchor wall ${wall.name} with ${kinds}: ${which}`, trust: 'review', edits };
}
