import type { ConnectorName, WallFacts } from '../../support/houses/facts.ts';
import { INCH } from '../../support/houses/facts.ts';
import { result, spokenOf } from './anchor-edits.ts';
import type { Defect, Injected, LegalHouse } from './defect.ts';
import { firstOf, lengthIn, nameOf, shuffled, stationIn } from './defect.ts';
import type { Edit } from './house-text.ts';
import {
  addLine,
  anchorLine,
  blockOf,
  changeLine,
  changeLines,
  edited,
  surveyOf,
  withoutValue,
  withPlace,
  withValue,
  workOn,
} from './house-text.ts';
import { boardsOf, nearestAnchor, onTape, spacingLimit } from './spots.ts';
import { hasMoreReadings, onFoundation, onNth, onRuns, onSill } from './survey-edits.ts';

/** Mistakes in reading and writing down what is there. */
export const survey: readonly Defect[] = [
  {
    id: 'a wall is taped an inch and a half too long',
    rule: 'geometry/outline-open',
    inject: (house) =>
      firstOf(shuffled(house.random, house.facts.walls), (wall) => {
        const last = boardsOf({ walls: [wall] }).at(-1);
        const anchor = last?.anchors.at(-1);
        // The last board grows with the wall and keeps its end window, if its anchor stands near enough.
        if (!last || !anchor || wall.length - anchor.station > 10.5 * INCH || wall.adjusted !== wall.length)
          return undefined;
        const by = 1.5 * INCH;
        if (!stays(last.piece.to - last.piece.from, by) || readFromRight(house, wall)) return undefined;
        const longer = withValue('length', lengthIn(house, wall.length + by));
        return result(house, [{ severity: 'error' }], changeLine(surveyOf(wall), surveyOf(wall), longer));
      }),
  },
  {
    id: 'a wall is taped half an inch too long',
    rule: 'geometry/outline-open',
    inject: (house) =>
      firstOf(shuffled(house.random, house.facts.walls), (wall) => {
        const last = boardsOf({ walls: [wall] }).at(-1);
        const anchor = last?.anchors.at(-1);
        if (!last || !anchor || wall.length - anchor.station > 11 * INCH || wall.adjusted !== wall.length)
          return undefined;
        if (!stays(last.piece.to - last.piece.from, INCH / 2) || readFromRight(house, wall)) return undefined;
        const longer = withValue('length', lengthIn(house, wall.length + INCH / 2));
        return result(house, [{ severity: 'warning' }], changeLine(surveyOf(wall), surveyOf(wall), longer));
      }),
  },
  {
    id: 'the walls are listed the wrong way round',
    rule: 'geometry/walls-counter-clockwise',
    inject: (house) => {
      const { walls } = house.facts;
      if (walls.length !== 4) return undefined;
      const edits = walls.map(
        (wall): Edit =>
          changeLine(surveyOf(wall), surveyOf(wall), (line) =>
            line.includes(' turn ')
              ? line.replace(/ turn right/, ' turn left')
              : line.replace(/ length /, ' turn left length '),
          ),
      );
      return result(house, [{}], ...edits);
    },
  },
  {
    id: 'the break of the sill at a step is forgotten',
    rule: 'geometry/step-without-break',
    inject: (house) =>
      firstOf(shuffled(house.random, house.facts.walls), (wall) =>
        firstOf(wall.pieces, (left) => {
          const index = wall.pieces.indexOf(left);
          const right = wall.pieces[index + 1];
          if (left.joint !== 'step' || !right || left.connector !== right.connector) return undefined;
          if (wall.runs[left.run]?.double !== wall.runs[right.run]?.double) return undefined;
          if (right.joint !== 'corner' && right.joint !== 'butt') return undefined;
          // What is known of the left board then holds for both: bolts want as much concrete beside them.
          if ((wall.runs[right.run]?.thick ?? 0) < (wall.runs[left.run]?.thick ?? 0)) return undefined;
          // One board instead of two short ones goes by spacing.
          const row = wall.anchors
            .filter(({ piece }) => piece === index || piece === index + 1)
            .map(({ station }) => station);
          if (row.some((at, nth) => at - (row[nth - 1] ?? at) > spacingLimit(house.facts))) return undefined;
          const place = { wall: wall.name, station: left.to };
          return result(
            house,
            [place],
            // Two readings of one board more would be in the way.
            (text) => (hasMoreReadings(text, wall) ? undefined : text),
            onSill(wall, left, (line) => {
              const from = stationIn(house, left.from);
              const stretch = `${from} to ${stationIn(house, right.to)}`;
              const joint = right.to === wall.length ? 'corner' : 'butt';
              return reworded(line, left.name, stretch).replace(/ step\b/, ` ${joint}`);
            }),
            onNth(wall, /^ {2}sill /, index + 1, () => undefined),
          );
        }),
      ),
  },
  {
    id: 'the lap of two boards is forgotten',
    rule: 'geometry/sill-gap-or-overlap',
    inject: (house) =>
      firstOf(shuffled(house.random, house.facts.walls), (wall) =>
        firstOf(wall.pieces, (piece) => {
          if (piece.joint !== 'half-lap' && piece.joint !== 'scarf') return undefined;
          const next = wall.pieces[wall.pieces.indexOf(piece) + 1];
          if (!next) return undefined;
          const place = { wall: wall.name, piece: nameOf(wall, piece), station: next.from };
          return result(house, [place], onSill(wall, piece, withoutValue(piece.joint)));
        }),
      ),
  },
  {
    id: 'the end of a board is misread, and a gap is left',
    rule: 'geometry/sill-gap-or-overlap',
    inject: (house) =>
      joints(house, (wall, index) => {
        const [piece, next] = [wall.pieces[index], wall.pieces[index + 1]];
        const first = wall.anchors.find((anchor) => anchor.piece === index + 1);
        if (!piece || !next || !first || piece.joint !== 'butt') return undefined;
        // The board behind it begins later, and its first anchor is still 9 in from its end.
        const by = onTape(house.facts, INCH);
        if (first.station - next.from < 10.1 * INCH || !stays(next.to - next.from, -by)) return undefined;
        const stretch = `${stationIn(house, next.from + by)} to ${stationIn(house, next.to)}`;
        const place = { wall: wall.name, piece: nameOf(wall, piece), station: piece.to };
        return result(
          house,
          [place],
          onSill(wall, next, (line) => reworded(line, next.name, stretch)),
        );
      }),
  },
  {
    id: 'the end of a board is misread, and two boards lie on each other',
    rule: 'geometry/sill-gap-or-overlap',
    inject: (house) =>
      joints(house, (wall, index) => {
        const [piece, next] = [wall.pieces[index], wall.pieces[index + 1]];
        const first = wall.anchors.find((anchor) => anchor.piece === index + 1);
        if (!piece || !next || !first || piece.joint !== 'butt') return undefined;
        const by = onTape(house.facts, INCH);
        if (first.station - next.from > 11 * INCH || !stays(next.to - next.from, by)) return undefined;
        const stretch = `${stationIn(house, next.from - by)} to ${stationIn(house, next.to)}`;
        const place = { wall: wall.name, piece: nameOf(wall, piece), station: next.from - by };
        return result(
          house,
          [place],
          onSill(wall, next, (line) => reworded(line, next.name, stretch)),
        );
      }),
  },
  {
    id: 'a board is missing from the survey',
    rule: 'geometry/item-on-missing-sill',
    companions: { 'geometry/sill-gap-or-overlap': 'the hole that the missing board leaves' },
    inject: (house) =>
      joints(house, (wall, index) => {
        // Of three boards the one in the middle; the next one then says itself where it begins.
        const [piece, next] = [wall.pieces[index], wall.pieces[index + 1]];
        const here = wall.anchors.filter((anchor) => anchor.piece === index);
        if (!piece || !next || index === 0 || here.length === 0) return undefined;
        const around = [wall.pieces[index - 1]?.joint, piece.joint];
        if (!around.every((joint) => joint === 'butt')) return undefined;
        if (house.text.includes(`  accept `) || piece.name === undefined) return undefined;
        const stretch = `${stationIn(house, next.from)} to ${stationIn(house, next.to)}`;
        return result(
          house,
          here.map(({ station }) => ({ wall: wall.name, station })),
          onSill(wall, next, (line) => reworded(line, next.name, stretch)),
          onNth(wall, /^ {2}sill /, index, () => undefined),
          (text) => (hasMoreReadings(text, wall) ? undefined : text),
        );
      }),
  },
  {
    id: 'the level of the concrete is misread by six inches',
    rule: 'geometry/level-chain-broken',
    inject: (house) =>
      onRuns(house, (wall, run) => {
        if (wall.runs.length !== 1 || run.top[0] !== run.top[1]) return undefined;
        const value = lengthIn(house, run.top[0] + 6 * INCH);
        return result(
          house,
          [{ wall: wall.name, station: run.from }],
          onFoundation(wall, run, withValue('top', value)),
        );
      }),
  },
  {
    id: 'the height of a cripple wall is read off the wrong mark',
    rule: 'geometry/level-chain-broken',
    inject: (house) =>
      onRuns(house, (wall, run) => {
        const { cripple } = run;
        if (!cripple || wall.runs.length !== 1) return undefined;
        const [left, right] = cripple.height.map((height) => lengthIn(house, height - 3 * INCH));
        const height = withValue('height', left === right ? (left ?? '') : `${left} to ${right}`);
        return result(
          house,
          [{ wall: wall.name, station: run.from }],
          changeLine(surveyOf(wall), /^ {2}cripple /, height),
        );
      }),
  },
  {
    id: 'nobody wrote down the headroom',
    rule: 'geometry/must-have-missing',
    inject: (house) => silentBoard(house, 'headroom'),
  },
  {
    id: 'nobody wrote down the set-back',
    rule: 'geometry/must-have-missing',
    inject: (house) => silentBoard(house, 'set-back'),
  },
  {
    id: 'the row of joists ends half way along the wall',
    rule: 'geometry/joist-count-odd',
    inject: (house) =>
      firstOf(shuffled(house.random, house.facts.walls), (wall) => {
        const { run, first, spaced } = wall.joists;
        if (run !== 'into' || wall.length < 9 * spaced) return undefined;
        if (/\n {2}joist at/.test(blockOf(house.text, surveyOf(wall)))) return undefined;
        const last = first + Math.floor(wall.length / spaced / 2) * spaced;
        return result(
          house,
          [{ wall: wall.name, station: last }],
          changeLine(surveyOf(wall), /^ {2}joists into /, (line) => `${line} last ${stationIn(house, last)}`),
        );
      }),
  },
  {
    id: 'the spans of a girder do not come to its posts',
    rule: 'geometry/spans-do-not-add',
    inject: (house) => {
      const [girder] = house.facts.girders;
      const [first, second] = girder?.posts ?? [];
      if (!girder || !first || !second) return undefined;
      const heading = new RegExp(`^girder ${girder.name}\\b`);
      const spans = `spans ${lengthIn(house, first.station)}, ${lengthIn(house, second.station - first.station + 6 * INCH)}`;
      return result(
        house,
        [{ wall: girder.name, piece: second.name, station: second.station }],
        (text) =>
          edited(
            text,
            changeLines(heading, /^ {2}spans /, () => undefined),
          ) ?? text,
        addLine(heading, spans),
      );
    },
  },
  {
    id: 'inches are written for millimetres',
    rule: 'geometry/unit-suspect',
    inject: (house) =>
      firstOf(shuffled(house.random, house.facts.walls), (wall) => {
        const { run, spaced } = wall.joists;
        const usual = house.facts.walls.filter((each) => each.joists.spaced === spaced).length;
        // Along a wall the spacing of joists is only told: no bay hangs on it.
        if (run !== 'parallel' || (usual - 1) * 2 <= house.facts.walls.length) return undefined;
        const inches = Math.round(spaced / INCH);
        const slip = withValue(
          'spaced',
          house.facts.units === 'metric' ? `${Math.round(spaced / 1_000_000)}"` : `${inches}mm`,
        );
        return result(house, [{ wall: wall.name }], changeLine(surveyOf(wall), /^ {2}joists parallel /, slip));
      }),
  },
  {
    id: 'the new work of a wall is read from its wrong end',
    rule: 'geometry/stations-from-wrong-end',
    companions: Object.fromEntries(
      [
        'anchorage/end-too-far',
        'anchorage/end-too-near',
        'anchorage/gap-too-wide',
        'anchorage/straddles-break',
        'anchorage/short-piece-count',
        'anchorage/piece-without-anchor',
        'anchorage/lap-end-misread',
        'clearance/bolt-under-stud',
        'clearance/head-room-short',
        'clearance/no-concrete-here',
        'clearance/plate-hits-thing',
        'clearance/gas-near-drill',
        'clearance/power-near-drill',
        'clearance/side-room-short',
        'foundation/concrete-edge-thin',
        'foundation/set-back-out-of-range',
        'foundation/sill-rotten',
        'foundation/sill-thin',
        'geometry/item-on-missing-sill',
      ].map((rule) => [rule, 'each anchor of the wall is in a wrong place']),
    ),
    inject: (house) =>
      firstOf(shuffled(house.random, house.facts.walls), (wall) => {
        if (wall.anchors.length < 5 || wall.anchors.some(({ mark }) => spokenOf(house.text, mark))) return undefined;
        const misfits = wall.anchors.filter(({ station, connector }) => !suits(wall, connector, wall.length - station));
        // Fewer may be chance, and where the two ends of a wall are alike nobody can tell.
        if (misfits.length < Math.max(4, 0.6 * wall.anchors.length)) return undefined;
        const edits = wall.anchors.map(
          ({ mark, station }): Edit =>
            changeLine(workOn(wall), anchorLine(mark), withPlace(stationIn(house, wall.length - station))),
        );
        return result(house, [{ wall: wall.name }], ...edits);
      }),
  },
  {
    id: 'one thing is listed twice, once from either end',
    rule: 'geometry/stations-from-wrong-end',
    inject: (house) =>
      firstOf(shuffled(house.random, house.facts.walls), (wall) =>
        firstOf(
          wall.obstructions.filter(({ kind }) => kind === 'stair' || kind === 'stack'),
          ({ kind, from, to, off }) => {
            const [left, right] = [wall.length - to, wall.length - from];
            if (wall.obstructions.some((each) => each.from < right + 12 * INCH && left < each.to + 12 * INCH))
              return undefined;
            if (wall.panels.some((each) => each.from < right + 9 * INCH && left < each.to + 9 * INCH)) return undefined;
            if (Math.min(nearestAnchor(wall, left), nearestAnchor(wall, right)) < 10 * INCH) return undefined;
            if (wall.anchors.some(({ station }) => left < station && station < right)) return undefined;
            const stands = off === undefined ? '' : ` off ${lengthIn(house, off)}`;
            return result(
              house,
              [{ wall: wall.name, station: left }],
              addLine(surveyOf(wall), `${kind} TWICE ${stationIn(house, left)} to ${stationIn(house, right)}${stands}`),
            );
          },
        ),
      ),
  },
];

/** A board that grows by so much stays on the same side of 30 in, 6 ft and 12 ft, where the tables change. */
function stays(length: number, by: number): boolean {
  return [30, 72, 144].every((inches) => length < inches * INCH === length + by < inches * INCH);
}

/** What is read from the right end moves with it, and what ends at a number does not. */
function readFromRight({ text }: LegalHouse, wall: WallFacts): boolean {
  return text
    .split('\n\n')
    .some((block) => (surveyOf(wall).test(block) || workOn(wall).test(block)) && MOVES.test(block));
}

const MOVES = /from right|\n {2}(?:cripple|foundation) (?:\S.* )?to (?!end )/;

/** The board there takes that connector. */
function suits(wall: WallFacts, connector: ConnectorName, station: number): boolean {
  const piece = wall.pieces.find(({ from, to }) => from <= station && station <= to);
  if (!piece) return false;
  if (connector === 'bolt-half') return Math.min(...piece.headroom) >= 24 * INCH;
  const [least, most] = TAKES[connector];
  return piece.setBack.some((setBack) => least * INCH <= setBack && setBack <= most * INCH);
}

/** Set-backs in inches, as the demo hardware says. */
const TAKES: Readonly<Record<Exclude<ConnectorName, 'bolt-half'>, readonly [number, number]>> = {
  'flat-plate': [0, 1 / 8],
  'stepped-plate-s': [1 / 2, 1.5],
  'stepped-plate-l': [1.5, 2.5],
};

function joints(
  house: LegalHouse,
  answer: (wall: WallFacts, index: number) => Injected | undefined,
): Injected | undefined {
  return firstOf(shuffled(house.random, house.facts.walls), (wall) =>
    firstOf(
      wall.pieces.slice(0, -1).map((_, index) => index),
      (index) => answer(wall, index),
    ),
  );
}

/** A line of a board with another stretch. */
function reworded(line: string, name: string | undefined, stretch: string): string {
  const rest = / (?:size|2x6|set-back) .*$/.exec(line)?.[0] ?? '';
  return `  sill ${name === undefined ? '' : `${name} `}${stretch}${rest}`;
}

function silentBoard(house: LegalHouse, reading: 'headroom' | 'set-back'): Injected | undefined {
  return firstOf(shuffled(house.random, boardsOf(house.facts)), ({ wall, piece, anchors }) => {
    if (!anchors.some(({ mark }) => !spokenOf(house.text, mark))) return undefined;
    if (hasMoreReadings(house.text, wall)) return undefined;
    return result(house, [{ wall: wall.name, piece: nameOf(wall, piece) }], onSill(wall, piece, withoutValue(reading)));
  });
}
