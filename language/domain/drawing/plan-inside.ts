import { kindInWords } from '../documents/schedule.ts';
import type { Girder, LengthUnits, Post, Space, Wall } from '../model/layout.ts';
import { knownValue, profileAt } from '../model/reading.ts';
import { formatInches, formatLength } from '../units/format-length.ts';
import { inches, inMillimetres, type Length, zero } from '../units/length.ts';
import { lettered, plainText, textWidth, wrapText } from './lettering.ts';
import { planAxis, type TrueXY, trueXY } from './plan-axis.ts';
import type { PlanFrame } from './plan-frame.ts';
import { type Box, group, line, polygon, type SceneNode, strokes, type XY } from './scene.ts';
import { spokenLength } from './spoken.ts';
import { padPlan, postPlatesPlan, removedPlan, shoredPlan } from './symbols.ts';
import { kindWords } from './thing-names.ts';
import { capHeights, type TextSize } from './tokens.ts';

/** What stands inside the outline: lines within the house, girders and posts, the names of spaces. */

export function interiorWalls(frame: PlanFrame, walls: readonly Wall[]): readonly SceneNode[] {
  return walls.flatMap((wall) => {
    const axis = planAxis(wall);
    if (!axis) return [];
    const first = wall.foundation[0];
    const thick = first?.thick && knownValue(profileAt(first.thick, first.from));
    const depth = inMillimetres(thick ?? inches(6));
    const end = wall.length ?? zero;
    const edge = (inside: number): readonly [XY, XY] => [
      frame.at(axis.at(zero, inside)),
      frame.at(axis.at(end, inside)),
    ];
    const far = edge(depth);
    return [
      group(
        [
          group(
            [
              line(...edge(0), { colour: 'ink', pen: 'P3' }),
              thick === undefined
                ? group([line(...far, { colour: 'ink', pen: 'P3', line: 'not-recorded' })], { symbol: 'not-recorded' })
                : line(...far, { colour: 'ink', pen: 'P4' }),
            ],
            { symbol: 'interior-wall' },
          ),
        ],
        {
          thing: wall.id,
          role: 'thing',
          name: `wall inside the house, ${plainText(wall.name)}${wall.label === undefined ? '' : `, ${plainText(wall.label)}`}`,
        },
      ),
    ];
  });
}

interface GirderAxis {
  readonly from: TrueXY;
  readonly to: TrueXY;
  readonly along: TrueXY;
  readonly across: TrueXY;
}

function girderAxis(girder: Girder): GirderAxis | undefined {
  if (!girder.from || !girder.to) return undefined;
  const [from, to] = [trueXY(girder.from), trueXY(girder.to)];
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (length === 0) return undefined;
  const along: TrueXY = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  return { from, to, along, across: [along[1], -along[0]] };
}

/** Where a post stands in plan, true mm. */
export function postPlace(girder: Girder, post: Post): TrueXY | undefined {
  const axis = girderAxis(girder);
  if (!axis || post.station === undefined) return undefined;
  const distance = inMillimetres(post.station);
  return [axis.from[0] + axis.along[0] * distance, axis.from[1] + axis.along[1] * distance];
}

export function girders(frame: PlanFrame, all: readonly Girder[]): readonly SceneNode[] {
  return all.flatMap((girder) => {
    const axis = girderAxis(girder);
    if (!axis) return [];
    const width = knownValue(girder.size?.thick);
    const half = inMillimetres(width ?? inches(5.5)) / 2;
    const side = (offset: number): SceneNode => {
      const shift = (point: TrueXY): XY =>
        frame.at([point[0] + axis.across[0] * offset, point[1] + axis.across[1] * offset]);
      return line(shift(axis.from), shift(axis.to), {
        colour: 'woodln',
        pen: width === undefined ? 'P2' : 'P4',
        line: width === undefined ? 'not-recorded' : 'hidden',
      });
    };
    const edges = [side(-half), side(half)];
    return [
      group(
        [
          group(
            [
              ...(width === undefined ? [group(edges, { symbol: 'not-recorded' })] : edges),
              line(frame.at(axis.from), frame.at(axis.to), { colour: 'ink3', pen: 'P5', line: 'chain' }),
            ],
            { symbol: 'girder' },
          ),
        ],
        { thing: girder.id, role: 'thing', name: `girder ${plainText(girder.name)}, ${girder.posts.length} posts` },
      ),
      ...girder.posts.flatMap((post) => postNode(frame, girder, post, axis)),
    ];
  });
}

function postNode(frame: PlanFrame, girder: Girder, post: Post, axis: GirderAxis): readonly SceneNode[] {
  const place = postPlace(girder, post);
  if (!place) return [];
  const known = knownValue(post.size?.thick);
  const half = Math.max(inMillimetres(known ?? inches(5.5)) / 2, 0.9 / frame.paper);
  const corner = (a: number, b: number): XY =>
    frame.at([
      place[0] + axis.along[0] * a * half + axis.across[0] * b * half,
      place[1] + axis.along[1] * a * half + axis.across[1] * b * half,
    ]);
  const [a, b, c, d] = [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)];
  const name = `post ${plainText(post.name ?? '')}${post.station === undefined ? '' : `, ${spokenLength(post.station, frame.units)} along girder ${plainText(girder.name)}`}`;
  const removed = post.remedied?.how === 'removed';
  const replaced = post.remedied?.how === 'replaced';
  return [
    group(
      [
        ...(post.newPad ? [padPlan([corner(-2.2, -2.2), corner(2.2, -2.2), corner(2.2, 2.2), corner(-2.2, 2.2)])] : []),
        group(
          [
            polygon([a, b, c, d], {
              fill: 'paper',
              stroke: replaced
                ? { colour: 'new', pen: 'P2' }
                : known === undefined
                  ? { colour: 'ink', pen: 'P2', line: 'not-recorded' }
                  : { colour: 'ink', pen: 'P3' },
            }),
            strokes(
              [
                [a, c],
                [b, d],
              ],
              { colour: replaced ? 'new' : 'ink', pen: 'P5' },
            ),
          ],
          { symbol: replaced ? 'new-post' : 'post' },
        ),
        ...(removed ? [removedPlan(frame.at(place))] : []),
        ...(post.shored
          ? [shoredPlan([corner(-2.6, -2.2), corner(2.6, -2.2)], [corner(-2.6, 2.2), corner(2.6, 2.2)])]
          : []),
        ...post.hardware.map((piece) => {
          const state = { proposed: piece.proposed === true, state: piece.state ?? ('planned' as const) };
          const sides = piece.bothSides ? [-1, 1] : [1];
          const bars = sides.map((side): readonly [XY, XY] =>
            piece.role === 'cap'
              ? [corner(-1.6, side * 1.5), corner(1.6, side * 1.5)]
              : [corner(side * 1.6, -1.5), corner(side * 1.6, 1.5)],
          );
          return group([postPlatesPlan(bars, piece.role, state)], { thing: piece.id });
        }),
      ],
      { thing: post.id, role: 'thing', name },
    ),
  ];
}

// ---- labels within the outline

export interface InsideLabel {
  readonly thing: string | undefined;
  readonly lines: readonly {
    readonly text: string;
    readonly size: TextSize;
    readonly colour: 'ink' | 'ink2' | 'gas' | 'power' | 'defect' | 'panel' | 'new';
    readonly regular?: boolean;
    readonly heavy?: boolean;
  }[];
  /** On the sheet. */
  readonly at: XY;
  /** Half the size of what it names. */
  readonly reach: number;
  /** Lower goes first. */
  readonly priority: number;
  /** A mark of new work, or where no hole may go: it is shown whatever happens. */
  readonly never?: 'dropped';
  /** Its words in more and shorter lines, where the house is too small for them as they are. */
  readonly narrower?: InsideLabel['lines'];
  /** The area that it names: it stands in its middle if it can, with no leader. */
  readonly within?: Box;
}

export function labelSize(label: InsideLabel): { readonly width: number; readonly height: number } {
  const width = label.lines.reduce(
    (most, each) => Math.max(most, textWidth(each.text, each.size, each.regular ? 'regular' : 'narrow')),
    0,
  );
  const height = label.lines.reduce((sum, each) => sum + capHeights[each.size] * 1.5, 0) + 0.4;
  return { width: width + 1, height };
}

export function labelNodes(label: InsideLabel, left: number, top: number): readonly SceneNode[] {
  const { width } = labelSize(label);
  let y = top;
  return label.lines.map((each) => {
    y += capHeights[each.size] * 1.5;
    return lettered(each.text, [label.within ? left + width / 2 : left + 0.5, y - capHeights[each.size] * 0.3], {
      size: each.size,
      face: each.regular ? 'regular' : 'narrow',
      anchor: label.within ? 'middle' : 'start',
      colour: each.colour,
      halo: true,
      ...(each.heavy ? { heavy: true } : {}),
    });
  });
}

export function spaceLabels(frame: PlanFrame, spaces: readonly Space[]): readonly InsideLabel[] {
  return spaces.flatMap((space): InsideLabel[] => {
    if (!space.from || !space.to) return [];
    const [a, b] = [frame.at(trueXY(space.from)), frame.at(trueXY(space.to))];
    const area = {
      x: Math.min(a[0], b[0]) + 3,
      y: Math.min(a[1], b[1]) + 3,
      width: Math.abs(a[0] - b[0]) - 6,
      height: Math.abs(a[1] - b[1]) - 6,
    };
    const height = knownValue(space.clearHeight);
    const quality = space.clearHeight?.kind === 'known' ? space.clearHeight.quality : 'measured';
    const name = plainText(space.name).replaceAll('-', ' ');
    const kind = space.kind === undefined || name.toLowerCase().includes(space.kind) ? '' : `, ${space.kind}`;
    const facts =
      height === undefined
        ? 'clear height not recorded'
        : `clear height ${formatLength(height, frame.units)}${quality === 'measured' ? '' : ` ${quality}`}`;
    const room = Math.max(area.width - 4, 12);
    return [
      {
        thing: space.id,
        lines: [
          ...wrapText(`${name.toUpperCase()}${kind}`, room, 'label', 'regular').map(
            (text) => ({ text, size: 'label', colour: 'ink', regular: true }) as const,
          ),
          ...wrapText(facts, room, 'detail').map((text) => ({ text, size: 'detail', colour: 'ink2' }) as const),
        ],
        at: [area.x + area.width / 2, area.y + area.height / 2],
        reach: 0,
        priority: 4,
        within: area,
      },
    ];
  });
}

export function girderLabels(frame: PlanFrame, all: readonly Girder[]): readonly InsideLabel[] {
  return all.flatMap((girder): InsideLabel[] => {
    const axis = girderAxis(girder);
    if (!axis) return [];
    const size = girder.size;
    const [thick, wide] = [knownValue(size?.thick), knownValue(size?.wide)];
    const sized =
      size?.nominal ??
      (thick === undefined || wide === undefined
        ? 'size not recorded'
        : `${formatInches(thick, frame.units)} x ${formatInches(wide, frame.units)}`);
    const share = 0.045;
    const named: InsideLabel = {
      thing: girder.id,
      lines: [{ text: `girder ${plainText(girder.name)}  ${sized}`, size: 'label', colour: 'ink' }],
      at: frame.at([
        axis.from[0] + (axis.to[0] - axis.from[0]) * share,
        axis.from[1] + (axis.to[1] - axis.from[1]) * share,
      ]),
      reach: 2.2,
      priority: 3,
    };
    return [named, ...girder.posts.flatMap((post) => postLabel(frame, girder, post))];
  });
}

function postLabel(frame: PlanFrame, girder: Girder, post: Post): readonly InsideLabel[] {
  const place = postPlace(girder, post);
  if (!place) return [];
  const { size } = post;
  const [thick, wide] = [knownValue(size?.thick), knownValue(size?.wide)];
  const sized =
    size?.nominal ??
    (thick === undefined || wide === undefined
      ? '?'
      : `${formatInches(thick, frame.units)} x ${formatInches(wide, frame.units)}`);
  const found = (['cap', 'base'] as const).map(
    (part) => `${part} ${post.found.get(part)?.map(kindWords).join(' ') ?? '?'}`,
  );
  const leans = knownValue(post.leans);
  const work = post.hardware.map(
    (piece) =>
      `${plainText(piece.name)} ${piece.state === 'omitted' ? 'omitted ' : ''}${piece.connector ? kindInWords[piece.connector.kind] : kindWords(piece.connectorName)}`,
  );
  return [
    {
      thing: post.id,
      lines: [
        {
          text: `${plainText(post.name ?? 'post')}  ${sized}${leans === undefined ? '' : `, leans ${formatLength(leans, frame.units)}`}`,
          size: 'label',
          colour: 'ink',
        },
        { text: [...found, ...postRemedies(post), ...work].join(', '), size: 'detail', colour: 'ink2' },
      ],
      at: frame.at(place),
      reach: post.shored || post.newPad ? 4 : 1.8,
      priority: 2,
    },
  ];
}

/** What the design does to a post, in words. */
export function postRemedies({ remedied, shored, newPad }: Post): readonly string[] {
  return [
    ...(remedied?.how === 'removed' ? ['comes out'] : []),
    ...(remedied?.how === 'replaced' ? [`new ${remedied.size?.nominal ?? 'post'}`] : []),
    ...(shored ? ['shore first'] : []),
    ...(newPad ? ['new footing'] : []),
  ];
}

export function interiorLabels(frame: PlanFrame, walls: readonly Wall[]): readonly InsideLabel[] {
  return walls.flatMap((wall): InsideLabel[] => {
    const axis = planAxis(wall);
    if (!axis) return [];
    const first = wall.foundation[0];
    const top = first?.top && knownValue(profileAt(first.top, first.from));
    const middle = axis.at(((wall.length ?? zero) / 2) as Length, 0);
    return [
      {
        thing: wall.id,
        lines: [
          {
            text: [plainText(wall.name), wall.label === undefined ? '' : plainText(wall.label)]
              .filter(Boolean)
              .join('  '),
            size: 'label',
            colour: 'ink',
          },
          {
            text: top === undefined ? 'top not recorded' : `top ${signedLevel(top, frame.units)}`,
            size: 'detail',
            colour: 'ink2',
          },
        ],
        at: frame.at(middle),
        reach: 2.4,
        priority: 3,
      },
    ];
  });
}

function signedLevel(level: Length, units: LengthUnits): string {
  return level === 0 ? '0' : `${level > 0 ? '+' : ''}${formatLength(level, units)}`;
}
