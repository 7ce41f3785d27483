import { plateHeights } from '../fit/height-zone.ts';
import type { Connector, Fastener } from '../hardware/connector.ts';
import type { NewAnchor } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import { half, inches, type Length, minus, plus, zero } from '../units/length.ts';
import { type ElevationFrame, onPaper, sillTopAt } from './elevation-frame.ts';
import { type Box, boxBetween, group, line, type SceneNode, type XY } from './scene.ts';
import { bolt, type MarkEnds, sidePlate, unknownConnector } from './symbols.ts';
import { spokenAnchor } from './thing-names.ts';
import { levelAt } from './wall-shape.ts';

/** A new anchor that stands on the wall. */
export interface PlacedAnchor {
  readonly anchor: NewAnchor;
  readonly station: Length;
}

/** Ends tell the kind: square for metal on a face, round for a bolt or rod. */
export function markEnds(connector: Connector | undefined): MarkEnds {
  if (!connector) return 'unknown';
  switch (connector.kind) {
    case 'through-bolt':
    case 'hold-down':
      return 'round';
    default:
      return 'square';
  }
}

/** The bodies of new anchors, and the lines that carry their stations down to the tape. */
export function newAnchors(
  frame: ElevationFrame,
  anchors: readonly PlacedAnchor[],
  tapeTop: number,
): readonly SceneNode[] {
  return [
    group(
      anchors.map(({ anchor, station }) => {
        const body = bodyBox(frame, anchor, station);
        const omitted = anchor.state === 'omitted';
        return line([frame.x(station), body.y + body.height], [frame.x(station), tapeTop], {
          colour: 'ink3',
          pen: 'hair',
          ...(omitted ? { line: 'omitted' } : {}),
        });
      }),
      { role: 'leader', hidden: true },
    ),
    ...anchors.map(({ anchor, station }) =>
      group([connectorSign(frame, anchor, station)], {
        thing: anchor.id,
        role: 'thing',
        name: spokenAnchor(anchor, frame.wall, frame.speaker),
      }),
    ),
  ];
}

function connectorSign(frame: ElevationFrame, anchor: NewAnchor, station: Length): SceneNode {
  const { connector } = anchor;
  const body = bodyBox(frame, anchor, station);
  if (!connector) return unknownConnector(body);
  if (connector.kind === 'through-bolt') {
    const embed = embedOf(anchor);
    return bolt(
      {
        x: frame.x(station),
        sillTop: frame.y(sillTopAt(frame, station)),
        foot: body.y + body.height,
        footKnown: embed !== undefined,
        washer: connector.body ? onPaper(frame, connector.body.wide) : 3,
      },
      anchor,
    );
  }
  const top = levelAt(frame.shape, 'top', station) ?? zero;
  const concreteTop = frame.y(top);
  const isIn = concreteTop > body.y && concreteTop < body.y + body.height;
  const holes = holesOf(frame, connector, body, isIn ? concreteTop : undefined);
  return sidePlate({ body, concreteTop: isIn ? concreteTop : undefined, ...holes }, anchor);
}

/** What the anchor takes up on paper: a plate's face, or a rod from above its washer to its foot. */
function bodyBox(frame: ElevationFrame, anchor: NewAnchor, station: Length): Box {
  const { connector } = anchor;
  const top = levelAt(frame.shape, 'top', station) ?? zero;
  const sillTop = sillTopAt(frame, station);
  const x = frame.x(station);
  if (connector?.kind === 'through-bolt') {
    const foot = frame.y(minus(top, embedOf(anchor) ?? inches(4)));
    return boxBetween(x - 1.5, frame.y(sillTop) - 3, x + 1.5, foot);
  }
  const wide = connector?.body?.wide ?? inches(8);
  const tall = connector?.body?.tall ?? inches(9);
  const { low, high } = plateHeights(minus(sillTop, top), connector?.drop, tall);
  return boxBetween(
    frame.x(minus(station, half(wide))),
    frame.y(plus(top, high)),
    frame.x(plus(station, half(wide))),
    frame.y(plus(top, low)),
  );
}

function embedOf(anchor: NewAnchor): Length | undefined {
  const fastener = anchor.connector?.fasteners.find((each) => each.member === 'concrete');
  return knownValue(anchor.embed) ?? fastener?.embed ?? fastener?.holeDepth;
}

/** As the hardware gives them, from the plate's centre; else spread evenly in the part that lies on their member. */
function holesOf(
  frame: ElevationFrame,
  connector: Connector,
  body: Box,
  concreteTop: number | undefined,
): { readonly concreteHoles: readonly XY[]; readonly sillHoles: readonly XY[] } {
  const centre: XY = [body.x + body.width / 2, body.y + body.height / 2];
  const given = (member: Fastener['member']): readonly XY[] =>
    connector.holes
      .filter((holes) => holes.member === member)
      .flatMap((holes) =>
        holes.points.map(({ x, y }): XY => [centre[0] + onPaper(frame, x), centre[1] - onPaper(frame, y)]),
      );
  const bottom = body.y + body.height;
  const boundary = concreteTop ?? body.y + body.height / 4;
  const spread = (member: Fastener['member'], y: number): readonly XY[] => {
    const points = given(member);
    const fastener = connector.fasteners.find((each) => each.member === member);
    if (points.length > 0 || !fastener) return points;
    const count = Math.min(fastener.count, 24);
    const apart = fastener.apart ? onPaper(frame, fastener.apart) : body.width / (count + 0.5);
    return Array.from({ length: count }, (_, index): XY => [centre[0] + (index - (count - 1) / 2) * apart, y]);
  };
  const inBody = ([x, y]: XY): boolean => x > body.x && x < body.x + body.width && y > body.y && y < bottom;
  return {
    concreteHoles: spread('concrete', (boundary + bottom) / 2).filter(inBody),
    sillHoles: spread('sill', (body.y + boundary) / 2).filter(inBody),
  };
}
