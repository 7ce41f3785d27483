import { wallAsBuilt } from '../fit/as-built.ts';
import { anchorsOf } from '../fit/piece-anchors.ts';
import type { FoundAnchor, LengthUnits, SillPiece, Stretch } from '../model/layout.ts';
import { knownValue, type Profile, profileAt, profileRange } from '../model/reading.ts';
import type { Finding } from '../rules/finding.ts';
import { formatInches, formatLength, formatStation } from '../units/format-length.ts';
import { feet, type Length, larger, minus, smaller, zero } from '../units/length.ts';
import type { ElevationFrame } from './elevation-frame.ts';
import { markEnds } from './elevation-new.ts';
import { type InTurns, placeInLane } from './label-lane.ts';
import { placeLabels } from './label-rows.ts';
import { lettered, plainText, shortened, textWidth } from './lettering.ts';
import type { PlacedMark } from './placed-mark.ts';
import { boxBetween, circle, group, line, polygon, polyline, rect, type SceneNode, type XY } from './scene.ts';
import { isShown, shownOf } from './shown-part.ts';
import { markFrame } from './symbols.ts';
import { capHeights } from './tokens.ts';

/** Below the tape: what is built. Stations, gaps, and rows of facts that hold over a stretch. */

const FRAME_HEIGHT = 4.6;
/** Room for the bar of an issued mark. */
const UNDER_FRAME = 1.7;
const CELL_HEIGHT = FRAME_HEIGHT + UNDER_FRAME + capHeights.station + 2.2;
/** A mark that has to move further than this asks for a second row. */
const FARTHEST_MARK = 12;

export interface MarkCells extends InTurns {
  readonly fan: number;
  /** Height of one mark with its station, and what more is to say of its place. */
  readonly cell: number;
  readonly left: number;
  readonly right: number;
  readonly height: number;
}

export const frameWidth = (mark: string): number => Math.max(7, textWidth(mark, 'mark', 'regular') + 3.6);

function cellWidth(mark: PlacedMark, units: LengthUnits): number {
  const ticked = mark.state === 'installed' || mark.state === 'failed' ? 3.4 : 0;
  return Math.max(
    frameWidth(plainText(mark.name)) + ticked,
    textWidth(formatStation(mark.station, units), 'station', 'regular') + 0.8,
    textWidth(placeRemark(mark, units) ?? '', 'detail') + 0.8,
  );
}

/** What the station alone does not say. */
function placeRemark({ planned, placeUnknown }: PlacedMark, units: LengthUnits): string | undefined {
  if (placeUnknown) return 'as designed; built place not recorded';
  return planned === undefined ? undefined : `was ${formatStation(planned, units)}`;
}
const REMARK_HEIGHT = capHeights.detail + 1.3;

/** Where the mark and station of each new anchor stand. Marks are never dropped: where the lane is too short it grows. */
export function placeMarks(
  anchors: readonly PlacedMark[],
  x: (station: Length) => number,
  units: LengthUnits,
  lane: { readonly from: number; readonly to: number },
): MarkCells {
  const items = anchors.map((anchor) => ({ wanted: x(anchor.station), width: cellWidth(anchor, units), priority: 0 }));
  const placed = placeLabels(items, { ...lane, gap: 1.4 }, FARTHEST_MARK);
  const halfOf = (index: number): number => (items[index]?.width ?? 0) / 2;
  const fan = fanHeight(placed.shift);
  const cell = CELL_HEIGHT + (anchors.some((mark) => placeRemark(mark, units) !== undefined) ? REMARK_HEIGHT : 0);
  return {
    ...placed,
    fan,
    cell,
    left: placed.centres.reduce(
      (least, centre, index) => Math.min(least, centre - halfOf(index)),
      Number.POSITIVE_INFINITY,
    ),
    right: placed.centres.reduce(
      (most, centre, index) => Math.max(most, centre + halfOf(index)),
      Number.NEGATIVE_INFINITY,
    ),
    height: items.length === 0 ? 0 : STRING_HEIGHT + fan + placed.rowCount * cell,
  };
}

/** The same marks under a tape that starts further right. */
export function movedMarks(marks: MarkCells, by: number): MarkCells {
  return {
    ...marks,
    centres: marks.centres.map((centre) => centre + by),
    left: marks.left + by,
    right: marks.right + by,
  };
}

/** Room for leaders to reach the labels that had to move: the further, the more, so that no leader lies flat. */
export function fanHeight(shift: number): number {
  return shift < 0.05 ? 1.6 : Math.min(12, Math.max(2.6, shift * 0.22));
}

const STRING_HEIGHT = 4.4;

/** A tape with marks under it: a wall's, or a girder's. */
export type MarkFrame = Pick<ElevationFrame, 'left' | 'right' | 'units' | 'x' | 'shown'>;

/** The running string from the ring at station 0, an arrow for each new anchor, its mark and its station under it. */
export function markString(
  frame: MarkFrame,
  anchors: readonly PlacedMark[],
  placed: MarkCells,
  top: number,
): readonly SceneNode[] {
  if (anchors.length === 0) return [];
  const y = top + 1.8;
  const nodes: SceneNode[] = [
    line([frame.left + 0.9, y], [frame.right, y], { colour: 'ink3', pen: 'P5' }),
    ...(frame.shown.from === undefined
      ? [
          group([circle([frame.left, y], 0.9, { fill: 'paper', stroke: { colour: 'ink', pen: 'P5' } })], {
            symbol: 'station-zero',
          }),
        ]
      : []),
  ];
  anchors.forEach((placedMark, index) => {
    const { station, state } = placedMark;
    const x = frame.x(station);
    const centre = placed.centres[index] ?? x;
    const cellTop = top + STRING_HEIGHT + placed.fan + (placed.rows[index] ?? 0) * placed.cell;
    const mark = plainText(placedMark.name);
    const omitted = state === 'omitted';
    const remark = placeRemark(placedMark, frame.units);
    const bend = top + STRING_HEIGHT;
    const leader: XY[] =
      Math.abs(centre - x) < 0.02
        ? [
            [x, bend],
            [x, cellTop],
          ]
        : [
            [x, bend],
            [centre, bend + placed.fan - 0.8],
            [centre, cellTop],
          ];
    nodes.push(
      group(
        [
          line([x, top], [x, bend], { colour: 'ink2', pen: 'P5' }),
          polygon(
            [
              [x, bend],
              [x - 0.7, bend - 2],
              [x + 0.7, bend - 2],
            ],
            { fill: 'ink2' },
          ),
          polyline(leader, { stroke: { colour: 'ink3', pen: 'P5', ...(omitted ? { line: 'omitted' } : {}) } }),
        ],
        { role: 'leader', hidden: true },
      ),
      group(
        [
          group(
            [
              ...markFrame(
                mark,
                [centre, cellTop + FRAME_HEIGHT / 2],
                { width: frameWidth(mark), height: FRAME_HEIGHT },
                markEnds(placedMark.connector),
                placedMark,
                'mark',
              ),
            ],
            { role: 'mark' },
          ),
          group(
            [
              lettered(
                formatStation(station, frame.units),
                [centre, cellTop + FRAME_HEIGHT + UNDER_FRAME + capHeights.station],
                {
                  size: 'station',
                  face: 'regular',
                  anchor: 'middle',
                  heavy: !omitted,
                  struck: omitted,
                  colour: omitted ? 'ink2' : 'ink',
                },
              ),
            ],
            { role: 'station' },
          ),
          ...(remark === undefined
            ? []
            : [
                lettered(remark, [centre, cellTop + FRAME_HEIGHT + UNDER_FRAME + capHeights.station + REMARK_HEIGHT], {
                  size: 'detail',
                  anchor: 'middle',
                  colour: 'ink2',
                }),
              ]),
        ],
        // The body in the drawing carries the name; this is its second picture.
        { thing: placedMark.id, hidden: true },
      ),
    );
  });
  return nodes;
}

// ---- gaps

interface GapPart {
  readonly from: Length;
  readonly to: Length;
  readonly fromEnd: boolean;
  readonly toEnd: boolean;
  readonly found: boolean;
  readonly row: number;
  /** Its ends as the findings know it: as designed, where one was built elsewhere. */
  readonly designed: Stretch;
}

export interface GapString {
  readonly parts: readonly GapPart[];
  readonly rows: number;
  readonly height: number;
  readonly rounded: boolean;
}

const GAP_PITCH = 8.2;

/** Gaps within each sill piece: between its anchors that count, and to its true ends. Lapped pieces take turns in two rows. */
export function gapString(frame: Pick<ElevationFrame, 'layout' | 'wall' | 'units'>): GapString {
  const wall = wallAsBuilt(frame.layout, frame.wall);
  const designedAt = new Map(frame.wall.anchors.map(({ id, station }) => [id, station]));
  const pieces = [...wall.pieces].sort((a, b) => a.from - b.from || a.to - b.to);
  const parts: GapPart[] = [];
  const reached: Length[] = [];
  for (const piece of pieces) {
    const counted = anchorsOf(wall, piece);
    if (counted.length === 0) continue;
    let row = reached.findIndex((end) => end <= piece.from);
    if (row < 0) row = reached.length;
    reached[row] = piece.to;
    const stops = [
      { station: piece.from, designed: piece.from, end: true, found: false },
      ...counted.map((anchor) => ({
        station: anchor.station,
        designed: designedAt.get(anchor.id) ?? anchor.station,
        end: false,
        found: anchor.planned === undefined,
      })),
      { station: piece.to, designed: piece.to, end: true, found: false },
    ];
    stops.slice(1).forEach((stop, index) => {
      const before = stops[index];
      if (before)
        parts.push({
          from: before.station,
          to: stop.station,
          fromEnd: before.end,
          toEnd: stop.end,
          found: stop.found,
          row,
          designed: { from: before.designed, to: stop.designed },
        });
    });
  }
  const rounded = parts.some(
    ({ from, to }) => printed(minus(to, from), frame.units) !== printed(to, frame.units) - printed(from, frame.units),
  );
  return { parts, rows: reached.length, height: parts.length === 0 ? 0 : reached.length * GAP_PITCH + 1.5, rounded };
}

/** What a length prints as, in sixteenths or millimetres. */
function printed(length: Length, units: LengthUnits): number {
  return Math.round(length / (units === 'metric' ? 1_000_000 : 25_400_000 / 16));
}

export function gapRow(
  frame: ElevationFrame,
  gaps: GapString,
  findings: readonly Finding[],
  top: number,
): readonly SceneNode[] {
  const nodes: SceneNode[] = [];
  const marked = limitMarks(findings);
  for (let row = 0; row < gaps.rows; row++) {
    const y = top + 3.6 + row * GAP_PITCH;
    const parts = gaps.parts.filter((part) => part.row === row);
    const texts = parts.flatMap((part) => {
      const shown = shownOf(frame.shown, part);
      if (!shown) return [];
      const text = formatLength(minus(part.to, part.from), frame.units);
      const width = textWidth(text, 'detail') + 0.8;
      const [left, right] = [frame.x(shown.from), frame.x(shown.to)];
      return [{ part, text, width, left, right, centre: (left + right) / 2, fits: width + 1.2 <= right - left }];
    });
    for (const { part, left, right } of texts) {
      nodes.push(
        line([left, y], [right, y], { colour: 'ink3', pen: 'P5' }),
        ...(isShown(frame.shown, part.from) ? ending(left, y, part.fromEnd, false) : []),
        ...(isShown(frame.shown, part.to) ? ending(right, y, part.toEnd, part.found) : []),
      );
    }
    for (const { part, text, centre, fits } of texts)
      if (fits) nodes.push(gapText(text, [centre, y - 0.9], markOf(marked, part)));
    // What does not fit between its ticks stands under the string, tied to its gap.
    const outside = texts.filter((entry) => !entry.fits);
    const centres = placeInLane(
      outside.map(({ centre, width }) => ({ wanted: centre, width })),
      { from: frame.left - 30, to: frame.right + 30, gap: 0.8 },
    );
    outside.forEach(({ part, text, centre }, index) => {
      const at = centres?.[index];
      // Gaps too many for their row stand in the schedule.
      if (at === undefined) return;
      nodes.push(
        group([line([centre, y + 0.4], [at, y + 1.9], { colour: 'ink3', pen: 'hair' })], {
          role: 'leader',
          hidden: true,
        }),
        gapText(text, [at, y + 2.3 + capHeights.detail], markOf(marked, part)),
      );
    });
  }
  return [
    group(nodes, { role: 'dimension', name: 'gaps between anchors and to the ends of sill pieces', hidden: true }),
  ];
}

function ending(x: number, y: number, end: boolean, found: boolean): readonly SceneNode[] {
  if (end) return [line([x, y - 1.8], [x, y + 1.8], { colour: 'ink', pen: 'P2' })];
  if (found) return [circle([x, y], 0.8, { fill: 'paper', stroke: { colour: 'found', pen: 'P4' } })];
  return [line([x - 0.9, y + 0.9], [x + 0.9, y - 0.9], { colour: 'ink', pen: 'P3' })];
}

function gapText(text: string, [x, y]: XY, mark: 'breaks' | 'exception' | undefined): SceneNode {
  const value = lettered(text, [x, y], {
    size: 'detail',
    anchor: 'middle',
    colour: mark === 'breaks' ? 'error' : 'ink',
  });
  if (!mark) return value;
  const half = value.width / 2 + 0.5;
  const frame = boxBetween(x - half, y - capHeights.detail - 0.5, x + half, y + 0.55);
  return group([
    rect(frame, {
      stroke: mark === 'breaks' ? { colour: 'error', pen: 'P3' } : { colour: 'ink2', pen: 'P4', line: 'omitted' },
    }),
    value,
  ]);
}

/** Gaps that a finding speaks of: those that break a limit, and those that stand by a legal exception. */
function limitMarks(findings: readonly Finding[]): ReadonlyMap<string, 'breaks' | 'exception'> {
  const marks = new Map<string, 'breaks' | 'exception'>();
  for (const { station, stationTo, severity, accepted, rule } of findings) {
    if (station === undefined || stationTo === undefined || !rule.startsWith('anchorage/')) continue;
    const key = `${Math.min(station, stationTo)} ${Math.max(station, stationTo)}`;
    const breaks = accepted === undefined && (severity === 'error' || severity === 'stop');
    if (breaks || !marks.has(key)) marks.set(key, breaks ? 'breaks' : 'exception');
  }
  return marks;
}

type LimitMark = 'breaks' | 'exception';
const markOf = (marks: ReadonlyMap<string, LimitMark>, { from, to, designed }: GapPart): LimitMark | undefined =>
  marks.get(`${from} ${to}`) ?? marks.get(`${designed.from} ${designed.to}`);

// ---- rows of facts

export const FACT_ROW_HEIGHT = 8.2;

export interface FactCell {
  readonly thing: string | undefined;
  readonly from: Length;
  readonly to: Length;
  readonly name: string;
  readonly first: string;
  readonly second: string;
  readonly isNew: boolean;
}

/** One cell for each stretch, as long as its stretch. A cell too short for its words gives them back, to be listed. */
export function factRow(
  frame: ElevationFrame,
  cells: readonly FactCell[],
  top: number,
  fill: 'wood' | 'conc',
): { readonly nodes: readonly SceneNode[]; readonly left: readonly FactCell[] } {
  const nodes: SceneNode[] = [];
  const left: FactCell[] = [];
  let textFrom = Number.NEGATIVE_INFINITY;
  for (const cell of cells) {
    const shown = shownOf(frame.shown, { from: larger(cell.from, zero), to: smaller(cell.to, frame.shape.length) });
    if (!shown || shown.to <= shown.from) continue;
    const [start, end] = [frame.x(shown.from), frame.x(shown.to)];
    // A lapped piece starts under the end of the one before: its words start after that.
    const from = Math.max(start, textFrom) + 1.5;
    const room = end - 1.5 - from;
    textFrom = end;
    const texts: SceneNode[] = [];
    const whole = [cell.name, cell.first].filter((part) => part !== '').join('  ');
    if (textWidth(whole, 'label') <= room) {
      texts.push(lettered(whole, [from, top + 3.5], { size: 'label' }));
      if (textWidth(cell.second, 'detail') <= room)
        texts.push(lettered(cell.second, [from, top + 7], { size: 'detail', colour: 'ink2' }));
      else left.push(cell);
    } else {
      left.push(cell);
      if (cell.name !== '' && textWidth(cell.name, 'label') <= room)
        texts.push(lettered(cell.name, [from, top + 3.5], { size: 'label' }));
    }
    nodes.push(
      group(
        [
          rect(boxBetween(start, top, end, top + FACT_ROW_HEIGHT), {
            fill,
            stroke: cell.isNew ? { colour: 'new', pen: 'P2' } : { colour: 'ink2', pen: 'P4' },
          }),
          ...texts,
        ],
        { ...(cell.thing === undefined ? {} : { thing: cell.thing }), hidden: true },
      ),
    );
  }
  return { nodes: [group(nodes, { role: 'row' })], left };
}

export function sillCells(pieces: readonly SillPiece[], units: LengthUnits): readonly FactCell[] {
  return [...pieces]
    .sort((a, b) => a.from - b.from || a.to - b.to)
    .map((piece) => ({
      thing: piece.id,
      from: piece.from,
      to: piece.to,
      name: plainText(piece.name) + (piece.layer === 'design' && !piece.name.includes('-new') ? ' new' : ''),
      first: `${formatStation(piece.from, units)} to ${formatStation(piece.to, units)}`,
      second: [
        `set-back ${shown(piece.setBack, piece, units)}`,
        `head-room ${shown(piece.headroom, piece, units)}`,
        ...(piece.joint === 'none' ? [] : [piece.joint]),
        ...(piece.treated ? ['treated'] : []),
        ...(piece.sistered ?? []).map(
          ({ from, to }) => `new board beside it ${formatStation(from, units)} to ${formatStation(to, units)}`,
        ),
      ].join('   '),
      isNew: piece.layer === 'design',
    }));
}

export function concreteCells(frame: Pick<ElevationFrame, 'shape' | 'units'>): readonly FactCell[] {
  const { units } = frame;
  return frame.shape.stems.map((stem) => {
    const { foundation } = stem;
    const stretch = { from: stem.from, to: stem.to };
    if (!foundation) {
      return { thing: undefined, ...stretch, name: '', first: 'foundation not recorded', second: '', isNew: false };
    }
    const material = foundation.material === 'concrete' ? 'stem' : `${foundation.material.replace('-', ' ')} stem`;
    return {
      thing: foundation.id,
      ...stretch,
      name: '',
      first: `${material} ${shown(foundation.thick, stretch, units)}   showing ${shown(foundation.showing, stretch, units)}`,
      second: `top ${shown(foundation.top, stretch, units, formatLength)}   outside soil ${below(shown(foundation.grade, stretch, units))}`,
      isNew: false,
    };
  });
}

/** One value, or the two at the ends where it changes; words where nobody measured it. */
function shown(
  profile: Profile | undefined,
  stretch: { readonly from: Length; readonly to: Length },
  units: LengthUnits,
  print: typeof formatLength = sizeInWords,
): string {
  if (!profile) return 'not recorded';
  const range = profileRange(profile, stretch.from, stretch.to);
  if ('kind' in range) return 'unknown';
  if (range.least.value === range.greatest.value) return print(range.least.value, units);
  const [from, to] = [profileAt(profile, stretch.from), profileAt(profile, stretch.to)].map(knownValue);
  return from === undefined || to === undefined ? 'unknown' : `${print(from, units)} to ${print(to, units)}`;
}

/** A depth has a side; a depth that nobody measured has none. */
const below = (depth: string): string => (/\d/.test(depth) ? `${depth} below` : depth);

/** Sizes are said in inches, until they are heights of a room. */
function sizeInWords(length: Length, units: LengthUnits): string {
  return length < LONGEST_IN_INCHES ? formatInches(length, units) : formatLength(length, units);
}
const LONGEST_IN_INCHES = feet(4);

/** The title of a row or lane, left of the drawing. */
export function rowTitle(text: string, right: number, baseline: number): SceneNode {
  return lettered(text, [right, baseline], { size: 'detail', anchor: 'end', colour: 'ink2' });
}

export function leftoverNotes(cells: readonly FactCell[], width: number): readonly string[] {
  return cells.map((cell) =>
    shortened([cell.name, cell.first, cell.second].filter((part) => part !== '').join('  '), width, 'detail'),
  );
}

/** Found anchors with a place on the wall. */
export function placedFound(anchors: readonly FoundAnchor[], length: Length): readonly FoundAnchor[] {
  return anchors.filter(({ station }) => station !== undefined && station >= zero && station <= length);
}
