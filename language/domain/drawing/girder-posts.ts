import { kindInWords } from '../documents/schedule.ts';
import type { Girder, LengthUnits, Post, PostHardware, Size } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import { formatInches, formatLength, formatStation } from '../units/format-length.ts';
import { inches, inMillimetres, type Length, larger, minus, plus, smaller, zero } from '../units/length.ts';
import type { FoundLabel } from './elevation-labels.ts';
import { plainText } from './lettering.ts';
import { postRemedies } from './plan-inside.ts';
import { type Box, boxBetween, group, line, polygon, rect, type SceneNode, strokes, type XY } from './scene.ts';
import type { ShownPart } from './shown-part.ts';
import { spokenLength } from './spoken.ts';
import { diagonals } from './strokes.ts';
import { unknownConnector } from './symbols.ts';
import { beamSplice, pier, postPlate, removedThing, removedWood, shoring } from './symbols-of-new-work.ts';
import { kindWords } from './thing-names.ts';

/** A girder from the side: its beam, its posts to their true heights, and what the design puts on them. */

export interface GirderShape {
  readonly length: Length;
  readonly lengthKnown: boolean;
  /** Underside of the beam above datum; 0 where nobody measured it. */
  readonly underside: Length;
  readonly undersideKnown: boolean;
  readonly depth: Length;
  readonly depthKnown: boolean;
  readonly posts: readonly PostShape[];
  readonly lowest: Length;
}
export interface PostShape {
  readonly post: Post;
  readonly station: Length;
  readonly wide: Length;
  readonly wideKnown: boolean;
  readonly top: Length;
  readonly foot: Length;
  readonly footKnown: boolean;
}
export interface GirderFrame {
  readonly girder: Girder;
  readonly shape: GirderShape;
  readonly units: LengthUnits;
  readonly paper: number;
  readonly left: number;
  readonly right: number;
  /** What of the girder is drawn; `left` and `right` are its ends on paper. */
  readonly shown: ShownPart;
  x(station: Length): number;
  y(level: Length): number;
}

/** Only ever drawn as not recorded. */
const STAND_IN = { depth: inches(7.25), wide: inches(3.5), height: inches(24) } as const;
/** Of a footing nobody measured. */
const PIER = { wide: inches(14), tall: inches(8) } as const;

export function girderShape(girder: Girder): GirderShape {
  const { from, to } = girder;
  const reach = girder.posts.reduce((most, { station }) => larger(most, station ?? zero), zero);
  const spans = (girder.spans ?? []).reduce((sum, span) => plus(sum, knownValue(span) ?? zero), zero);
  const length =
    from && to
      ? (Math.round(Math.hypot(to.x - from.x, to.y - from.y)) as Length)
      : larger(
          larger(reach, spans),
          girder.splices.reduce((most, { station }) => larger(most, station), zero),
        );
  const underside = knownValue(girder.underside);
  const depth = knownValue(girder.size?.wide);
  const posts = girder.posts
    .flatMap((post) =>
      post.station === undefined || post.station < zero || post.station > length
        ? []
        : [postShape(post, post.station, underside ?? zero)],
    )
    .sort((a, b) => a.station - b.station);
  return {
    length,
    lengthKnown: from !== undefined && to !== undefined,
    underside: underside ?? zero,
    undersideKnown: underside !== undefined,
    depth: depth ?? STAND_IN.depth,
    depthKnown: depth !== undefined,
    posts,
    lowest: minus(
      posts.reduce((least, { foot }) => smaller(least, foot), underside ?? zero),
      PIER.tall,
    ),
  };
}

function postShape(post: Post, station: Length, underside: Length): PostShape {
  const size = post.remedied?.how === 'replaced' ? (post.remedied.size ?? post.size) : post.size;
  const wide = knownValue(size?.thick);
  const height = knownValue(post.height);
  const top = minus(underside, knownValue(post.gap) ?? zero);
  return {
    post,
    station,
    wide: wide ?? STAND_IN.wide,
    wideKnown: wide !== undefined,
    top,
    foot: minus(top, height ?? STAND_IN.height),
    footKnown: height !== undefined,
  };
}

// ---- the beam

export function beam(frame: GirderFrame): readonly SceneNode[] {
  const { girder, shape } = frame;
  const box = boxBetween(
    frame.x(zero),
    frame.y(plus(shape.underside, shape.depth)),
    frame.x(shape.length),
    frame.y(shape.underside),
  );
  const known = shape.depthKnown && shape.undersideKnown && shape.lengthKnown;
  const body = rect(box, {
    fill: 'wood',
    stroke: known ? { colour: 'woodln', pen: 'P2' } : { colour: 'woodln', pen: 'P2', line: 'not-recorded' },
  });
  const middle = box.y + box.height / 2;
  return [
    group(
      [
        group(
          [
            known ? body : group([body], { symbol: 'not-recorded' }),
            line([box.x, middle], [box.x + box.width, middle], { colour: 'ink3', pen: 'P5', line: 'chain' }),
          ],
          { symbol: 'girder' },
        ),
        ...girder.splices
          .filter(({ station }) => station >= zero && station <= shape.length)
          .map(({ station }) => beamSplice(frame.x(station), box.y, box.y + box.height)),
      ],
      {
        thing: girder.id,
        role: 'thing',
        name: `girder ${plainText(girder.name)}, ${sizeWords(girder.size, frame.units)}, ${shape.posts.length} posts`,
      },
    ),
  ];
}

// ---- posts

export function posts(frame: GirderFrame): readonly SceneNode[] {
  return frame.shape.posts.map((shape) => {
    const { post } = shape;
    const foot = frame.y(shape.foot);
    const half = (inMillimetres(shape.wide) * frame.paper) / 2;
    const x = frame.x(shape.station);
    const body = boxBetween(x - half, frame.y(shape.top), x + half, foot);
    const footing = boxBetween(
      x - (inMillimetres(PIER.wide) * frame.paper) / 2,
      foot,
      x + (inMillimetres(PIER.wide) * frame.paper) / 2,
      foot + inMillimetres(PIER.tall) * frame.paper,
    );
    return group(
      [
        pier(footing, post.newPad === true),
        ...(post.remedied?.how === 'removed'
          ? [removedWood(body), removedThing(body)]
          : [postBody(frame, shape, body)]),
        ...(post.shored ? [shoring(x, frame.y(shape.top), foot, half)] : []),
        ...post.hardware.map((piece) => hardware(frame, shape, piece)),
      ],
      { thing: post.id, role: 'thing', name: spokenPost(frame, post) },
    );
  });
}

function postBody(frame: GirderFrame, shape: PostShape, body: Box): SceneNode {
  const { post } = shape;
  const isNew = post.remedied?.how === 'replaced';
  const lean = isNew ? 0 : leanAtFoot(shape) * frame.paper;
  const right = body.x + body.width;
  const bottom = body.y + body.height;
  const outline: readonly XY[] = [
    [body.x, body.y],
    [right, body.y],
    [right + lean, bottom],
    [body.x + lean, bottom],
  ];
  const known = shape.wideKnown && shape.footKnown;
  const drawn = polygon(outline, {
    fill: isNew ? 'wood' : 'paper',
    stroke: isNew
      ? { colour: 'new', pen: 'P2', ...(shape.footKnown ? {} : { line: 'not-recorded' as const }) }
      : { colour: 'ink', pen: 'P2', ...(known ? {} : { line: 'not-recorded' as const }) },
  });
  const middle = body.x + body.width / 2;
  return group(
    [
      (isNew ? shape.footKnown : known) ? drawn : group([drawn], { symbol: 'not-recorded' }),
      isNew
        ? line([body.x, bottom], [right, body.y], { colour: 'new', pen: 'P3' })
        : strokes(
            lean === 0
              ? diagonals(body)
              : [
                  [
                    [body.x, body.y],
                    [right + lean, bottom],
                  ],
                  [
                    [right, body.y],
                    [body.x + lean, bottom],
                  ],
                ],
            {
              colour: 'ink2',
              pen: 'P5',
            },
          ),
      ...(lean === 0
        ? []
        : [
            group([line([middle, body.y - 1], [middle, bottom + 2], { colour: 'defect', pen: 'P4', line: 'chain' })], {
              symbol: 'leaning',
            }),
          ]),
    ],
    { symbol: isNew ? 'new-post' : 'post' },
  );
}

/** True mm out of plumb at the foot; the way that it leans is nobody's record, so it is drawn to the right. */
function leanAtFoot({ post, top, foot }: PostShape): number {
  const lean = knownValue(post.leans);
  if (lean === undefined) return 0;
  const per = knownValue(post.leansPer);
  return per === undefined || per === zero
    ? inMillimetres(lean)
    : (inMillimetres(lean) * inMillimetres(minus(top, foot))) / inMillimetres(per);
}

function hardware(frame: GirderFrame, shape: PostShape, piece: PostHardware): SceneNode {
  const body = hardwareBox(frame, shape, piece);
  const state = { proposed: piece.proposed === true, state: piece.state ?? ('planned' as const) };
  const sign = piece.connector ? postPlate(body, piece.role, state, piece.bothSides) : unknownConnector(body);
  return group([sign], { thing: piece.id, role: 'thing', name: spokenHardware(piece, shape.post) });
}

/** A cap stands half on the beam and half on its post; a base stands on the footing. */
export function hardwareBox(frame: GirderFrame, shape: PostShape, { role, connector }: PostHardware): Box {
  const wide = inMillimetres(connector?.body?.wide ?? inches(5.5)) * frame.paper;
  const tall = inMillimetres(connector?.body?.tall ?? inches(6)) * frame.paper;
  const x = frame.x(shape.station);
  const bottom = role === 'cap' ? frame.y(shape.top) + tall / 2 : frame.y(shape.foot);
  return boxBetween(x - wide / 2, bottom - tall, x + wide / 2, bottom);
}

// ---- words

export function sizeWords(size: Size | undefined, units: LengthUnits): string {
  const [thick, wide] = [knownValue(size?.thick), knownValue(size?.wide)];
  if (size?.nominal !== undefined) return size.nominal;
  return thick === undefined || wide === undefined
    ? 'size not recorded'
    : `${formatInches(thick, units)} x ${formatInches(wide, units)}`;
}

export function postLabels({
  girder,
  shape,
  units,
}: Pick<GirderFrame, 'girder' | 'shape' | 'units'>): readonly FoundLabel<GirderFrame>[] {
  const ends = (['start', 'end'] as const).flatMap((end): FoundLabel<GirderFrame>[] => {
    const words = girder.ends.get(end);
    const station = end === 'start' ? zero : shape.length;
    return words === undefined
      ? []
      : [
          {
            thing: girder.id,
            station,
            first: `rests on ${kindWords(words)}`.replace('rests on pocket', 'rests in a pocket'),
            second: undefined,
            colour: 'ink',
            heavy: false,
            priority: 3,
            target: (frame) => [frame.x(station) + (end === 'start' ? 0.8 : -0.8), frame.y(shape.underside) - 0.8],
          },
        ];
  });
  const splices = girder.splices
    .filter(({ station }) => station >= zero && station <= shape.length)
    .map(
      ({ station, words }): FoundLabel<GirderFrame> => ({
        thing: girder.id,
        station,
        first: `splice ${formatStation(station, units)}`,
        second: words.length > 0 ? words.map(kindWords).join(', ') : undefined,
        colour: 'ink',
        heavy: false,
        priority: 2,
        target: (frame) => [frame.x(station), frame.y(plus(shape.underside, shape.depth)) + 0.8],
      }),
    );
  const found = shape.posts.map(
    ({ post, station, top }): FoundLabel<GirderFrame> => ({
      thing: post.id,
      station,
      first: `${plainText(post.name ?? 'post')}  ${sizeWords(post.size, units)}  ${formatStation(station, units)}`,
      second: postFacts(post, units).join(', '),
      colour: 'ink',
      heavy: false,
      priority: 1,
      target: (frame) => [frame.x(station), frame.y(top) + 2.4],
    }),
  );
  return [...ends, ...splices, ...found].sort((a, b) => a.station - b.station || (a.first < b.first ? -1 : 1));
}

/** What was found of a post and what becomes of it; unknown says `?`. */
function postFacts(post: Post, units: LengthUnits): readonly string[] {
  const height = knownValue(post.height);
  const [leans, per] = [knownValue(post.leans), knownValue(post.leansPer)];
  const gap = knownValue(post.gap);
  const part = (name: 'cap' | 'base' | 'pier' | 'footing'): readonly string[] => {
    const words = post.found.get(name);
    if (!words) return name === 'cap' || name === 'base' ? [`${name} ?`] : [];
    return [`${name} ${words.map((word) => (word === 'unknown' ? '?' : kindWords(word))).join(' ')}`];
  };
  return [
    height === undefined ? 'height not recorded' : `${formatLength(height, units)} high`,
    ...part('cap'),
    ...part('base'),
    ...part('pier'),
    ...part('footing'),
    ...(leans === undefined
      ? []
      : [`leans ${formatLength(leans, units)}${per === undefined ? '' : ` per ${formatLength(per, units)}`}`]),
    ...(gap === undefined || gap === zero ? [] : [`gap ${formatLength(gap, units)} under the girder`]),
    ...postRemedies(post),
  ];
}

function spokenPost(frame: GirderFrame, post: Post): string {
  const place =
    post.station === undefined
      ? 'no station'
      : `${spokenLength(post.station, frame.units)} along girder ${plainText(frame.girder.name)}`;
  return [`post ${plainText(post.name ?? '')}`.trim(), place, ...postFacts(post, frame.units)].join(', ');
}

function spokenHardware(piece: PostHardware, post: Post): string {
  const kind = piece.connector
    ? kindInWords[piece.connector.kind]
    : `connector ${plainText(piece.connectorName)}, not known`;
  const state =
    piece.state === undefined || piece.state === 'planned'
      ? piece.proposed
        ? 'proposed'
        : 'set by hand'
      : piece.state;
  return [
    `${kind} ${plainText(piece.name)}`,
    `on post ${plainText(post.name ?? '')}`.trim(),
    ...(piece.bothSides ? ['both sides'] : []),
    state,
  ].join(', ');
}
