import { asked } from '../../fit/footprint.ts';
import { pieceAt } from '../../fit/piece-anchors.ts';
import type { Panel } from '../../model/design.ts';
import type { CrippleStretch, FoundationStretch, JoistRun, Layout, SillPiece, Wall } from '../../model/layout.ts';
import { knownValue, type Profile, profileAt } from '../../model/reading.ts';
import { half, inches, type Length, plus, zero } from '../../units/length.ts';
import { nailerThickness } from '../behind-panel.ts';
import type { PlacedAnchor } from '../placed-mark.ts';
import { type Drilling, drillingOf } from '../strip/drilling.ts';
import { sillThickness, sillWidth, standInJoist, stemAt, type WallShape } from '../wall-shape.ts';

/** A length as drawn: as measured, or a stand-in that is only ever drawn in short heavy dashes and called unknown. */
export interface Drawn {
  readonly length: Length;
  readonly known: boolean;
}

/** A wall cut across at one station. Heights are above the top of the concrete, distances from its inside face outwards. */
export interface SectionFacts {
  readonly station: Length;
  readonly stem: { readonly thick: Drawn; readonly showing: Drawn; readonly grade: Length | undefined };
  /** `concrete, unreinforced`, `brick`, `foundation not recorded`. */
  readonly material: string;
  /** `undefined`: no board lies here. */
  readonly sill:
    | {
        readonly piece: SillPiece;
        readonly thick: Drawn;
        readonly wide: Drawn;
        /** From the inside face to the inner edge of the board. */
        readonly setBack: Drawn;
      }
    | undefined;
  readonly headroom: Length | undefined;
  readonly cripple:
    | {
        readonly cripple: CrippleStretch;
        readonly height: Drawn;
        readonly studWide: Drawn;
        /** From the inner edge of the board to the inner face of the studs. */
        readonly ledge: Drawn;
        readonly plates: 1 | 2 | undefined;
      }
    | undefined;
  readonly joist: {
    readonly run: JoistRun['run'];
    readonly depth: Drawn;
    readonly thick: Drawn;
    readonly recorded: boolean;
  };
  readonly rim: 'seen' | 'unseen' | 'absent' | undefined;
  readonly panel: { readonly panel: Panel; readonly thick: Drawn; readonly nailer: Length } | undefined;
  readonly anchor: SectionAnchor | undefined;
  /** What a hammer and its bit ask for over the sill, or in front of the wall. */
  readonly toolReach: Length | undefined;
}
export interface SectionAnchor {
  readonly placed: PlacedAnchor;
  /** `undefined`: nothing is drilled into concrete. */
  readonly drilling: Drilling | undefined;
  /** Into the concrete. */
  readonly depth: Drawn;
  /** Of a bolt or rod: from the inner edge of the board. */
  readonly offset: Drawn;
}

const STAND_IN = { thick: inches(8), showing: inches(12), crippleHeight: inches(16), ledge: zero, depth: inches(4) };

export function sectionFacts(
  { layout, wall, shape }: { readonly layout: Layout; readonly wall: Wall; readonly shape: WallShape },
  station: Length,
  placed: PlacedAnchor | undefined,
): SectionFacts {
  const foundation = stemAt(shape, station)?.foundation;
  const piece = pieceAt(wall, station);
  const cripple = wall.cripples.find((each) => each.from <= station && station <= each.to);
  const run = wall.joists.find((each) => each.from <= station && station <= each.to);
  const rim = wall.rims.find((each) => each.from <= station && station <= each.to);
  const panel = wall.panels.find(
    ({ stretch, state }) => stretch && state !== 'omitted' && stretch.from <= station && station <= stretch.to,
  );
  const wide = piece && sillWidth(piece);
  const thick = piece && sillThickness(piece);
  const at = (profile: Profile | undefined): Length | undefined => profile && knownValue(profileAt(profile, station));
  return {
    station,
    stem: {
      thick: drawn(at(foundation?.thick), STAND_IN.thick),
      showing: drawn(at(foundation?.showing), STAND_IN.showing),
      grade: at(foundation?.grade),
    },
    material: foundation ? materialInWords(foundation) : 'foundation not recorded',
    sill: piece &&
      wide &&
      thick && {
        piece,
        thick: { length: thick.thick, known: thick.known },
        wide: { length: wide.wide, known: wide.known },
        setBack: piece.flush ? { length: zero, known: true } : drawn(at(piece.setBack), zero),
      },
    headroom: at(piece?.headroom),
    cripple: cripple && {
      cripple,
      height: drawn(at(cripple.height), STAND_IN.crippleHeight),
      studWide: drawn(knownValue(cripple.studSize?.wide), inches(3.5)),
      ledge: drawn(at(cripple.ledge), STAND_IN.ledge),
      plates: cripple.plates === undefined ? undefined : cripple.plates === 'double' ? 2 : 1,
    },
    joist: {
      run: run?.run,
      depth: drawn(knownValue(run?.size?.wide), standInJoist.depth),
      thick: drawn(knownValue(run?.size?.thick), standInJoist.thickness),
      recorded: run !== undefined,
    },
    rim: rim?.seen ?? (rim ? 'seen' : undefined),
    panel: panel && {
      panel,
      thick: drawn(knownValue(panel.board?.thick), inches(0.5)),
      nailer: panel.nailers && panel.nailers !== 'none' ? nailerThickness(panel) : zero,
    },
    anchor: placed && {
      placed,
      drilling: drillingOf(layout, wall, placed),
      depth: drawn(depthOf(layout, wall, placed), STAND_IN.depth),
      offset: offsetOf(placed, wide),
    },
    toolReach: placed && toolReach(layout, placed),
  };
}

const materialInWords = ({ material, steel }: FoundationStretch): string =>
  `${material.replace('-', ' ')}, ${steel ?? 'steel not recorded'}`;

const drawn = (length: Length | undefined, standIn: Length): Drawn => ({
  length: length ?? standIn,
  known: length !== undefined,
});

/** As built where the record says, else as the crew is told to drill. */
function depthOf(layout: Layout, wall: Wall, placed: PlacedAnchor): Length | undefined {
  const inConcrete = drillingOf(layout, wall, placed)?.parts.find(({ of }) => of === 'concrete');
  return knownValue(placed.anchor.asBuilt?.embed) ?? inConcrete?.deep;
}

/** Without an offset the middle of the board, as the checks take it. */
function offsetOf({ anchor }: PlacedAnchor, wide: ReturnType<typeof sillWidth> | undefined): Drawn {
  const middle = half(wide?.wide ?? inches(5.5));
  if (anchor.offset) return drawn(knownValue(anchor.offset), middle);
  return { length: middle, known: wide?.known === true };
}

function toolReach(layout: Layout, { connector, anchor }: PlacedAnchor): Length | undefined {
  const drill = anchor.rightAngleDrill ? 'right-angle' : 'straight';
  switch (connector?.kind) {
    case 'through-bolt':
      return asked(layout.rules, 'headroom-bolt', drill);
    case 'side-plate':
    case 'stepped-side-plate':
      return asked(layout.rules, 'side-room', drill);
    default:
      return undefined;
  }
}

/** What makes two stations one section: the same board on the same concrete under the same floor, and the same hole. */
export function conditionOf({ stem, sill, headroom, cripple, joist, anchor, rim }: SectionFacts): string {
  return JSON.stringify([
    stem.thick,
    stem.showing,
    stem.grade,
    sill && [sill.setBack, sill.thick, sill.wide, sill.piece.layer],
    headroom,
    cripple && [cripple.height, cripple.studWide, cripple.ledge, cripple.plates],
    [joist.run, joist.depth, joist.recorded],
    rim,
    anchor && [anchor.placed.connector?.name, anchor.drilling?.parts],
  ]);
}

/** Over the top of the concrete. */
export function undersideOf({ cripple, sill }: SectionFacts): Drawn {
  if (cripple) return cripple.height;
  return sill?.thick ?? { length: inches(1.5), known: false };
}

export const innerEdge = ({ sill }: SectionFacts): Length => sill?.setBack.length ?? zero;
export const studInner = (facts: SectionFacts): Length => plus(innerEdge(facts), facts.cripple?.ledge.length ?? zero);
