import type { WallFacts } from '../../support/houses/facts.ts';
import { INCH } from '../../support/houses/facts.ts';
import { result } from './anchor-edits.ts';
import type { Defect, Injected, LegalHouse } from './defect.ts';
import { firstOf, lengthIn, shuffled, stationIn } from './defect.ts';
import type { Edit } from './house-text.ts';
import {
  addBlock,
  addLine,
  blockOf,
  changeBlocks,
  changeLine,
  changeLines,
  dropLine,
  edited,
  surveyOf,
  workOn,
} from './house-text.ts';
import { boardsOf, nearestAnchor, onTape } from './spots.ts';

/** Mistakes about the floor, its angles and blocks, the posts, and the kinds of hardware. */
export const floorAndPosts: readonly Defect[] = [
  {
    id: 'one framing angle of a row is left out',
    rule: 'floor/angle-gap-wide',
    inject: (house) =>
      onWalls(house, (wall) => {
        // Along one board, so that no hole in the sill explains the gap.
        const piece = wall.pieces.find(({ from, to }) => to - from > 80 * INCH);
        if (!piece) return undefined;
        const stations = [8, 24, 60, 76].map((by) => onTape(house.facts, piece.from + by * INCH));
        const list = stations.map((station) => stationIn(house, station)).join(', ');
        return result(
          house,
          [{ wall: wall.name, station: stations[1] ?? 0 }],
          changeLine(workOn(wall), /^ {2}angles /, (line) => line.replace(/( angle-8) .*$/, `$1 at ${list}`)),
        );
      }),
  },
  {
    id: 'a line of angles names a bolt',
    rule: 'load-path/connector-misplaced',
    inject: (house) =>
      onWalls(house, (wall) =>
        result(
          house,
          [{ wall: wall.name }],
          changeLine(workOn(wall), /^ {2}angles /, (line) => line.replace(' angle-8 ', ' bolt-half ')),
        ),
      ),
  },
  {
    id: 'a framing angle is drawn for an anchor',
    rule: 'load-path/connector-misplaced',
    inject: (house) =>
      firstOf(shuffled(house.random, boardsOf(house.facts)), ({ wall, piece }) => {
        const station = onTape(house.facts, (piece.from + piece.to) / 2);
        if (nearestAnchor(wall, station) < 13 * INCH) return undefined;
        return result(
          house,
          [{ wall: wall.name, station }],
          addLine(workOn(wall), `anchor ${wall.name}-99 angle-8 at ${stationIn(house, station)}`),
        );
      }),
  },
  {
    id: 'a joist beside another leaves no room for the angle between',
    rule: 'floor/bay-too-narrow',
    inject: (house) =>
      onWalls(house, (wall) => {
        const { run, first, spaced } = wall.joists;
        const angles = blockOf(house.text, workOn(wall));
        if (run !== 'into' || !angles.includes('every bay')) return undefined;
        const left = first + 2 * spaced;
        if (left + 2 * spaced > wall.length) return undefined;
        return result(
          house,
          [{ wall: wall.name, station: left }],
          addLine(surveyOf(wall), `joist at ${stationIn(house, left + onTape(house.facts, 6 * INCH))} doubled 2x10`),
          // Its thickness is known only where the line of the joists says it.
          changeLine(surveyOf(wall), /^ {2}joists into /, (line) =>
            line.includes(' 2x10') ? `${line} ` : line.replace(' into', ' into 2x10'),
          ),
        );
      }),
  },
  {
    id: 'the joists have neither a rim nor a block',
    rule: 'floor/bay-unblocked',
    inject: (house) =>
      onWalls(house, (wall) => {
        if (wall.joists.run !== 'into' || wall.panels.length > 0 || wall.length < 5 * wall.joists.spaced)
          return undefined;
        if (/\n {2}blocking /.test(blockOf(house.text, workOn(wall)))) return undefined;
        return result(
          house,
          [{ wall: wall.name }],
          optional(changeLines(surveyOf(wall), /^ {2}blocking /, () => undefined)),
          changeLine(surveyOf(wall), /^ {2}rim /, () => '  no rim'),
          optional(changeLines(surveyOf(wall), /^ {2}joist at /, () => undefined)),
        );
      }),
  },
  {
    id: 'a post is thinner than the cap that it gets',
    rule: 'post/cap-size-clash',
    inject: (house) =>
      onCaps(house, (girder, post) =>
        result(
          house,
          [{ wall: girder, piece: post }],
          changeLine(girderBlock(girder), new RegExp(`^ {2}post ${post} `), (line) => line.replace(' 6x6 ', ' 4x4 ')),
        ),
      ),
  },
  {
    id: 'a post cap is ordered as a washer',
    rule: 'post/hardware-misplaced',
    inject: (house) =>
      onCaps(house, (girder, post) =>
        result(
          house,
          [{ wall: girder, piece: post }],
          changeLine(workOn({ name: girder }), new RegExp(` on ${post} `), (line) =>
            line.replace('cap-plates', 'washer-3'),
          ),
        ),
      ),
  },
  {
    id: 'the cap of a post is forgotten',
    rule: 'post/post-cap-missing',
    inject: (house) =>
      onCaps(house, (girder, post) =>
        result(
          house,
          [{ wall: girder, piece: post }],
          dropLine(workOn({ name: girder }), new RegExp(` on ${post} `)),
          changeLine(
            girderBlock(girder),
            new RegExp(`^ {2}post ${post} `),
            (line) => `${line.replace(/ cap [a-z-]+/, ' cap toenails')} `,
          ),
        ),
      ),
  },
  {
    id: 'the panels do not go through the crawl door',
    rule: 'clearance/panel-wont-go-in',
    inject: (house) =>
      onWalls(house, (wall) => {
        const [panel] = wall.panels;
        const run = wall.runs.find(({ from, to }) => panel && from <= panel.from && panel.from < to);
        if (!panel || !run?.cripple || Math.min(...run.cripple.studHeight) < 20 * INCH) return undefined;
        const [xs, ys] = [house.facts.vertices.map(({ x }) => x), house.facts.vertices.map(({ y }) => y)];
        const at = (x: number, y: number): string => `(${lengthIn(house, x)}, ${lengthIn(house, y)})`;
        const onInches = (value: number): number => Math.round(value / INCH) * INCH;
        const from = at(onInches(Math.min(...xs)), onInches(Math.min(...ys)));
        const to = at(onInches(Math.max(...xs)), onInches(Math.max(...ys)));
        return result(
          house,
          [{ wall: wall.name, station: panel.from }],
          changeBlocks((block) => (block.startsWith('space ') ? undefined : block)),
          addBlock([
            `space under-all crawl from ${from} to ${to} clear-height ${lengthIn(house, 30 * INCH)} access ${lengthIn(house, 14 * INCH)} x ${lengthIn(house, 18 * INCH)}`,
          ]),
        );
      }),
  },
];

const girderBlock = (girder: string): RegExp => new RegExp(`^girder ${girder}\\b`);

function onWalls(house: LegalHouse, answer: (wall: WallFacts) => Injected | undefined): Injected | undefined {
  return firstOf(shuffled(house.random, house.facts.walls), answer);
}

function onCaps(
  house: LegalHouse,
  answer: (girder: string, post: string) => Injected | undefined,
): Injected | undefined {
  const caps = house.facts.girders.flatMap(({ name, posts }) =>
    posts
      .filter((post) => new RegExp(` on ${post.name} `).test(blockOf(house.text, workOn({ name }))))
      .map((post) => ({ name, post })),
  );
  return firstOf(shuffled(house.random, caps), ({ name, post }) => answer(name, post.name));
}

const optional =
  (edit: Edit): Edit =>
  (text) =>
    edited(text, edit) ?? text;
