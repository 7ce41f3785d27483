import type { AnchorFacts } from '../../support/houses/facts.ts';
import { FOOT, INCH } from '../../support/houses/facts.ts';
import { copyAt, result, rewrite, spokenOf, without } from './anchor-edits.ts';
import type { Defect, Injected, LegalHouse, Place } from './defect.ts';
import { firstOf, nameOf, shuffled, stationIn } from './defect.ts';
import type { Edit } from './house-text.ts';
import {
  addBlock,
  addLine,
  anchorLine,
  blockOf,
  changeBlocks,
  changeLine,
  placeOf,
  surveyOf,
  withPlace,
  workOn,
} from './house-text.ts';
import type { Board, PlacedAnchorFacts } from './spots.ts';
import {
  anchorsIn,
  boardsOf,
  isBare,
  isBolt,
  isLong,
  isOpen,
  nearestAnchor,
  onTape,
  spacingLimit,
  studsNear,
} from './spots.ts';

/** Mistakes in the row of anchors along a board. */
export const alongABoard: readonly Defect[] = [
  {
    id: 'the end anchor is dropped',
    rule: 'anchorage/end-too-far',
    inject: (house) =>
      onEnds(house, ({ wall, piece, anchors, end, next }) => {
        if (!isLong(piece) || anchors.length < 4) return undefined;
        return result(
          house,
          [{ wall: wall.name, piece: nameOf(wall, piece), station: next.station }],
          without(house, wall, [end]),
        );
      }),
  },
  {
    id: 'the end anchor stands too near the end of the wood',
    rule: 'anchorage/end-too-near',
    inject: (house) =>
      onEnds(house, (place) => {
        const { piece, anchors } = place;
        // A plate beside a corner would also meet the concrete of the next wall.
        if (anchors.length < 3 || (!isBolt(piece) && atCorner(place))) return undefined;
        return slideTo(house, place, [5, 5.5, 6, 6.5, 7]);
      }),
  },
  {
    id: 'the end anchor stands too far from the end of the wood',
    rule: 'anchorage/end-too-far',
    inject: (house) =>
      onEnds(house, (place) => (place.anchors.length < 3 ? undefined : slideTo(house, place, [16, 17, 18, 19, 20]))),
  },
  {
    id: 'the end anchor is drawn right, and built too far from the end of the wood',
    rule: 'as-built/moved-out-of-place',
    inject: (house) =>
      onEnds(house, (board) => {
        const { anchors, end } = board;
        if (anchors.length < 3 || spokenOf(house.text, end.mark)) return undefined;
        return slideTo(house, board, [16, 17, 18, 19, 20], undefined, (station) =>
          addBlock(['record 2026-06-12', `  installed ${end.mark} at ${station} because "hit steel"`]),
        );
      }),
  },
  {
    id: 'the distance is taken from the middle of the lap',
    rule: 'anchorage/lap-end-misread',
    inject: (house) =>
      onEnds(house, (place) => {
        const { wall, piece, side } = place;
        const index = wall.pieces.indexOf(piece);
        const lap = (side === 'right' ? piece : wall.pieces[index - 1])?.jointLength;
        // In a lap of 4 in the middle is 2 in from the end of the wood.
        if (lap === undefined || lap > 5 * INCH || place.anchors.length < 3) return undefined;
        return slideTo(house, place, [13, 12.75, 13.5]);
      }),
  },
  {
    id: 'an anchor in the middle is dropped',
    rule: 'anchorage/gap-too-wide',
    inject: (house) =>
      firstOf(shuffled(house.random, anchorsIn(house.facts)), ({ wall, piece, anchor, before, after }) => {
        if (!isLong(piece) || !before || !after) return undefined;
        if (after.station - before.station <= spacingLimit(house.facts) + INCH / 4) return undefined;
        const gap = { wall: wall.name, piece: nameOf(wall, piece), station: before.station };
        return result(house, [gap], without(house, wall, [anchor]));
      }),
  },
  {
    id: 'one station is read from the wrong end',
    rule: 'anchorage/gap-too-wide',
    inject: (house) =>
      firstOf(shuffled(house.random, anchorsIn(house.facts)), (place) => {
        const { wall, piece, anchor, before, after } = place;
        const mirrored = wall.length - anchor.station;
        if (!isLong(piece) || !before || !after || anchorPlace(house, place)?.includes('from right')) return undefined;
        if (after.station - before.station <= spacingLimit(house.facts) + INCH / 4) return undefined;
        if (before.station < mirrored && mirrored < after.station) return undefined;
        if (!fitsBetweenOthers(house, place, mirrored)) return undefined;
        const gap = { wall: wall.name, piece: nameOf(wall, piece), station: before.station };
        const text = stationIn(house, anchor.station);
        return result(house, [gap], rewrite(wall, anchor, withPlace(`${text} from right`)));
      }),
  },
  {
    id: 'feet are written for inches',
    rule: 'geometry/station-outside-wall',
    companions: { 'anchorage/gap-too-wide': 'the anchor is nowhere, so its neighbours are too far apart' },
    inject: (house) =>
      firstOf(shuffled(house.random, anchorsIn(house.facts)), ({ wall, anchor, piece, before, after }) => {
        if (!before || !after || !isLong(piece)) return undefined;
        const feet = Math.round(anchor.station / INCH);
        if (house.facts.units === 'metric' || feet * FOOT <= wall.length) return undefined;
        return result(house, [{ wall: wall.name }], rewrite(wall, anchor, withPlace(`${feet}'-0"`)));
      }),
  },
  {
    id: 'a short board gets one anchor too few',
    rule: 'anchorage/short-piece-count',
    inject: (house) =>
      firstOf(shuffled(house.random, boardsOf(house.facts)), ({ wall, piece, anchors }) => {
        const dropped = anchors[1];
        if (isLong(piece) || anchors.length < 3 || !dropped) return undefined;
        return result(house, [{ wall: wall.name, piece: nameOf(wall, piece) }], without(house, wall, [dropped]));
      }),
  },
  {
    id: 'a short board loses the anchor at its end',
    rule: 'anchorage/short-piece-count',
    inject: (house) =>
      firstOf(shuffled(house.random, boardsOf(house.facts)), ({ wall, piece, anchors }) => {
        const dropped = anchors.at(-1);
        if (isLong(piece) || anchors.length < 3 || !dropped) return undefined;
        return result(house, [{ wall: wall.name, piece: nameOf(wall, piece) }], without(house, wall, [dropped]));
      }),
  },
  {
    id: 'a board of the line is forgotten',
    rule: 'anchorage/piece-without-anchor',
    inject: (house) =>
      firstOf(shuffled(house.random, boardsOf(house.facts)), ({ wall, piece, anchors }) => {
        if (wall.pieces.length < 2) return undefined;
        return result(house, [{ wall: wall.name, piece: nameOf(wall, piece) }], without(house, wall, anchors));
      }),
  },
  {
    id: 'two anchors stand side by side',
    rule: 'anchorage/gap-too-tight',
    inject: (house) =>
      firstOf(shuffled(house.random, anchorsIn(house.facts)), ({ wall, piece, anchor, after }) => {
        if (!after || after.station - anchor.station < 30 * INCH) return undefined;
        const station = firstOf([9, 9.5, 10, 8.5], (by) => {
          const at = onTape(house.facts, anchor.station + by * INCH);
          return isOpen(house.facts, wall, anchor.connector, at) ? at : undefined;
        });
        if (station === undefined) return undefined;
        const place = { wall: wall.name, piece: nameOf(wall, piece), station: anchor.station };
        return result(house, [place], copyAt(house, { wall, anchor }, station));
      }),
  },
  {
    id: 'an anchor straddles the joint of two boards',
    rule: 'anchorage/straddles-break',
    inject: (house) =>
      onEnds(house, (place) => {
        const { piece, wall } = place;
        const index = wall.pieces.indexOf(piece);
        const joint = (place.side === 'right' ? piece : wall.pieces[index - 1])?.joint;
        if (joint !== 'butt' || place.anchors.length < 3) return undefined;
        return slideTo(house, place, [1, 0.75], { wall: wall.name });
      }),
  },
  {
    id: 'a mark is given twice',
    rule: 'geometry/duplicate-mark',
    inject: (house) =>
      firstOf(shuffled(house.random, anchorsIn(house.facts)), ({ wall, anchor, after }) => {
        if (!after || after.station - anchor.station < 40 * INCH) return undefined;
        const station = onTape(house.facts, (anchor.station + after.station) / 2);
        if (!isOpen(house.facts, wall, anchor.connector, station)) return undefined;
        return result(house, [{}], copyAt(house, { wall, anchor }, station, anchor.mark));
      }),
  },
  {
    id: 'the work of a whole wall is forgotten',
    rule: 'load-path/wall-line-forgotten',
    inject: (house) => {
      // What the record speaks of is not forgotten.
      const wall = house.facts.walls.at(-1);
      if (!wall || house.text.includes(`${wall.name}-1 because`) || house.text.includes('\nline side '))
        return undefined;
      if (blockOf(house.text, workOn(wall)) === '') return undefined;
      return result(
        house,
        [{ wall: wall.name }],
        changeBlocks((block) => (workOn(wall).test(block) ? undefined : block)),
      );
    },
  },
  {
    id: 'a worthless old bolt is counted',
    rule: 'anchorage/old-anchor-overcounted',
    inject: (house) =>
      oldBolt(house, 'heavy-rust nut none washer square credit full', (wall, station) => ({
        wall: wall.name,
        station,
      })),
  },
  {
    id: 'an old bolt is counted that nobody tested',
    rule: 'anchorage/old-anchor-unproven',
    inject: (house) =>
      oldBolt(house, 'sound nut tight washer square credit full', (wall, station) => ({ wall: wall.name, station })),
  },
  {
    id: 'an old bolt is counted with the cut washer that it has',
    rule: 'material/washer-small',
    inject: (house) =>
      oldBolt(house, 'sound nut tight washer cut credit full', (wall, station) => ({ wall: wall.name, station })),
  },
  {
    id: 'a panel stands over a stretch with one anchor',
    rule: 'anchorage/few-anchors-in-panel',
    inject: (house) =>
      firstOf(shuffled(house.random, house.facts.walls), (wall) =>
        firstOf(wall.panels, (panel) => {
          const below = wall.anchors.filter(({ station }) => panel.from <= station && station <= panel.to);
          const [first, second] = below.map(({ station }) => station);
          if (first === undefined || second === undefined || second - panel.from < 30 * INCH) return undefined;
          const to = stationIn(house, onTape(house.facts, second - 6 * INCH));
          return result(
            house,
            [{ wall: wall.name, station: panel.from }],
            changeLine(workOn(wall), new RegExp(`^ {2}panel ${panel.mark} `), (line) =>
              line.replace(/^( {2}panel \S+ ).*?( plywood )/, `$1${stationIn(house, panel.from)} to ${to}$2`),
            ),
          );
        }),
      ),
  },
  {
    id: 'the row is moved past a window, and an anchor is saved',
    rule: 'anchorage/line-count-short',
    inject: (house) =>
      firstOf(shuffled(house.random, boardsOf(house.facts)), (board) => {
        const { wall, piece, anchors } = board;
        if (!isLong(piece) || isBolt(piece) || anchors.some(({ mark }) => spokenOf(house.text, mark))) return undefined;
        const window = onTape(house.facts, piece.from + 30 * INCH);
        // Holes 2 in to the left of the middle, 3 in from the edge of the concrete.
        const first = window + 5 * INCH;
        const last = anchors.at(-1)?.station ?? 0;
        const limit = spacingLimit(house.facts);
        const count = Math.ceil((last - first) / limit) + 1;
        const others = boardsOf({ walls: [wall] }).filter((each) => each.piece !== piece);
        const has = count + others.reduce((sum, each) => sum + each.anchors.length, 0);
        const full = [board, ...others].reduce((sum, each) => sum + fullCount(each, limit), 0);
        if (has >= full || count > anchors.length || !isBare(wall, piece.from, window)) return undefined;
        const stations = Array.from({ length: count }, (_, index) =>
          index === 0
            ? first
            : index === count - 1
              ? last
              : onTape(house.facts, first + ((last - first) * index) / (count - 1)),
        );
        if (!stations.every((at) => isOpen(house.facts, wall, piece.connector, at))) return undefined;
        if (stations.some((at, index) => at - (stations[index - 1] ?? at) > limit)) return undefined;
        const kept = anchors.slice(0, count);
        return result(
          house,
          [{ wall: wall.name }],
          addLine(
            surveyOf(wall),
            `window WX ${stationIn(house, piece.from + 6 * INCH)} to ${stationIn(house, window)} reaches-sill`,
          ),
          ...kept.map((anchor, index) => rewrite(wall, anchor, withPlace(stationIn(house, stations[index] ?? 0)))),
          without(house, wall, anchors.slice(count)),
        );
      }),
  },
];

/** The outermost anchor at one end of a board, and the next one. */
interface BoardEnd extends Board {
  readonly side: 'left' | 'right';
  readonly end: AnchorFacts;
  readonly next: AnchorFacts;
}

function onEnds(house: LegalHouse, answer: (end: BoardEnd) => Injected | undefined): Injected | undefined {
  const ends = boardsOf(house.facts).flatMap((board): readonly BoardEnd[] => {
    const [first, second] = board.anchors;
    const [last, before] = board.anchors.toReversed();
    if (!first || !second || !last || !before) return [];
    return [
      { ...board, side: 'left', end: first, next: second },
      { ...board, side: 'right', end: last, next: before },
    ];
  });
  return firstOf(shuffled(house.random, ends), answer);
}

/** What a board takes where nothing is in the way: by Table A304.3.1 where it is long, by its own table where it is short. */
function fullCount({ piece, anchors }: Board, limit: number): number {
  if (!isLong(piece)) return anchors.length;
  const between = piece.to - piece.from - 24 * INCH - INCH / 8;
  return Math.ceil(between / (limit + INCH / 16)) + 1;
}

const atCorner = ({ side, wall, piece }: BoardEnd): boolean =>
  side === 'left' ? piece.from === 0 : piece.to === wall.length;

/** The end anchor at the first of these distances in inches from its end at which nothing else is wrong. */
function slideTo(
  house: LegalHouse,
  board: BoardEnd,
  distances: readonly number[],
  place?: Place,
  write: (station: string) => Edit = (station) => rewrite(board.wall, board.end, withPlace(station)),
): Injected | undefined {
  const { wall, piece, side, end, next } = board;
  return firstOf(distances, (inches) => {
    const by = onTape(house.facts, inches * INCH);
    const station = side === 'left' ? piece.from + by : piece.to - by;
    if (!isOpen(house.facts, wall, end.connector, station)) return undefined;
    const gap = Math.abs(next.station - station);
    if (gap < 13 * INCH || (isLong(piece) && gap > spacingLimit(house.facts))) return undefined;
    if (nearestAnchor(wall, station, end) < 8.5 * INCH && !place) return undefined;
    const expected = place ?? { wall: wall.name, piece: nameOf(wall, piece) };
    return result(house, [{ ...expected, station }], write(stationIn(house, station)));
  });
}

/** An anchor that is moved there stands in the row of another board, or of its own, without breaking it. */
function fitsBetweenOthers(house: LegalHouse, { wall, anchor }: PlacedAnchorFacts, station: number): boolean {
  const piece = wall.pieces.find(({ from, to }) => from + 9 * INCH <= station && station <= to - 9 * INCH);
  if (!piece || Math.abs(station - anchor.station) < 13 * INCH) return false;
  // The plate there has to suit the board there.
  if (piece.connector !== anchor.connector) return false;
  if (wall.pieces.some((each) => each !== piece && each.from < station + 9 * INCH && station - 9 * INCH < each.to)) {
    return false;
  }
  const room = nearestAnchor(wall, station, anchor) >= 13 * INCH;
  return room && isOpen(house.facts, wall, anchor.connector, station);
}

function anchorPlace(house: LegalHouse, { wall, anchor }: PlacedAnchorFacts): string | undefined {
  const line = blockOf(house.text, workOn(wall))
    .split('\n')
    .find((each) => anchorLine(anchor.mark).test(each));
  return line === undefined ? undefined : placeOf(line);
}

/** An old bolt among the new anchors, where it makes no row better or worse. */
function oldBolt(
  house: LegalHouse,
  words: string,
  placeOn: (wall: Board['wall'], station: number) => Place,
): Injected | undefined {
  return firstOf(shuffled(house.random, anchorsIn(house.facts)), ({ wall, anchor, after }) => {
    if (!after || after.station - anchor.station < 28 * INCH) return undefined;
    const station = onTape(house.facts, (anchor.station + after.station) / 2);
    if (
      !isBare(wall, station, station, 2 * INCH) ||
      wall.pieces.filter((each) => each.from <= station && station <= each.to).length > 1
    )
      return undefined;
    if (studsNear(wall).some((stud) => Math.abs(stud - station) < INCH)) return undefined;
    return result(
      house,
      [placeOn(wall, station)],
      addLine(surveyOf(wall), `anchor OLD 1/2" at ${stationIn(house, station)} ${words}`),
    );
  });
}
