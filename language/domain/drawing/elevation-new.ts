import { plateHeights } from '../fit/height-zone.ts';
import type { Connector, Fastener } from '../hardware/connector.ts';
import { knownValue } from '../model/reading.ts';
import { half, inches, type Length, midpoint, minus, plus, scale, zero } from '../units/length.ts';
import { type ElevationFrame, onPaper, plateUnderside, sillTopAt } from './elevation-frame.ts';
import { nailerUnder } from './elevation-panels.ts';
import type { PlacedAnchor } from './placed-mark.ts';
import { type Box, boxBetween, group, line, type SceneNode, type XY } from './scene.ts';
import { bolt, type MarkEnds, sidePlate, unknownConnector } from './symbols.ts';
import { holdDown, plannedGhost, strap } from './symbols-of-new-work.ts';
import { spokenAnchor } from './thing-names.ts';
import { levelAt } from './wall-shape.ts';

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

/** The lines that carry the stations of new anchors and ties down to the tape. */
export function stationLines(frame: ElevationFrame, anchors: readonly PlacedAnchor[], tapeTop: number): SceneNode {
  return group(
    anchors.map((placed) => {
      const body = bodyBox(frame, placed, placed.station);
      const omitted = placed.state === 'omitted';
      return line([frame.x(placed.station), body.y + body.height], [frame.x(placed.station), tapeTop], {
        colour: 'ink3',
        pen: 'hair',
        ...(omitted ? { line: 'omitted' } : {}),
      });
    }),
    { role: 'leader', hidden: true },
  );
}

/** The body of a new anchor or tie. */
export function newAnchor(frame: ElevationFrame, placed: PlacedAnchor): SceneNode {
  return group(
    [
      ...(placed.planned === undefined ? [] : [plannedGhost(bodyBox(frame, placed, placed.planned))]),
      connectorSign(frame, placed),
    ],
    { thing: placed.id, role: 'thing', name: spokenAnchor(placed, frame.wall, frame.speaker) },
  );
}

function connectorSign(frame: ElevationFrame, placed: PlacedAnchor): SceneNode {
  const { connector, station } = placed;
  const body = bodyBox(frame, placed, station);
  if (!connector) return unknownConnector(body);
  switch (connector.kind) {
    case 'through-bolt':
      return bolt(
        {
          x: frame.x(station),
          sillTop: frame.y(plus(sillTopAt(frame, station), nailerUnder(frame, station))),
          foot: body.y + body.height,
          footKnown: embedOf(placed) !== undefined,
          washer: washerOf(frame, placed),
        },
        placed,
      );
    case 'hold-down': {
      const plate = holdDownBody(frame, placed, station);
      const screws = connector.fasteners.find((each) => each.member === 'stud' || each.member === 'post')?.count ?? 4;
      return holdDown(
        { body: plate, foot: body.y + body.height, footKnown: embedOf(placed) !== undefined, screws },
        placed,
      );
    }
    case 'strap':
      return strap(body, placed);
    default: {
      const top = levelAt(frame.shape, 'top', station) ?? zero;
      const concreteTop = frame.y(top);
      const isIn = concreteTop > body.y && concreteTop < body.y + body.height;
      const holes = holesOf(frame, connector, body, isIn ? concreteTop : undefined);
      const step = isIn && connector.kind === 'stepped-side-plate' ? concreteTop : undefined;
      return sidePlate({ body, step, ...holes }, placed);
    }
  }
}

function washerOf(frame: ElevationFrame, { anchor, connector }: PlacedAnchor): number {
  const added = anchor.withHardware?.find((each) => each.connector?.kind === 'plate-washer')?.connector;
  const body = added?.body ?? connector?.body;
  return body ? onPaper(frame, body.wide) : 3;
}

/** What the anchor takes up on paper: a plate's face, or a rod from above its washer to its foot. */
export function bodyBox(frame: ElevationFrame, placed: PlacedAnchor, station: Length): Box {
  const { connector } = placed;
  const top = levelAt(frame.shape, 'top', station) ?? zero;
  const sillTop = sillTopAt(frame, station);
  const x = frame.x(station);
  const foot = (): number => frame.y(minus(top, embedOf(placed) ?? inches(4)));
  switch (connector?.kind) {
    case 'through-bolt':
      return boxBetween(x - 1.5, frame.y(plus(sillTop, nailerUnder(frame, station))) - 3, x + 1.5, foot());
    case 'hold-down': {
      const body = holdDownBody(frame, placed, station);
      return boxBetween(body.x, body.y, body.x + body.width, foot());
    }
    case 'strap': {
      const wide = connector.body?.wide ?? inches(12);
      const tall = Math.max(1.2, onPaper(frame, connector.body?.tall ?? inches(1.25)));
      const cripple = frame.wall.cripples.find((each) => each.from <= station && station <= each.to);
      const underside = levelAt(frame.shape, 'joistUnderside', station) ?? zero;
      const middle = frame.y(
        cripple ? midpoint(plateUnderside(frame, cripple, station), underside) : midpoint(top, sillTop),
      );
      return boxBetween(
        frame.x(minus(station, half(wide))),
        middle - tall / 2,
        frame.x(plus(station, half(wide))),
        middle + tall / 2,
      );
    }
    default: {
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
  }
}

/** On the sill against its stud; the rod goes on below it. */
function holdDownBody(frame: ElevationFrame, { connector }: PlacedAnchor, station: Length): Box {
  const wide = connector?.body?.wide ?? inches(3);
  const tall = connector?.body?.tall ?? inches(14);
  const sillTop = sillTopAt(frame, station);
  const room = frame.y(sillTop) - frame.y(frame.highest);
  const height = Math.min(onPaper(frame, tall), Math.max(room, 2));
  const bottom = frame.y(sillTop) - onPaper(frame, scale(inches(1), 1, 2));
  const width = Math.max(1.6, onPaper(frame, wide));
  return boxBetween(frame.x(station) - width / 2, bottom - height, frame.x(station) + width / 2, bottom);
}

function embedOf({ anchor, connector }: PlacedAnchor): Length | undefined {
  const fastener = connector?.fasteners.find((each) => each.member === 'concrete');
  return knownValue(anchor.asBuilt?.embed) ?? knownValue(anchor.embed) ?? fastener?.embed ?? fastener?.holeDepth;
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
