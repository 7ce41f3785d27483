import { baysBetween, joistsOnWall, namesBay } from '../model/joists.ts';
import type { Stretch, ThingId, Wall } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import type { SourceSpan } from '../model/source.ts';
import type { Length } from '../units/length.ts';
import { half, midpoint, minus, nanometres, plus, zero } from '../units/length.ts';
import type { HeightAnswer } from './height-zone.ts';
import { sillTop, undersideOfJoists } from './height-zone.ts';
import { panelHeights } from './panel-room.ts';
import { pieceAt } from './piece-anchors.ts';

/** A piece of wood that the design puts in, as the box that it takes up. */
export interface NewWood extends Stretch {
  /** `panel F-P2`, `new blocking`, `new stud`, `new sill E1`. */
  readonly words: string;
  readonly kind: 'panel' | 'blocking' | 'stud' | 'sill';
  readonly thing: ThingId;
  readonly span: SourceSpan;
  readonly heights: HeightAnswer;
  /** How far it stands out from the face of the wall. */
  readonly out: Length;
}
export interface NewWoodOfWall {
  readonly wood: readonly NewWood[];
  /** What nobody recorded, so that some of it has no place. */
  readonly lacking: readonly { readonly wants: string; readonly thing: ThingId; readonly span: SourceSpan }[];
}

export function newWoodOn(wall: Wall): NewWoodOfWall {
  const wood: NewWood[] = [];
  const lacking: NewWoodOfWall['lacking'][number][] = [];
  for (const panel of wall.panels) {
    if (!panel.stretch || panel.state === 'omitted') continue;
    const out = knownValue(panel.board?.thick) ?? zero;
    const heights = panelHeights(wall, panel);
    const thing = { thing: panel.id, span: panel.stretchSource, kind: 'panel' as const };
    wood.push({ ...panel.stretch, words: `panel ${panel.name}`, ...thing, heights, out });
  }
  for (const piece of wall.pieces) {
    for (const board of piece.sistered ?? []) {
      const thick = knownValue(board.size?.thick);
      const heights: HeightAnswer =
        thick === undefined
          ? { kind: 'lacking', wants: `thickness of the board beside sill ${piece.name}` }
          : { kind: 'heights', heights: { low: 0, high: thick } };
      const thing = { thing: piece.id, span: board.source, kind: 'sill' as const };
      wood.push({
        from: board.from,
        to: board.to,
        words: `the board beside sill ${piece.name}`,
        ...thing,
        heights,
        out: zero,
      });
    }
    if (piece.layer !== 'design') continue;
    const top = sillTop(piece);
    const heights: HeightAnswer =
      top === undefined
        ? { kind: 'lacking', wants: `thickness of sill ${piece.name}` }
        : { kind: 'heights', heights: { low: 0, high: top } };
    const thing = { thing: piece.id, span: piece.source, kind: 'sill' as const };
    wood.push({ from: piece.from, to: piece.to, words: `new sill ${piece.name}`, ...thing, heights, out: zero });
  }
  for (const stud of wall.studs) {
    if (stud.layer !== 'design') continue;
    const width = knownValue(stud.size?.thick) ?? zero;
    const from = minus(stud.station, half(width));
    const extent = { from, to: plus(from, width) };
    const joists = undersideOfJoists(wall, pieceAt(wall, stud.station), extent);
    const heights: HeightAnswer =
      joists.kind === 'lacking' ? joists : { kind: 'heights', heights: { low: 0, high: joists.heights.high } };
    wood.push({
      ...extent,
      words: 'the new stud',
      thing: stud.id,
      span: stud.source,
      kind: 'stud',
      heights,
      out: zero,
    });
  }
  addBlocks(wall, wood, lacking);
  return { wood, lacking };
}

function addBlocks(wall: Wall, wood: NewWood[], lacking: NewWoodOfWall['lacking'][number][]): void {
  const blocks = wall.blocking.filter((each) => each.layer === 'design');
  if (blocks.length === 0) return;
  const found = joistsOnWall(wall);
  for (const each of blocks) {
    for (const wants of found.lacking) lacking.push({ wants, thing: each.id, span: each.source });
  }
  const bays = baysBetween(found.joists);
  for (const each of blocks) {
    const named = namesBay(each.bays);
    for (const bay of bays) {
      if (!named(bay.number)) continue;
      const from = plus(bay.left.station, half(knownValue(bay.left.size?.thick) ?? zero));
      const to = minus(bay.right.station, half(knownValue(bay.right.size?.thick) ?? zero));
      if (from >= to) continue;
      const deep = knownValue(each.size?.wide) ?? knownValue(bay.left.size?.wide);
      const under = undersideOfJoists(wall, pieceAt(wall, midpoint(from, to)), { from, to });
      const heights: HeightAnswer =
        under.kind === 'lacking'
          ? under
          : deep === undefined
            ? { kind: 'lacking', wants: `depth of the joists on wall ${wall.name}` }
            : { kind: 'heights', heights: { low: under.heights.low, high: under.heights.high + deep } };
      const words = `the new block in bay ${bay.number}`;
      const thing = { thing: each.id, span: each.source, kind: 'blocking' as const };
      wood.push({ from: nanometres(from), to: nanometres(to), words, ...thing, heights, out: zero });
    }
  }
}
