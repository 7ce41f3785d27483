import type { WallFacts } from '../../support/houses/facts.ts';
import { INCH } from '../../support/houses/facts.ts';
import { onAnchors, result, rewrite, spokenOf } from './anchor-edits.ts';
import type { Defect, Injected, LegalHouse, Place } from './defect.ts';
import { firstOf, lengthIn, nameOf, shuffled, stationIn } from './defect.ts';
import { addBlock, addLine, changeLine, surveyOf, withConnector, withValue, withWords } from './house-text.ts';
import type { Board, PlacedAnchorFacts } from './spots.ts';
import { boardsOf, boltOffset, isBolt, nearestAnchor, onTape } from './spots.ts';
import { anchorsOn, hasMoreReadings, onFoundation, onRuns, onSill } from './survey-edits.ts';

/** Mistakes about the concrete, the wood of the sill, and what is set in them. */
export const foundation: readonly Defect[] = [
  {
    id: 'a plate is drawn whose range does not hold the set-back',
    rule: 'foundation/set-back-out-of-range',
    inject: (house) =>
      onAnchors(house, ({ wall, anchor, piece }) => {
        const widest = Math.max(...piece.setBack);
        if (isBolt(anchor)) return undefined;
        const wrong = widest < INCH / 2 ? 'stepped-plate-s' : widest <= 1.4 * INCH ? 'stepped-plate-l' : 'flat-plate';
        if (wrong === 'flat-plate' && piece.connector === 'flat-plate') return undefined;
        if (wrong === piece.connector) return undefined;
        return result(
          house,
          [{ wall: wall.name, station: anchor.station, piece: nameOf(wall, piece) }],
          rewrite(wall, anchor, withConnector(wrong)),
        );
      }),
  },
  {
    id: 'the set-back of a board is misread by an inch',
    rule: 'foundation/set-back-out-of-range',
    inject: (house) =>
      onBoards(house, ({ wall, piece, anchors }) => {
        if (anchors.some(isBolt) || anchors.length === 0 || hasMoreReadings(house.text, wall)) return undefined;
        const wrong = piece.connector === 'flat-plate' ? 1.25 * INCH : INCH / 4;
        const expected = anchors.map(({ station }) => ({ wall: wall.name, station }));
        return result(house, expected, onSill(wall, piece, withValue('set-back', lengthIn(house, wrong))));
      }),
  },
  {
    id: 'the set-back runs from one end of the range to the other',
    rule: 'foundation/set-back-varies',
    inject: (house) =>
      onBoards(house, ({ wall, piece, anchors }) => {
        if (piece.connector !== 'stepped-plate-s' || anchors.length === 0 || hasMoreReadings(house.text, wall))
          return undefined;
        const value = `${lengthIn(house, INCH / 2)} to ${lengthIn(house, 1.5 * INCH)}`;
        return result(
          house,
          [{ wall: wall.name, piece: nameOf(wall, piece) }],
          onSill(wall, piece, withValue('set-back', value)),
        );
      }),
  },
  {
    id: 'a hole from the side is as deep as the stem is thick',
    rule: 'foundation/hole-too-deep',
    inject: (house) =>
      onAnchors(house, ({ wall, anchor, piece }) => {
        const run = wall.runs[piece.run];
        if (isBolt(anchor) || !run) return undefined;
        return result(
          house,
          [{ wall: wall.name, station: anchor.station }],
          rewrite(wall, anchor, withWords(`embed ${lengthIn(house, run.thick)}`)),
        );
      }),
  },
  {
    id: 'the thickness of the stem is misread',
    rule: 'foundation/hole-too-deep',
    inject: (house) =>
      onRuns(house, (wall, run) => {
        const here = anchorsOn(wall, run);
        if (here.length === 0 || here.some(isBolt)) return undefined;
        return result(
          house,
          placesOf(wall, here),
          onFoundation(wall, run, withValue('thick', lengthIn(house, 5 * INCH))),
        );
      }),
  },
  {
    id: 'a bolt is drilled too shallow',
    rule: 'foundation/embed-short',
    inject: (house) =>
      onAnchors(house, ({ wall, anchor }) => {
        if (!isBolt(anchor)) return undefined;
        const words = `embed ${lengthIn(house, 2.5 * INCH)}`;
        return result(house, [{ wall: wall.name, station: anchor.station }], rewrite(wall, anchor, withWords(words)));
      }),
  },
  {
    id: 'a bolt is set too near the outer face of the concrete',
    rule: 'foundation/concrete-edge-thin',
    inject: (house) =>
      onAnchors(house, ({ wall, anchor, piece }) => {
        const run = wall.runs[piece.run];
        if (!isBolt(anchor) || !run) return undefined;
        // Still 3/4 in and more from the edge of the wood.
        const offset = onTape(house.facts, house.facts.sill.wide - INCH);
        if (run.thick - Math.min(...piece.setBack) - offset >= 1.7 * INCH) return undefined;
        return result(
          house,
          [{ wall: wall.name, station: anchor.station }],
          rewrite(wall, anchor, withValue('offset', lengthIn(house, offset))),
        );
      }),
  },
  {
    id: 'a bolt is set too near the edge of the sill',
    rule: 'foundation/wood-edge-thin',
    inject: (house) =>
      onAnchors(house, ({ wall, anchor, piece }) => {
        const run = wall.runs[piece.run];
        if (!isBolt(anchor) || !run) return undefined;
        const offset = house.facts.sill.wide - INCH / 2;
        if (run.thick - Math.max(...piece.setBack) - offset < 1.75 * INCH) return undefined;
        return result(
          house,
          [{ wall: wall.name, station: anchor.station }],
          rewrite(wall, anchor, withValue('offset', lengthIn(house, offset))),
        );
      }),
  },
  {
    id: 'less concrete shows than was taped',
    rule: 'foundation/concrete-too-low',
    inject: (house) =>
      onRuns(house, (wall, run) => {
        const here = anchorsOn(wall, run);
        if (here.length === 0 || here.some(isBolt)) return undefined;
        return result(
          house,
          placesOf(wall, here),
          onFoundation(wall, run, withValue('showing', lengthIn(house, 7 * INCH))),
        );
      }),
  },
  {
    id: 'the soil outside is read too high',
    rule: 'foundation/sill-near-grade',
    inject: (house) =>
      onRuns(house, (wall, run) => {
        // Where nobody says whether the wood is treated, nothing follows.
        if (house.facts.plain) return undefined;
        const place = { wall: wall.name, station: run.from };
        return result(house, [place], onFoundation(wall, run, withValue('grade', lengthIn(house, 5 * INCH))));
      }),
  },
  {
    id: 'the foundation crumbles',
    rule: 'foundation/concrete-soft',
    inject: (house) =>
      onRuns(house, (wall, run) =>
        result(
          house,
          [{ wall: wall.name, station: run.from, severity: 'stop' }],
          onFoundation(wall, run, (line) => `${line.replace(/ sound\b/, '')} crumbling`),
        ),
      ),
  },
  {
    id: 'the concrete breaks below 2000 psi',
    rule: 'foundation/concrete-soft',
    inject: (house) =>
      onRuns(house, (wall, run) =>
        result(
          house,
          [{ wall: wall.name, station: run.from, severity: 'stop' }],
          onFoundation(wall, run, (line) => `${line.replace(/ strength \d+ psi/, '')} strength 1400 psi`),
        ),
      ),
  },
  {
    id: 'a wall stands on brick',
    rule: 'foundation/masonry-base',
    inject: (house) =>
      onRuns(house, (wall, run) =>
        result(
          house,
          [{ wall: wall.name, station: run.from, severity: 'stop' }],
          onFoundation(wall, run, (line) => line.replace(/ concrete\b/, '').replace(/ thick /, ' brick thick ')),
        ),
      ),
  },
  {
    id: 'a wall stands on a slab with tensioned cables',
    rule: 'foundation/post-tension-slab',
    inject: (house) =>
      onRuns(house, (wall, run) =>
        result(
          house,
          [{ wall: wall.name, station: run.from, severity: 'stop' }],
          onFoundation(wall, run, (line) => `${line} post-tensioned`),
        ),
      ),
  },
  {
    id: 'rot is found where an anchor stands',
    rule: 'foundation/sill-rotten',
    inject: (house) => defectAt(house, 'rot', -2, 2),
  },
  {
    id: 'insects have eaten the sill beside an anchor',
    rule: 'foundation/sill-rotten',
    inject: (house) => defectAt(house, 'insects', 4, 7),
  },
  {
    id: 'the sill is split where an anchor stands',
    rule: 'foundation/sill-split',
    inject: (house) => defectAt(house, 'split', -2, 2),
  },
  {
    id: 'the sill is notched where an anchor stands',
    rule: 'foundation/sill-thin',
    inject: (house) => defectAt(house, 'notch', -3, 3, `depth ${lengthIn(house, INCH / 2)}`),
  },
  {
    id: 'a board is thinner than was thought',
    rule: 'foundation/sill-thin',
    inject: (house) =>
      onBoards(house, ({ wall, piece, anchors }) => {
        // The screws of a plate would come too near its edges too.
        if (!anchors.every(isBolt)) return undefined;
        // Thinner by little, so that the heights of the wall still add up within the tape.
        const size = `size ${lengthIn(house, 1.375 * INCH)} x ${lengthIn(house, house.facts.sill.wide)}`;
        const line = (before: string): string => {
          const now = withoutSize(before);
          return `${now.replace(/ set-back /, ` ${size} set-back `)}`;
        };
        return result(
          house,
          [{ wall: wall.name, piece: nameOf(wall, piece), station: piece.from }],
          onSill(wall, piece, line),
        );
      }),
  },
  {
    id: 'a wide crack runs beside an anchor',
    rule: 'foundation/crack-near-anchor',
    inject: (house) => concreteAt(house, 5, (at) => `crack at ${at} width ${lengthIn(house, INCH / 4)}`),
  },
  {
    id: 'two wide cracks stand in one stretch of foundation',
    rule: 'foundation/crack-near-anchor',
    inject: (house) =>
      onRuns(house, (wall, run) => {
        const stations = [run.from, ...anchorsOn(wall, run).map(({ station }) => station), run.to];
        return firstOf(stations.slice(1), (right) => {
          const left = stations[stations.indexOf(right) - 1] ?? 0;
          if (right - left < 40 * INCH) return undefined;
          const [one, two] = [18, 21].map((by) => stationIn(house, onTape(house.facts, left + by * INCH)));
          const crack = (at: string | undefined): string => `crack at ${at ?? ''} width ${lengthIn(house, INCH / 4)}`;
          return result(
            house,
            [{ wall: wall.name, station: run.from, severity: 'stop' }],
            addLine(surveyOf(wall), crack(one)),
            addLine(surveyOf(wall), crack(two)),
          );
        });
      }),
  },
  {
    id: 'an anchor stands beside a cold joint',
    rule: 'foundation/cold-joint-near',
    inject: (house) => concreteAt(house, 3, (at) => `cold-joint at ${at}`),
  },
  {
    id: 'a wedge anchor is set near the edge of old concrete',
    rule: 'foundation/expansion-near-edge',
    inject: (house) =>
      onAnchors(house, ({ wall, anchor, piece }) => {
        const run = wall.runs[piece.run];
        if (!isBolt(anchor) || !run || run.thick > 8.5 * INCH) return undefined;
        const outer = run.thick - Math.min(...piece.setBack) - boltOffset(house.facts);
        if (outer >= 2.9 * INCH) return undefined;
        return result(
          house,
          [{ wall: wall.name, station: anchor.station }],
          rewrite(wall, anchor, withConnector('wedge-half')),
          addBlock([
            'connector wedge-half through-bolt',
            '  demo',
            '  report "none: invented values"',
            '  body 3" wide 3" tall 1/4" thick',
            '  into concrete 1 wedge-anchor size 1/2" x 7" hole-depth 4" edge 1-3/4"',
          ]),
        );
      }),
  },
  {
    id: 'a flat plate bridges a gap without a shim',
    rule: 'foundation/shim-missing',
    inject: (house) =>
      onAnchors(house, ({ wall, anchor, piece }) => {
        if (piece.connector !== 'stepped-plate-s') return undefined;
        return result(
          house,
          [{ wall: wall.name, station: anchor.station }],
          rewrite(wall, anchor, withConnector('wide-plate')),
          addBlock([
            'connector wide-plate side-plate',
            '  demo',
            '  report "none: invented values"',
            '  fits set-back 0" to 2"',
            '  fits showing at-least 9"',
            '  body 8" wide 9" tall 5/16" thick',
            '  into concrete 2 concrete-screw-anchor size 1/2" x 4-1/2" hole 1/2" hole-depth 4-3/4" apart 4" edge 3"',
            '  into sill 5 lag-screw size 5/16" x 2-1/2" edge 3/4"',
          ]),
        );
      }),
  },
  {
    id: 'the sill turns out to be double, and the screws reach one board',
    rule: 'foundation/sill-stack-loose',
    inject: (house) =>
      onBoards(house, ({ wall, piece, anchors }) => {
        const run = wall.runs[piece.run];
        const [first] = anchors;
        // The levels are told by the cripple wall as a whole, and by the sill alone where there is none.
        if (!first || !run?.cripple || anchors.some(isBolt) || run.double) return undefined;
        const both = (line: string): string => line.replace(/ headroom /, ' double headroom ');
        return result(
          house,
          [{ wall: wall.name, station: first.station }],
          onSill(wall, piece, both),
          changeLine(surveyOf(wall), /^ {2}cripple /, (line) => line.replace(/ (?:single|double) plate\b/, '')),
        );
      }),
  },
  {
    id: 'an anchor is set that the report of its plate does not list',
    rule: 'material/anchor-not-in-report',
    inject: (house) =>
      onAnchors(house, ({ wall, anchor }) =>
        result(
          house,
          [{ wall: wall.name, station: anchor.station }],
          rewrite(wall, anchor, withWords('with wedge-anchor')),
        ),
      ),
  },
  {
    id: 'bolts come with washers that are too thin',
    rule: 'material/washer-small',
    inject: (house) =>
      onAnchors(house, ({ wall, anchor }) => {
        if (!isBolt(anchor)) return undefined;
        return result(
          house,
          [{ wall: wall.name, station: anchor.station }],
          rewrite(wall, anchor, withWords('with washer-thin')),
          addBlock(['connector washer-thin plate-washer', '  demo', '  body 3" wide 3" tall 3/16" thick']),
        );
      }),
  },
];

// ---- where

function onBoards(house: LegalHouse, answer: (board: Board) => Injected | undefined): Injected | undefined {
  const boards = boardsOf(house.facts).filter(({ anchors }) => !anchors.some(({ mark }) => spokenOf(house.text, mark)));
  return firstOf(shuffled(house.random, boards), answer);
}

const placesOf = (wall: WallFacts, anchors: WallFacts['anchors']): readonly Place[] =>
  anchors.map(({ station }) => ({ wall: wall.name, station }));

function withoutSize(line: string): string {
  return withValueOfSize(line).replace(/ 2x6\b/, '');
}

const withValueOfSize = (line: string): string => line.replace(/ size .*? x .*?(?= set-back )/, '');

/** A defect of the wood over a stretch so many inches from an anchor, and from no other. */
function defectAt(house: LegalHouse, kind: string, from: number, to: number, words = ''): Injected | undefined {
  return onAnchors(house, (place) => {
    const { wall, anchor, piece } = place;
    const [left, right] = [from, to].map((by) => onTape(house.facts, anchor.station + by * INCH));
    if (left === undefined || right === undefined || left < piece.from || right > piece.to) return undefined;
    if (!isAlone(place, left, right, 18)) return undefined;
    return result(
      house,
      [{ wall: wall.name, piece: nameOf(wall, piece), station: anchor.station }],
      addLine(
        surveyOf(wall),
        `${kind} ${stationIn(house, left)} to ${stationIn(house, right)}${words === '' ? '' : ` ${words}`}`,
      ),
    );
  });
}

function concreteAt(house: LegalHouse, by: number, line: (at: string) => string): Injected | undefined {
  return onAnchors(house, (place) => {
    const { wall, anchor } = place;
    const at = onTape(house.facts, anchor.station + by * INCH);
    if (at > wall.length - 2 * INCH || !isAlone(place, at, at, 15)) return undefined;
    return result(
      house,
      [{ wall: wall.name, station: anchor.station }],
      addLine(surveyOf(wall), line(stationIn(house, at))),
    );
  });
}

/** No other anchor, and no other defect of its sort, comes so near. */
function isAlone({ wall, anchor }: PlacedAnchorFacts, from: number, to: number, inches: number): boolean {
  const clear = inches * INCH;
  return (
    Math.min(nearestAnchor(wall, from, anchor), nearestAnchor(wall, to, anchor)) > clear &&
    wall.defects.every((each) => each.to + clear < from || to + clear < each.from) &&
    wall.pieces.filter((each) => each.from <= to && from <= each.to).length === 1
  );
}
