import { type Stud, studsOf } from '../fit/studs.ts';
import type { Panel, SisterBoard } from '../model/design.ts';
import type { AngleRun, SillPiece, Stretch } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import { formatInches, formatStation } from '../units/format-length.ts';
import { inches, type Length, larger, midpoint, minus, plus, smaller, zero } from '../units/length.ts';
import { blockedBays, nailerThickness, panelPlace, ventHoleLevels } from './behind-panel.ts';
import { type ElevationFrame, onPaper, sillTopAt } from './elevation-frame.ts';
import { placeLabels } from './label-rows.ts';
import { lettered, plainText, textWidth } from './lettering.ts';
import { type Box, boxBetween, group, line, rect, type SceneNode, type XY } from './scene.ts';
import { isShown, shownOf } from './shown-part.ts';
import { tick } from './symbols.ts';
import { bracingPanel, flatBlock, framingAngle, nailer, sisterBoard } from './symbols-of-new-work.ts';
import { spokenAngles, spokenPanel, spokenSister } from './thing-names.ts';
import { capHeights } from './tokens.ts';
import { levelAt, sillThickness } from './wall-shape.ts';

/** Bracing panels in front of the studs, what stands behind them, and their row under the tape. */

/** Heads are drawn this far inside the edge, so that they read beside its line. */
const NAIL_INSET = 0.85;
/** More heads than this say nothing more, whatever a text asks for. */
const MOST_NAILS_ON_EDGE = 400;

export function panels(frame: ElevationFrame): readonly SceneNode[] {
  const { studs } = studsOf(frame.wall);
  return frame.wall.panels.flatMap((panel) => {
    const place = panelPlace(frame.shape, panel);
    if (!place) return [];
    const behind = studs.filter(({ centre }) => centre >= place.from && centre <= place.to);
    const parts = partsOf(frame, panel, place);
    const state = { proposed: panel.proposed, state: panel.state };
    return [
      group(
        [
          ...parts.map((part) =>
            bracingPanel(
              {
                outline: outlineOf(part),
                edgeNails: edgeNails(part, spacing(frame, panel.nails?.edge)),
                fieldNails: fieldNails(frame, part, behind, spacing(frame, panel.nails?.field)),
                ventHoles: ventHoles(frame, panel, place, behind),
              },
              state,
            ),
          ),
          ...(panel.state === 'omitted' ? [] : woodBehind(frame, panel, place, behind)),
        ],
        { thing: panel.id, role: 'thing', name: spokenPanel(panel, frame.speaker) },
      ),
    ];
  });
}

/** On paper; `undefined` where the text does not say. */
function spacing(frame: ElevationFrame, reading: Parameters<typeof knownValue<Length>>[0]): number | undefined {
  const length = knownValue(reading);
  return length === undefined || length <= 0 ? undefined : onPaper(frame, length);
}

/** Part of a panel over an even run of the sill; a step below it parts the panel. */
interface Part {
  readonly left: number;
  readonly right: number;
  readonly topLeft: number;
  readonly topRight: number;
  readonly footLeft: number;
  readonly footRight: number;
}

function partsOf(frame: ElevationFrame, panel: Panel, { from, to }: Stretch): readonly Part[] {
  const parts: Part[] = [];
  for (const stem of frame.shape.stems) {
    const left = larger(from, stem.from);
    const right = smaller(to, stem.to);
    if (right <= left) continue;
    const [start, end] = [levelsAt(frame, panel, left, 'right'), levelsAt(frame, panel, right, 'left')];
    const before = parts[parts.length - 1];
    const isLevel = start.top === end.top && start.foot === end.foot;
    if (before && isLevel && before.topRight === start.top && before.footRight === start.foot) {
      parts[parts.length - 1] = { ...before, right: frame.x(right) };
      continue;
    }
    parts.push({
      left: frame.x(left),
      right: frame.x(right),
      topLeft: start.top,
      topRight: end.top,
      footLeft: start.foot,
      footRight: end.foot,
    });
  }
  return parts;
}

/** A panel stands on the sill and reaches up over the plates; with a height of its own it starts at the foot of the sill. */
function levelsAt(
  frame: ElevationFrame,
  panel: Panel,
  station: Length,
  side: 'left' | 'right',
): { readonly top: number; readonly foot: number } {
  const concrete = levelAt(frame.shape, 'top', station, side) ?? zero;
  const underside = levelAt(frame.shape, 'joistUnderside', station, side) ?? zero;
  const height = knownValue(panel.height);
  if (height !== undefined) return { top: frame.y(plus(concrete, height)), foot: frame.y(concrete) };
  const sill = sillTopAt(frame, station, side);
  return { top: frame.y(larger(underside, sill)), foot: frame.y(sill) };
}

const outlineOf = (part: Part): readonly XY[] => [
  [part.left, part.topLeft],
  [part.right, part.topRight],
  [part.right, part.footRight],
  [part.left, part.footLeft],
];

function edgeNails(part: Part, apart: number | undefined): readonly XY[] {
  if (apart === undefined) return [];
  const [left, right] = [part.left + NAIL_INSET, part.right - NAIL_INSET];
  if (right <= left) return [];
  const share = (x: number): number => (x - part.left) / (part.right - part.left);
  const top = (x: number): number => part.topLeft + (part.topRight - part.topLeft) * share(x) + NAIL_INSET;
  const foot = (x: number): number => part.footLeft + (part.footRight - part.footLeft) * share(x) - NAIL_INSET;
  const across = steps(part.right - part.left, apart);
  return [
    ...across.flatMap((distance): XY[] => {
      const x = Math.min(Math.max(part.left + distance, left), right);
      return [
        [x, top(x)],
        [x, foot(x)],
      ];
    }),
    ...[left, right].flatMap((x) => steps(foot(x) - top(x), apart).map((distance): XY => [x, top(x) + distance])),
  ];
}

/** From one end in true steps; the last nail stands at the other end. */
function steps(length: number, apart: number): readonly number[] {
  if (length <= 0 || length / apart > MOST_NAILS_ON_EDGE) return [];
  const count = Math.floor(length / apart + 1e-6);
  const distances = Array.from({ length: count + 1 }, (_, index) => index * apart);
  return length - count * apart > apart * 0.2 ? [...distances, length] : distances;
}

function fieldNails(
  frame: ElevationFrame,
  part: Part,
  studs: readonly Stud[],
  apart: number | undefined,
): readonly XY[] {
  if (apart === undefined) return [];
  return studs.flatMap(({ centre }) => {
    const x = frame.x(centre);
    if (x < part.left + 1.6 || x > part.right - 1.6) return [];
    const top = Math.max(part.topLeft, part.topRight) + NAIL_INSET;
    const foot = Math.min(part.footLeft, part.footRight) - NAIL_INSET;
    return steps(foot - top, apart)
      .slice(1)
      .filter((distance) => distance < foot - top - apart * 0.2)
      .map((distance): XY => [x, top + distance]);
  });
}

function ventHoles(
  frame: ElevationFrame,
  panel: Panel,
  place: Stretch,
  studs: readonly Stud[],
): readonly { readonly at: XY; readonly radius: number }[] {
  const { ventHoles: asked } = panel;
  const diameter = asked && asked !== 'none' ? knownValue(asked.diameter) : undefined;
  if (diameter === undefined) return [];
  const radius = onPaper(frame, diameter) / 2;
  return blockedBays(place, studs).flatMap((bay) =>
    ventHoleLevels(frame, panel, bay).map((level) => ({
      at: [frame.x(midpoint(bay.from, bay.to)), frame.y(level)] as XY,
      radius,
    })),
  );
}

/** How far the nailer of a panel lifts what stands on the sill at a station. */
export function nailerUnder(frame: Pick<ElevationFrame, 'wall'>, station: Length): Length {
  const panel = frame.wall.panels.find(
    ({ stretch, state }) => stretch && state !== 'omitted' && stretch.from <= station && station <= stretch.to,
  );
  return panel?.nailers && panel.nailers !== 'none' && !panel.nailers.clear ? nailerThickness(panel) : zero;
}

function woodBehind(frame: ElevationFrame, panel: Panel, place: Stretch, studs: readonly Stud[]): readonly SceneNode[] {
  const bays = blockedBays(place, studs);
  const box = (bay: Stretch, low: Length, high: Length): Box =>
    boxBetween(frame.x(bay.from), frame.y(high), frame.x(bay.to), frame.y(low));
  const thick = nailerThickness(panel);
  const nailers =
    thick === zero
      ? []
      : bays.map((bay) => {
          const sill = sillTopAt(frame, midpoint(bay.from, bay.to));
          return nailer(box(bay, sill, plus(sill, thick)));
        });
  if (!panel.flatBlocked && !panel.flatBlock) return nailers;
  const tall = knownValue(panel.flatBlock?.wide) ?? inches(3.5);
  const blocks = bays.map((bay) => {
    const station = midpoint(bay.from, bay.to);
    const { top, foot } = levelsAt(frame, panel, station, 'right');
    const [middle, reach] = [(top + foot) / 2, onPaper(frame, tall) / 2];
    return flatBlock(boxBetween(frame.x(bay.from), middle - reach, frame.x(bay.to), middle + reach));
  });
  return [...nailers, ...blocks];
}

// ---- framing angles and sister boards

export function framingAngles(frame: ElevationFrame): readonly SceneNode[] {
  return frame.wall.angles.flatMap((run) => {
    const wide = run.connector?.body?.wide ?? inches(8);
    const nodes = run.stations
      .filter((station) => station >= zero && station <= frame.shape.length)
      .map((station) => {
        const underside = levelAt(frame.shape, 'joistUnderside', station) ?? zero;
        const reach = onPaper(frame, wide) / 2;
        return framingAngle(
          frame.x(station) - reach,
          frame.x(station) + reach,
          frame.y(underside),
          run.proposed === true,
        );
      });
    return nodes.length === 0
      ? []
      : [group(nodes, { thing: run.id, role: 'thing', name: spokenAngles(run, frame.speaker) })];
  });
}

/** New wood beside old sills, in front of them. */
export function sisterBoards(frame: ElevationFrame): readonly SceneNode[] {
  return frame.wall.pieces.flatMap((piece) =>
    (piece.sistered ?? []).flatMap((board) => {
      const box = sisterBox(frame, piece, board);
      return box
        ? [group([sisterBoard(box)], { thing: piece.id, name: spokenSister(piece, board, frame.speaker) })]
        : [];
    }),
  );
}

function sisterBox(frame: ElevationFrame, piece: SillPiece, board: SisterBoard): Box | undefined {
  const from = larger(board.from, zero);
  const to = smaller(board.to, frame.shape.length);
  if (to <= from) return undefined;
  const concrete = levelAt(frame.shape, 'top', midpoint(from, to)) ?? zero;
  const thick = knownValue(board.size?.thick) ?? sillThickness(piece).thick;
  return boxBetween(frame.x(from), frame.y(plus(concrete, thick)), frame.x(to), frame.y(concrete));
}

// ---- the rows under the tape

const PANEL_ROW_HEIGHT = 7.6;
const NAME_PITCH = 3.8;
/** Beside a name, for the tick of what is built. */
const TICK_ROOM = 4;
/** A name that has to move further than this asks for a second row. */
const FARTHEST_NAME = 12;

/** A bar wherever there is panel, with its mark and length; between the bars, in grey, how much has none. */
export function panelRow(
  frame: ElevationFrame,
  top: number,
): { readonly nodes: readonly SceneNode[]; readonly height: number } {
  const placed = frame.wall.panels.flatMap((panel) => {
    const place = shownPlace(frame, panel);
    return place ? [{ panel, place }] : [];
  });
  if (placed.length === 0) return { nodes: [], height: 0 };
  const y = top + 4.4;
  const texts = placed.map(({ panel, place }) => {
    const text = panelWords(frame, panel);
    const [left, right] = [frame.x(place.from), frame.x(place.to)];
    const width = textWidth(text, 'label') + (panel.state === 'installed' ? 2 * TICK_ROOM : 0.8);
    return { panel, text, left, right, width, wanted: (left + right) / 2, fits: width + 1 <= right - left };
  });
  const above = texts.filter(({ fits }) => fits);
  const below = texts.filter(({ fits }) => !fits);
  const lane = { from: frame.left - 30, to: frame.right + 30, gap: 1.6 };
  const placedBelow = placeLabels(
    below.map(({ wanted, width }) => ({ wanted, width, priority: 0 })),
    lane,
    FARTHEST_NAME,
  );
  const nodes: SceneNode[] = [];
  const named = (panel: Panel, text: string, width: number, centre: number, baseline: number): SceneNode => {
    const omitted = panel.state === 'omitted';
    const shape = lettered(text, [centre, baseline], {
      size: 'label',
      anchor: 'middle',
      colour: omitted ? 'ink2' : 'panel',
      struck: omitted,
      heavy: !omitted && !panel.proposed,
    });
    return group(
      [
        group([shape], { role: 'mark' }),
        ...(panel.state === 'installed' ? [tick([centre + width / 2 - TICK_ROOM + 2, baseline - 1.2])] : []),
      ],
      { thing: panel.id, hidden: true },
    );
  };
  for (const { panel, left, right } of texts)
    nodes.push(group([bar(left, right, y, panel)], { thing: panel.id, hidden: true }));
  for (const { panel, text, width, wanted } of above) nodes.push(named(panel, text, width, wanted, y - 1.3));
  below.forEach(({ panel, text, width, wanted }, index) => {
    const centre = placedBelow.centres[index] ?? wanted;
    const drop = (placedBelow.rows[index] ?? 0) * NAME_PITCH;
    nodes.push(
      group([line([wanted, y + 0.7], [centre, y + 1.7 + drop], { colour: 'ink3', pen: 'hair' })], {
        role: 'leader',
        hidden: true,
      }),
      named(panel, text, width, centre, y + 2 + drop + capHeights.label),
    );
  });
  nodes.push(
    ...gapsBetween(
      frame,
      placed.filter(({ panel }) => panel.state !== 'omitted').map(({ place }) => place),
      y,
    ),
  );
  return {
    nodes: [group(nodes, { role: 'row' })],
    height: PANEL_ROW_HEIGHT + (below.length > 0 ? placedBelow.rowCount * NAME_PITCH : 0),
  };
}

/** The room that the names in the rows take beyond the ends of the wall, on paper. */
export function rowsReach(
  frame: Pick<ElevationFrame, 'wall' | 'shape' | 'units' | 'shown'>,
  onSheet: (station: Length) => number,
): { readonly left: number; readonly right: number } {
  const end = onSheet(frame.shown.to ?? frame.shape.length);
  const names = [
    ...frame.wall.panels.flatMap((panel) => {
      const place = shownPlace(frame, panel);
      return place
        ? [{ at: onSheet(midpoint(place.from, place.to)), half: textWidth(panelWords(frame, panel), 'label') / 2 + 14 }]
        : [];
    }),
    ...runsOn(frame).map(({ run, count, first, last }) => ({
      at: onSheet(midpoint(first, last)),
      half: textWidth(angleWords(frame, run, count), 'detail') / 2 + 2,
    })),
  ];
  return names.reduce(
    ({ left, right }, { at, half }) => ({ left: Math.max(left, half - at), right: Math.max(right, at + half - end) }),
    { left: 0, right: 0 },
  );
}

/** What of a panel's place shows. */
function shownPlace({ shape, shown }: Pick<ElevationFrame, 'shape' | 'shown'>, panel: Panel): Stretch | undefined {
  const place = panelPlace(shape, panel);
  return place && shownOf(shown, place);
}

function panelWords(frame: Pick<ElevationFrame, 'units'>, panel: Panel): string {
  const { stretch } = panel;
  const length = stretch ? formatStation(minus(stretch.to, stretch.from), frame.units) : 'no place';
  return `${plainText(panel.name)}  ${length}`;
}

function bar(left: number, right: number, y: number, panel: Panel): SceneNode {
  const ends = [left, right].map((x) => line([x, y - 1.4], [x, y + 1.4], { colour: 'panel', pen: 'P4' }));
  if (panel.state === 'omitted')
    return group([line([left, y], [right, y], { colour: 'ink2', pen: 'P4', line: 'omitted' }), ...ends]);
  return group([
    ...(panel.proposed
      ? [
          rect(boxBetween(left, y - 0.5, right, y + 0.5), { fill: 'paper', stroke: { colour: 'panel', pen: 'P5' } }),
          rect(boxBetween((left + right) / 2, y - 0.5, right, y + 0.5), { fill: 'panel' }),
        ]
      : [line([left, y], [right, y], { colour: 'panel', pen: 'bar' })]),
    ...ends,
  ]);
}

function gapsBetween(frame: ElevationFrame, places: readonly Stretch[], y: number): readonly SceneNode[] {
  const sorted = [...places].sort((a, b) => a.from - b.from);
  let reached = sorted[0]?.to ?? zero;
  return sorted.slice(1).flatMap((place): readonly SceneNode[] => {
    const from = reached;
    reached = larger(reached, place.to);
    if (place.from <= from) return [];
    const text = formatStation(minus(place.from, from), frame.units);
    const [left, right] = [frame.x(from), frame.x(place.from)];
    return textWidth(text, 'detail') + 2 > right - left
      ? []
      : [
          lettered(text, [(left + right) / 2, y + capHeights.detail / 2], {
            size: 'detail',
            anchor: 'middle',
            colour: 'ink3',
          }),
        ];
  });
}

/** A short tick for each angle, and the mark of its run. */
export function angleRow(
  frame: ElevationFrame,
  top: number,
): { readonly nodes: readonly SceneNode[]; readonly height: number } {
  const runs = runsOn(frame);
  if (runs.length === 0) return { nodes: [], height: 0 };
  let y = top;
  const nodes = runs.map(({ run, stations, first, last, count }) => {
    y += 5.6;
    const text = angleWords(frame, run, count);
    const middle = (frame.x(first) + frame.x(last)) / 2;
    return group(
      [
        line([frame.x(first), y], [frame.x(last), y], { colour: 'ink3', pen: 'P5' }),
        group(
          stations.map((station) =>
            line([frame.x(station), y - 0.9], [frame.x(station), y + 0.9], { colour: 'new', pen: 'P2' }),
          ),
          { role: 'texture', hidden: true },
        ),
        group([lettered(text, [middle, y - 1.8], { size: 'detail', anchor: 'middle', colour: 'new' })], {
          role: 'mark',
        }),
      ],
      { thing: run.id, hidden: true },
    );
  });
  return { nodes: [group(nodes, { role: 'row' })], height: runs.length * 5.6 + 2.2 };
}

function runsOn({ wall, shape, shown }: Pick<ElevationFrame, 'wall' | 'shape' | 'shown'>) {
  return wall.angles.flatMap((run) => {
    const onWall = run.stations.filter((station) => station >= zero && station <= shape.length);
    const stations = onWall.filter((station) => isShown(shown, station));
    const [first, last] = [stations[0], stations[stations.length - 1]];
    return first === undefined || last === undefined ? [] : [{ run, stations, first, last, count: onWall.length }];
  });
}

function angleWords({ units }: Pick<ElevationFrame, 'units'>, run: AngleRun, count: number): string {
  const long = run.connector?.body?.wide;
  return [
    `${plainText(run.name)}  ${count} of ${plainText(run.connectorName)}`,
    ...(long === undefined ? [] : [`${formatInches(long, units)} long`]),
    ...(run.proposed ? ['proposed'] : []),
  ].join(', ');
}
