import type { LengthUnits, Wall } from '../model/layout.ts';
import { formatLength } from '../units/format-length.ts';
import { feet, half, type Length, larger, magnitude, minus, plus, smaller, zero } from '../units/length.ts';
import type { ElevationInput } from './drawing-input.ts';
import { joistDepth } from './elevation-found.ts';
import type { ElevationFrame } from './elevation-frame.ts';
import { spreadAlong } from './label-lane.ts';
import { lettered } from './lettering.ts';
import { planAxis, spaceInside } from './plan-axis.ts';
import { group, polyline, type SceneNode } from './scene.ts';
import { levelSign } from './symbols.ts';
import { capHeights } from './tokens.ts';
import { levelAt, stemAt, type WallShape } from './wall-shape.ts';

export interface LevelText {
  readonly level: Length;
  readonly text: string;
}

/** The highest and the lowest level that are drawn. */
export function levelExtremes(
  wall: Wall,
  shape: WallShape,
  hasJoists: boolean,
): { readonly highest: Length; readonly lowest: Length } {
  let highest: Length | undefined;
  let lowest: Length | undefined;
  const depth = hasJoists ? joistDepth(wall.joists) : zero;
  for (const stem of shape.stems) {
    for (const { level } of stem.joistUnderside)
      highest = highest === undefined ? plus(level, depth) : larger(highest, plus(level, depth));
    for (const { level } of stem.top) highest = highest === undefined ? level : larger(highest, level);
    for (const { level } of stem.ground) lowest = lowest === undefined ? level : smaller(lowest, level);
  }
  return { highest: highest ?? zero, lowest: lowest ?? zero };
}

/** The levels at one end of what is drawn, in words: at its left end (`right` of it), or at its right end (`left` of it). */
export function levelTexts(
  input: Pick<ElevationInput, 'wall' | 'layout'>,
  shape: WallShape,
  station: Length,
  side: 'left' | 'right',
  units: LengthUnits,
): readonly LevelText[] {
  const stem = stemAt(shape, station, side);
  if (!stem) return [];
  const axis = planAxis(input.wall);
  // A little away from the end, where two spaces may meet.
  const nudge = smaller(feet(1), half(minus(stem.to, stem.from)));
  const nudged = side === 'right' ? plus(station, nudge) : minus(station, nudge);
  const space = axis && spaceInside(axis, nudged, input.layout.spaces);
  const groundWord = groundWords[space?.kind ?? ''] ?? 'ground inside';
  const level = (height: 'top' | 'ground' | 'soil' | 'joistUnderside'): Length | undefined =>
    levelAt(shape, height, station, side);
  const underside = level('joistUnderside');
  const top = level('top');
  const soil = level('soil');
  const floorLevel = level('ground');
  return [
    ...(underside === undefined
      ? []
      : [
          {
            level: underside,
            text: `joist underside ${stem.undersideKnown ? signed(underside, units) : 'not recorded'}`,
          },
        ]),
    ...(top === undefined
      ? []
      : [{ level: top, text: `top of concrete ${stem.topKnown ? signed(top, units) : 'not recorded'}` }]),
    ...(soil === undefined || top === undefined
      ? []
      : [{ level: soil, text: `outside soil ${formatLength(minus(top, soil), units)} below top` }]),
    ...(floorLevel === undefined
      ? []
      : [
          { level: floorLevel, text: `${groundWord} ${stem.groundKnown ? signed(floorLevel, units) : 'not recorded'}` },
        ]),
  ];
}

const groundWords: Readonly<Record<string, string>> = {
  crawl: 'crawl ground',
  basement: 'basement floor',
  slab: 'slab',
  garage: 'garage floor',
};

export function signed(level: Length, units: LengthUnits): string {
  if (level === 0) return '0';
  return `${level > 0 ? '+' : '-'}${formatLength(magnitude(level), units)}`;
}

/** Levels nearer than a line of text fan out. */
export function levelNotes(
  frame: Pick<ElevationFrame, 'left' | 'right' | 'y'>,
  levels: readonly LevelText[],
  side: 'left' | 'right',
): readonly SceneNode[] {
  const sorted = [...levels].sort((a, b) => b.level - a.level);
  const wanted = sorted.map((entry) => frame.y(entry.level));
  const placed =
    spreadAlong(
      wanted,
      sorted.slice(1).map(() => 3.6),
      { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY },
    ) ?? wanted;
  const edge = side === 'left' ? frame.left : frame.right;
  const sign = side === 'left' ? -1 : 1;
  return sorted.map((entry, index) => {
    const at = wanted[index] ?? 0;
    const label = placed[index] ?? at;
    return group(
      [
        polyline(
          [
            [edge + sign * 1, at],
            [edge + sign * 8.5, at],
            [edge + sign * 10.5, label],
            [edge + sign * 11.2, label],
          ],
          { stroke: { colour: 'ink3', pen: 'P5' } },
        ),
        levelSign([edge + sign * (besideTheOneAbove(wanted, index) ? 7 : 3), at]),
        lettered(entry.text, [edge + sign * 12, label + capHeights.label / 2], {
          size: 'label',
          anchor: side === 'left' ? 'end' : 'start',
        }),
      ],
      { role: 'level' },
    );
  });
}

/** Signs of levels that lie close stand side by side, in turns. */
function besideTheOneAbove(levels: readonly number[], index: number): boolean {
  const close = (at: number): boolean => at > 0 && (levels[at] ?? 0) - (levels[at - 1] ?? 0) < 2.8;
  let beside = false;
  for (let at = index; close(at); at--) beside = !beside;
  return beside;
}
