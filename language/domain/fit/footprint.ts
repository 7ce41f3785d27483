import type { Connector } from '../hardware/connector.ts';
import { leastCount, leastLength } from '../rulesets/compare.ts';
import { limitFor } from '../rulesets/limit-for.ts';
import type { Limit, RulesInForce } from '../rulesets/rule-set.ts';
import type { Length } from '../units/length.ts';
import { half, larger, minus, nanometres, negate, scale, zero } from '../units/length.ts';
import type { FitCase } from './fit-case.ts';
import type { HeightRange } from './height-zone.ts';
import { plateHeights, sillTop } from './height-zone.ts';

/** What a connector takes up round its centre, along the wall and in height above the top of the concrete. */
export interface Footprint {
  readonly mounted: 'on-the-face' | 'through-the-sill' | 'elsewhere';
  /** Half of the body along the wall; `undefined` where the hardware gives no body. */
  readonly halfWidth: Length | undefined;
  /** How far the body stands out from the face of the wall. */
  readonly depth: Length;
  /** `undefined` where the thickness of the sill is not known. */
  readonly heights: HeightRange | undefined;
  readonly holes: readonly Hole[];
  /** Concrete that each hole must have round it. */
  readonly edge: Length;
  /** Free depth in front of the wall for drilling sideways; `undefined` where nothing asks for it. */
  readonly sideRoom: Length | undefined;
  /** Free height above the sill for drilling down; `undefined` where nothing asks for it. */
  readonly headroom: Length | undefined;
  /** Free radius round a hole drilled from above. */
  readonly drillRadius: Length;
}
export interface Hole {
  /** To the right of the centre. */
  readonly x: Length;
  /** What the hole takes up in height; `undefined` where the thickness of the sill is not known. */
  readonly heights: HeightRange | undefined;
}

export function footprintOf({ layout, connector, piece, rightAngleDrill }: FitCase): Footprint {
  const body = connector.body;
  const halfWidth = body && minus(body.wide, half(body.wide));
  const fastener = connector.fasteners.find((each) => each.member === 'concrete');
  const edge = fastener?.edge ?? asked(layout.rules, 'opening-edge') ?? zero;
  const drill = rightAngleDrill ? 'right-angle' : 'straight';
  const top = sillTop(piece);
  switch (connector.kind) {
    case 'side-plate':
    case 'stepped-side-plate': {
      const heights = top === undefined || !body ? undefined : plateHeights(top, connector.drop, body.tall);
      return {
        mounted: 'on-the-face',
        halfWidth,
        depth: larger(body?.thick ?? zero, nanometres(1)),
        heights,
        holes: holesOfPlate(connector, halfWidth, heights),
        edge,
        sideRoom: largest(fitsAtLeast(connector, 'side-room'), asked(layout.rules, 'side-room', drill)),
        headroom: fitsAtLeast(connector, 'headroom'),
        drillRadius: zero,
      };
    }
    case 'through-bolt': {
      const depth = fastener?.holeDepth ?? fastener?.embed;
      const low = depth === undefined ? Number.NEGATIVE_INFINITY : negate(depth);
      // A right-angle drill goes where the straight one that the connector's entry means does not.
      const ofConnector = rightAngleDrill ? undefined : fitsAtLeast(connector, 'headroom');
      return {
        mounted: 'through-the-sill',
        halfWidth,
        depth: zero,
        heights: top === undefined ? undefined : { low: 0, high: top },
        holes: [{ x: zero, heights: top === undefined ? undefined : { low, high: top } }],
        edge,
        sideRoom: undefined,
        headroom: largest(ofConnector, asked(layout.rules, 'headroom-bolt', drill)),
        drillRadius: asked(layout.rules, 'drill-clear', drill) ?? zero,
      };
    }
    default: {
      // The rod of a hold-down goes down beside its stud; its bracket is nailed to that, whatever the headroom.
      const drilled = connector.kind === 'hold-down' ? fastener : undefined;
      const depth = drilled?.holeDepth ?? drilled?.embed;
      const low = depth === undefined ? Number.NEGATIVE_INFINITY : negate(depth);
      return {
        mounted: 'elsewhere',
        halfWidth,
        depth: zero,
        heights: undefined,
        holes: drilled ? [{ x: zero, heights: top === undefined ? undefined : { low, high: top } }] : [],
        edge: drilled ? edge : zero,
        sideRoom: undefined,
        headroom: undefined,
        drillRadius: zero,
      };
    }
  }
}

/** The subjects of limits that decide where a connector fits, each with what it means. */
export const fitSubjects = {
  'opening-edge': 'length',
  'side-room': 'length',
  'headroom-bolt': 'length',
  'drill-clear': 'length',
  'gas-clear': 'length',
  'power-clear': 'length',
  'working-space-wide': 'length',
  'working-space-deep': 'length',
  'rot-clear': 'length',
  'split-clear': 'length',
  'crack-clear': 'length',
  'cold-joint-clear': 'length',
  'crack-width': 'length',
  'cover-behind-hole': 'length',
  'wood-edge-per-diameter': 'number',
  'old-bolt-apart-per-diameter': 'number',
  'old-bolt-in-concrete-per-diameter': 'number',
  'old-hole-clear-per-diameter': 'number',
} as const;

/** What a rule set asks at least, where it speaks of it without conditions that do not hold here. */
export function asked(
  rules: RulesInForce,
  subject: keyof typeof fitSubjects,
  drill?: 'straight' | 'right-angle',
): Length | undefined {
  const answer = limitFor(rules, subject, drill ? { drill: { kind: 'word', word: drill } } : {});
  return answer.kind === 'limit' ? leastLength(answer.limit)?.reach : undefined;
}

/** So many times its diameter does a fastener keep away, where a rule set speaks of it. */
export function timesAsked(
  rules: RulesInForce,
  subject: keyof typeof fitSubjects,
): { readonly times: number; readonly limit: Limit } | undefined {
  const answer = limitFor(rules, subject, {});
  if (answer.kind !== 'limit') return undefined;
  const { limit } = answer;
  const bound = limit.bounds.find((each) => each.comparison === 'at-least');
  const times = bound?.value.kind === 'number' ? bound.value.number : leastCount(limit);
  return times === undefined ? undefined : { times, limit };
}

/** So many times a diameter. */
export const timesDiameter = (diameter: Length, times: number): Length => scale(diameter, times * 1000, 1000);

function fitsAtLeast(connector: Connector, subject: 'headroom' | 'side-room'): Length | undefined {
  return largest(...connector.fits.filter((each) => each.subject === subject).map((each) => each.least));
}

function largest(...lengths: readonly (Length | undefined)[]): Length | undefined {
  return lengths.reduce(
    (most, each) => (most === undefined || (each !== undefined && each > most) ? each : most),
    undefined,
  );
}

/** As the hardware gives them; else spread evenly, at the plate's edges where it does not say how far apart. */
function holesOfPlate(
  connector: Connector,
  halfWidth: Length | undefined,
  plate: { readonly low: Length; readonly high: Length } | undefined,
): readonly Hole[] {
  const points = connector.holes.filter((each) => each.member === 'concrete').flatMap((each) => each.points);
  if (points.length > 0) {
    const middle = plate && nanometres(Math.floor((plate.low + plate.high) / 2));
    return points.map(({ x, y }) => {
      const height = middle === undefined ? undefined : middle + y;
      return { x, heights: height === undefined ? undefined : { low: height, high: height } };
    });
  }
  const fastener = connector.fasteners.find((each) => each.member === 'concrete');
  if (!fastener) return [];
  const gaps = Math.max(0, fastener.count - 1);
  const width = fastener.apart === undefined ? (halfWidth ?? zero) * 2 * Math.sign(gaps) : fastener.apart * gaps;
  // Their height is not given: anywhere on the part of the plate that lies against the concrete.
  const heights = plate && { low: plate.low, high: Math.max(plate.low, Math.min(0, plate.high)) };
  const left = nanometres(-Math.ceil(width / 2));
  const right = nanometres(Math.ceil(width / 2));
  return left === right
    ? [{ x: zero, heights }]
    : [
        { x: left, heights },
        { x: right, heights },
      ];
}

/** The set-back and the like that a connector takes; both ends belong to the range. */
export function rangeThatFits(
  connector: Connector,
  subject: 'set-back' | 'stem' | 'showing',
): { readonly least: Length | undefined; readonly most: Length | undefined } | undefined {
  const ranges = connector.fits.filter((each) => each.subject === subject);
  if (ranges.length === 0) return undefined;
  const most = ranges.reduce<Length | undefined>(
    (least, each) => (least === undefined || (each.most !== undefined && each.most < least) ? each.most : least),
    undefined,
  );
  return { least: largest(...ranges.map((each) => each.least)), most };
}
