import type { LengthUnits } from '../../model/layout.ts';
import { formatStation } from '../../units/format-length.ts';
import { type Length, larger, midpoint, smaller, zero } from '../../units/length.ts';
import { type ElevationInput, scaleInWords } from '../drawing-input.ts';
import { plainText } from '../lettering.ts';
import { type PlacedAnchor, placedAnchor } from '../placed-mark.ts';
import { group, type SceneNode } from '../scene.ts';
import { shapeOf } from '../wall-shape.ts';
import { drawSection } from './draw-section.ts';
import { conditionOf, type SectionFacts, sectionFacts } from './section-facts.ts';

/** A wall cut across where it is like nowhere else on it; a drawing of its own size, from its upper left corner. */
export interface WallSection {
  /** `A/2`. */
  readonly name: string;
  readonly wall: string;
  readonly station: Length;
  /** What is built like this, in order of station; empty where nothing is. */
  readonly marks: readonly string[];
  /** In full words, for a person who hears the drawing. */
  readonly spoken: string;
  readonly width: number;
  readonly height: number;
  readonly nodes: readonly SceneNode[];
}

interface Condition {
  readonly facts: SectionFacts;
  readonly marks: readonly PlacedAnchor[];
}

/** Hard to draw more than this on paper, and nobody would read them. */
const MOST_SECTIONS = 12;

const ratioOf = (units: LengthUnits): number => (units === 'metric' ? 10 : 8);

/** One section for each condition of a wall: first those in which something is built, then boards that nothing is built on. */
export function sectionsOf(input: ElevationInput): readonly WallSection[] {
  const { layout, wall } = input;
  const units = input.units ?? layout.title.units;
  const shape = shapeOf(wall, layout);
  const ratio = ratioOf(units);
  const scale = scaleInWords(ratio, units);
  const on = { layout, wall, shape };
  const conditions = new Map<string, Condition>();
  const marks = [...wall.anchors, ...wall.ties]
    .filter((mark) => !('kind' in mark) || mark.kind === 'hold-down')
    .flatMap((mark) => placedAnchor(mark, layout) ?? [])
    .filter(({ station, state }) => station >= zero && station <= shape.length && state !== 'omitted')
    .sort((a, b) => a.station - b.station);
  for (const placed of marks) {
    const facts = sectionFacts(on, placed.station, placed);
    const condition = conditionOf(facts);
    const same = conditions.get(condition);
    // What is still to be drilled stands for the rest.
    const isFirstToDo = placed.state === 'planned' && same?.marks.every(({ state }) => state !== 'planned');
    conditions.set(condition, {
      facts: same && !isFirstToDo ? same.facts : facts,
      marks: [...(same?.marks ?? []), placed],
    });
  }
  const built: readonly Condition[] = [...conditions.values()];
  const bare = wall.pieces
    .filter((piece) => !marks.some(({ station }) => piece.from <= station && station <= piece.to))
    .map((piece): Condition => {
      const middle = midpoint(larger(piece.from, zero), smaller(piece.to, shape.length));
      return { facts: sectionFacts(on, middle, undefined), marks: [] };
    });
  const seen = new Set<string>();
  const all = [...built, ...bare].filter(({ facts }) => {
    const condition = conditionOf(facts);
    if (seen.has(condition)) return false;
    seen.add(condition);
    return true;
  });
  return all.slice(0, MOST_SECTIONS).map(({ facts, marks: like }, index): WallSection => {
    const name = `${plainText(wall.name)}/${index + 1}`;
    const where = `SECTION ${name}   at ${formatStation(facts.station, units)}`;
    const names = like.map((placed) => placed.name);
    const drawing = drawSection(
      facts,
      {
        name: where,
        marks: names,
        scale: `${scale}, ${wall.role === 'interior' ? 'looking from station 0 on' : 'outside on the left'}`,
        seed: `${wall.id} ${facts.station}`,
      },
      1 / ratio,
      units,
    );
    const spoken = `section ${name} through wall ${plainText(wall.name)} at ${formatStation(facts.station, units)}${names.length === 0 ? '' : `, as at ${names.map(plainText).join(', ')}`}`;
    return {
      name,
      wall: wall.name,
      station: facts.station,
      marks: names,
      spoken,
      width: drawing.width,
      height: drawing.height,
      nodes: [group(drawing.nodes, { role: 'thing', name: spoken })],
    };
  });
}
