import { INCH } from '../../support/houses/facts.ts';
import { onAnchors, result, rewrite } from './anchor-edits.ts';
import type { Defect, Injected, LegalHouse } from './defect.ts';
import { firstOf, lengthIn, shuffled, stationIn } from './defect.ts';
import { addBlock, addLine, blockOf, surveyOf, withConnector, withoutValue, withPlace, workOn } from './house-text.ts';
import type { PlacedAnchorFacts } from './spots.ts';
import { isBare, isBolt, isLong, isOpen, nearestAnchor, onTape, spacingLimit, studsNear } from './spots.ts';

/** Mistakes about what stands in the way of a drill, a plate, a wrench or a panel. */
export const clearance: readonly Defect[] = [
  {
    id: 'a bolt stands under a stud',
    rule: 'clearance/bolt-under-stud',
    inject: (house) =>
      onAnchors(house, ({ wall, piece, anchor, before, after }) => {
        if (!isBolt(anchor) || !before || !after) return undefined;
        return firstOf(studsNear(wall), (station) => {
          if (Math.abs(station - anchor.station) > 10 * INCH || station < piece.from || station > piece.to)
            return undefined;
          const widest = Math.max(station - before.station, after.station - station);
          if (isLong(piece) && widest > spacingLimit(house.facts)) return undefined;
          if (!isOpen(house.facts, wall, 'side-plate', station)) return undefined;
          return result(
            house,
            [{ wall: wall.name, station }],
            rewrite(wall, anchor, withPlace(stationIn(house, station))),
          );
        });
      }),
  },
  {
    id: 'a gas riser is within reach of the drill',
    rule: 'clearance/gas-near-drill',
    inject: (house) => thingBeside(house, 3, 'gas-pipe GX', (inch) => `wide ${inch(1)} riser live`),
  },
  {
    id: 'a live conduit is within reach of the drill',
    rule: 'clearance/power-near-drill',
    inject: (house) => thingBeside(house, 7, 'conduit CX', (inch) => `wide ${inch(2)} riser live`, 16),
  },
  {
    id: 'a pipe runs where the plate sits',
    rule: 'clearance/plate-hits-thing',
    inject: (house) =>
      thingBeside(
        house,
        2,
        'pipe DX "drain"',
        (inch) => `wide ${inch(3)}`,
        12,
        (place) => !isBolt(place.anchor),
      ),
  },
  {
    id: 'a pipe runs beside the drill of a bolt',
    rule: 'clearance/plate-hits-thing',
    inject: (house) =>
      thingBeside(
        house,
        2.5,
        'pipe DX "drain"',
        (inch) => `wide ${inch(3)}`,
        12,
        (place) => isBolt(place.anchor),
      ),
  },
  {
    id: 'an anchor falls into a vent',
    rule: 'clearance/no-concrete-here',
    inject: (house) =>
      onAnchors(house, ({ wall, anchor, piece }) => {
        const [from, to] = [anchor.station - 4 * INCH, anchor.station + 8 * INCH].map((at) => onTape(house.facts, at));
        if (from === undefined || to === undefined || !isBare(wall, from, to)) return undefined;
        if (from < piece.from + 3 * INCH || to > piece.to - 3 * INCH) return undefined;
        if (nearestAnchor(wall, anchor.station, anchor) < 20 * INCH) return undefined;
        return result(
          house,
          [{ wall: wall.name, station: anchor.station }],
          addLine(surveyOf(wall), `vent VX ${stationIn(house, from)} to ${stationIn(house, to)}`),
        );
      }),
  },
  {
    id: 'an old bolt that comes out stood where the plate sits',
    rule: 'clearance/old-anchor-in-way',
    inject: (house) =>
      onAnchors(house, ({ wall, anchor }) => {
        // The holes of every plate into the concrete are 2 in either side of its middle.
        const at = onTape(house.facts, anchor.station + 2 * INCH);
        if (isBolt(anchor) || nearestAnchor(wall, at, anchor) < 16 * INCH) return undefined;
        const line = `anchor XX ${lengthIn(house, INCH / 2)} at ${stationIn(house, at)} heavy-rust credit none`;
        const found = [{ wall: wall.name, station: anchor.station }];
        return result(house, found, addLine(surveyOf(wall), line), addLine(workOn(wall), 'remove XX'));
      }),
  },
  {
    id: 'a bolt is drawn right beside an old one',
    rule: 'clearance/old-anchor-in-way',
    inject: (house) =>
      onAnchors(house, ({ wall, anchor }) => {
        const at = onTape(house.facts, anchor.station + 2 * INCH);
        if (!isBolt(anchor) || nearestAnchor(wall, at, anchor) < 16 * INCH) return undefined;
        const line = `anchor XX ${lengthIn(house, INCH / 2)} at ${stationIn(house, at)} light-rust credit none`;
        return result(house, [{ wall: wall.name, station: anchor.station }], addLine(surveyOf(wall), line));
      }),
  },
  {
    id: 'a bolt is drawn where only a plate can be set',
    rule: 'clearance/head-room-short',
    inject: (house) =>
      onAnchors(house, ({ wall, anchor, piece }) => {
        if (isBolt(anchor) || Math.max(...piece.headroom) >= 23 * INCH) return undefined;
        // The bolt itself would have its place: in the middle of the sill, 1-3/4 in from either face.
        const run = wall.runs[piece.run];
        if (!run || run.thick - Math.max(...piece.setBack) - house.facts.sill.wide / 2 < 2 * INCH) return undefined;
        if (studsNear(wall).some((stud) => Math.abs(stud - anchor.station) < 3 * INCH)) return undefined;
        if (wall.panels.some(({ from, to }) => from - 3 * INCH <= anchor.station && anchor.station <= to + 3 * INCH))
          return undefined;
        return result(
          house,
          [{ wall: wall.name, station: anchor.station }],
          rewrite(wall, anchor, withConnector('bolt-half')),
        );
      }),
  },
  {
    id: 'a duct hangs low over one bolt',
    rule: 'clearance/head-room-short',
    inject: (house) =>
      onAnchors(house, ({ wall, anchor, piece }) => {
        if (!isBolt(anchor) || nearestAnchor(wall, anchor.station, anchor) < 12 * INCH) return undefined;
        const [from, to] = [-4, 4].map((by) => stationIn(house, anchor.station + by * INCH));
        if (anchor.station - 5 * INCH < piece.from || anchor.station + 5 * INCH > piece.to) return undefined;
        return result(
          house,
          [{ wall: wall.name, station: anchor.station }],
          addLine(surveyOf(wall), `headroom ${lengthIn(house, 15 * INCH)} from ${from} to ${to}`),
        );
      }),
  },
  {
    id: 'a furnace stands before a plate',
    rule: 'clearance/side-room-short',
    inject: (house) =>
      onAnchors(house, ({ wall, anchor }) => {
        const { station } = anchor;
        if (isBolt(anchor) || !isBare(wall, station - 10 * INCH, station + 10 * INCH)) return undefined;
        if (nearestAnchor(wall, station, anchor) < 16 * INCH || awayFromEnds(wall, station) < 16 * INCH)
          return undefined;
        return result(
          house,
          [{ wall: wall.name, station }],
          addLine(
            surveyOf(wall),
            `furnace FX at ${stationIn(house, station)} wide ${lengthIn(house, 16 * INCH)} off ${lengthIn(house, 8 * INCH)}`,
          ),
        );
      }),
  },
  {
    id: 'a water heater stands before a nut',
    rule: 'clearance/wrench-no-swing',
    inject: (house) =>
      onAnchors(house, ({ wall, anchor }) => {
        const { station } = anchor;
        if (!isBolt(anchor) || !isBare(wall, station - 10 * INCH, station + 10 * INCH)) return undefined;
        return result(
          house,
          [{ wall: wall.name, station }],
          addLine(
            surveyOf(wall),
            `water-heater HX at ${stationIn(house, station)} wide ${lengthIn(house, 16 * INCH)} off ${lengthIn(house, 7 * INCH)}`,
          ),
        );
      }),
  },
  {
    id: 'a bolt is not set back behind the panel',
    rule: 'clearance/nut-hits-panel',
    inject: (house) =>
      onAnchors(house, ({ wall, anchor }) => {
        const { station } = anchor;
        if (
          !isBolt(anchor) ||
          !wall.panels.some(({ from, to }) => from + 3 * INCH <= station && station <= to - 3 * INCH)
        )
          return undefined;
        return result(house, [{ wall: wall.name, station }], rewrite(wall, anchor, withoutValue('offset')));
      }),
  },
  {
    id: 'a panel is drawn across a drain',
    rule: 'clearance/panel-hits-thing',
    inject: (house) => inPanel(house, (at) => `pipe DX "drain" at ${at} wide ${lengthIn(house, 3 * INCH)}`),
  },
  {
    id: 'a panel covers a clean-out',
    rule: 'clearance/panel-hides-service',
    inject: (house) =>
      inPanel(
        house,
        (at) => `pipe CX "clean-out" at ${at} wide ${lengthIn(house, 4 * INCH)} off ${lengthIn(house, INCH)}`,
      ),
  },
  {
    id: 'a flue stands beside the end of a panel',
    rule: 'clearance/flue-too-close',
    inject: (house) =>
      firstOf(shuffled(house.random, house.facts.walls), (wall) =>
        firstOf(wall.panels, (panel) => {
          const at = panel.to + 5 * INCH;
          if (at > wall.length - 24 * INCH || nearestAnchor(wall, at) < 15 * INCH) return undefined;
          const apart = [...wall.obstructions, ...wall.panels].every(
            (each) => each === panel || each.to < at - 14 * INCH || each.from > at + 14 * INCH,
          );
          if (!apart || /\n {2}blocking .*2x10/.test(blockOf(house.text, workOn(wall)))) return undefined;
          return result(
            house,
            [{ wall: wall.name, station: panel.from }],
            addLine(
              surveyOf(wall),
              `flue FX at ${stationIn(house, at)} wide ${lengthIn(house, 4 * INCH)} single-wall zone ${lengthIn(house, 4 * INCH)} to ${lengthIn(house, 8 * INCH)} below joists`,
            ),
          );
        }),
      ),
  },
  {
    id: 'the crawl door is too small for people',
    rule: 'clearance/access-too-small',
    inject: (house) =>
      result(
        house,
        [{}],
        addBlock([
          `space den crawl clear-height ${lengthIn(house, 30 * INCH)} access ${lengthIn(house, 14 * INCH)} x ${lengthIn(house, 16 * INCH)}`,
        ]),
      ),
  },
  {
    id: 'a plate is drawn beside the door of the crawl space',
    rule: 'clearance/no-concrete-here',
    inject: (house) =>
      onAnchors(house, ({ wall, anchor, piece }) => {
        if (isBolt(anchor)) return undefined;
        const from = onTape(house.facts, anchor.station + 2 * INCH);
        const to = from + onTape(house.facts, 20 * INCH);
        if (!isBare(wall, from, to) || to > piece.to - 3 * INCH) return undefined;
        if (
          wall.anchors.some((each) => each !== anchor && each.station > from - 8 * INCH && each.station < to + 8 * INCH)
        )
          return undefined;
        return result(
          house,
          [{ wall: wall.name, station: anchor.station }],
          addLine(surveyOf(wall), `hatch HX ${stationIn(house, from)} to ${stationIn(house, to)}`),
        );
      }),
  },
];

const awayFromEnds = ({ length }: { readonly length: number }, station: number): number =>
  Math.min(station, length - station);

/** A thing so many inches to the right of an anchor that has nothing else about it. */
function thingBeside(
  house: LegalHouse,
  inches: number,
  what: string,
  words: (inch: (count: number) => string) => string,
  clear = 14,
  wanted: (place: PlacedAnchorFacts) => boolean = () => true,
): Injected | undefined {
  return onAnchors(house, (place) => {
    const { wall, anchor } = place;
    const at = onTape(house.facts, anchor.station + inches * INCH);
    if (!wanted(place) || !isBare(wall, at, at, clear * INCH) || awayFromEnds(wall, at) < 20 * INCH) return undefined;
    if (nearestAnchor(wall, at, anchor) < (clear + 6) * INCH) return undefined;
    const line = `${what} at ${stationIn(house, at)} ${words((count) => lengthIn(house, count * INCH))}`;
    return result(house, [{ wall: wall.name, station: anchor.station }], addLine(surveyOf(wall), line));
  });
}

/** A thing in the middle of a panel, clear of anchors. */
function inPanel(house: LegalHouse, line: (at: string) => string): Injected | undefined {
  return firstOf(shuffled(house.random, house.facts.walls), (wall) =>
    firstOf(wall.panels, (panel) => {
      const clear = wall.anchors.filter(({ station }) => station > panel.from && station < panel.to);
      const stations = [panel.from, ...clear.map(({ station }) => station).sort((a, b) => a - b), panel.to];
      return firstOf(stations.slice(1), (right) => {
        const left = stations[stations.indexOf(right) - 1] ?? 0;
        if (right - left < 26 * INCH) return undefined;
        const at = onTape(house.facts, (left + right) / 2);
        // The end of a panel is no anchor, but another panel may begin there.
        if (wall.panels.some((each) => each !== panel && each.from - 12 * INCH < at && at < each.to + 12 * INCH))
          return undefined;
        if (nearestAnchor(wall, at) < 12 * INCH) return undefined;
        return result(
          house,
          [{ wall: wall.name, station: panel.from }],
          addLine(surveyOf(wall), line(stationIn(house, at))),
        );
      });
    }),
  );
}
