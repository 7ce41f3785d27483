import { countOf } from '../documents/text-layout.ts';
import type { LengthUnits, Wall } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import { formatStation } from '../units/format-length.ts';
import { inMillimetres, type Length, minus, zero } from '../units/length.ts';
import { type DrawingScale, type ElevationInput, scaleFor } from './drawing-input.ts';
import { unblockedStretches } from './elevation-found.ts';
import { drawnThing, type ElevationFrame } from './elevation-frame.ts';
import { foundLabels } from './elevation-labels.ts';
import { elevationLegend } from './elevation-legend.ts';
import { bodyBox } from './elevation-new.ts';
import { angleRow, panelRow, rowsReach } from './elevation-panels.ts';
import { elevationParts } from './elevation-parts.ts';
import { bayNumbers, findingLaneNodes, placeFindings } from './finding-lane.ts';
import { foundLaneNodes, movedLane, placeFoundLabels } from './found-lane.ts';
import { joistEnds } from './framing.ts';
import { forgetTheRest, type Ground, keptOr, wallToDraw } from './kept-parts.ts';
import { type LegalWindows, legalWindowsOf, windowRow } from './legal-windows.ts';
import { plainText, textWidth } from './lettering.ts';
import { levelExtremes, levelNotes, levelTexts } from './level-notes.ts';
import { type NumberedFinding, numbered } from './numbered-findings.ts';
import { type PlacedAnchor, placedAnchor } from './placed-mark.ts';
import { cornerNames, facing, planAxis } from './plan-axis.ts';
import type { Scene, SceneNode } from './scene.ts';
import { boundsOf } from './scene-bounds.ts';
import { drillBlocks, findingBlocks, legendBlocks, symbolsUsed, textBlocks } from './sheet-lists.ts';
import { isShown, type ShownPart, wholeLength } from './shown-part.ts';
import {
  cutAtEnds,
  cutTapeEnds,
  type DrawnSide,
  isFirst,
  isLast,
  isOnPart,
  looseSheet,
  type PartOf,
  partRemark,
  partWords,
  type SheetFor,
  type SideOptions,
  type SidePlace,
  type SideView,
  type TapeEnds,
  tapeEnds,
  tapeEndsReach,
} from './side-view.ts';
import { compassLetters, spokenLength } from './spoken.ts';
import {
  concreteCells,
  FACT_ROW_HEIGHT,
  type FactCell,
  factRow,
  gapRow,
  gapString,
  leftoverNotes,
  markString,
  movedMarks,
  placeMarks,
  rowTitle,
  sillCells,
} from './strings.ts';
import { TAPE_HEIGHT, tape, tapeCheck } from './tape.ts';
import type { Speaker } from './thing-names.ts';
import { capHeights } from './tokens.ts';
import { trayNodes } from './tray.ts';
import { drawnLength, shapeOf, type WallShape } from './wall-shape.ts';

/** Paper for one elevation: what a 36 in sheet leaves between its margins. A longer wall goes to the next smaller scale. */
const MOST_WALL_ON_PAPER = 800;

/**
 * The inside elevation of one wall: what was found above, the tape, what is built below it, findings, legend, basis.
 * Every thing of the wall is in the scene: what has no place stands in a tray, and never disappears.
 */
export function drawElevation(given: ElevationInput, use: SheetFor = 'paper'): Scene {
  const wall = given.memory ? wallToDraw(given.memory, given.wall) : given.wall;
  const input = { ...given, wall };
  const { layout } = input;
  const units = input.units ?? layout.title.units;
  const length = inMillimetres(drawnLength(wall));
  const scale = scaleFor({ imperial: 24, metric: 25 }, units, length, MOST_WALL_ON_PAPER);
  const whyReduced = scale.reduced ? 'reduced: the wall is too long for the usual one' : undefined;
  const scene = looseSheet(wallView(input, { scale, whyReduced }), input.basis, use);
  if (input.memory) forgetTheRest(input.memory);
  return scene;
}

/** The elevation of a wall, or of a part of one, before it has a place on paper. */
export function wallView(input: ElevationInput, options: SideOptions): SideView {
  const { layout, wall, checked } = input;
  const subject = subjectOf(input, options);
  const { units, scale, findings, part } = subject;
  const across = layOutAcross(input, subject);
  const notChecked = isFirst(part) ? checked.notChecked.filter((entry) => entry.wall === wall.name) : [];
  const label = wall.label === undefined ? '' : ` ${plainText(wall.label)}`;
  const partLabel = part ? `, ${partWords(part)}` : '';
  return {
    thing: wall.id,
    heading: [
      `WALL ${plainText(wall.name)}`,
      ...(wall.label === undefined ? [] : [plainText(wall.label).toUpperCase()]),
      ...(part ? [partWords(part).toUpperCase()] : []),
    ].join('   '),
    remarks: headingRemarks(subject, options),
    title: `Wall ${plainText(wall.name)}${label}${partLabel}, inside elevation`,
    house: plainText(layout.title.name ?? 'untitled layout'),
    kind: 'Inside elevation',
    name: wallName(subject),
    scale,
    wide: across.wide,
    reach: across.reach,
    draw: (place) => drawWall(subject, across, place),
    lists: ({ nodes, leftover }, columnWidth) => {
      const list = findingBlocks(`Findings on wall ${plainText(wall.name)}`, findings, notChecked, columnWidth);
      const used = symbolsUsed([...nodes, ...list.flatMap((block) => block.draw([0, 0]))]);
      return {
        findings: list,
        legend: legendBlocks(elevationLegend(units), used, columnWidth),
        more: leftoverBlocks(leftover, columnWidth),
        drill: drillBlocks(columnWidth, [
          `Stations run from the left end (${endNames(wall).zero}), seen from inside. Scale ${scale.words}. The tape is true to scale: ${tapeCheck(units, scale.paper)} on this sheet. Print at 100 %.`,
          'Short heavy dashes: not recorded. Nobody measured that edge.',
        ]),
      };
    },
  };
}

/** What is drawn, before anything has a place on the sheet. */
interface Subject {
  readonly input: ElevationInput;
  readonly units: LengthUnits;
  readonly shape: WallShape;
  readonly scale: DrawingScale;
  readonly shown: ShownPart;
  readonly part: PartOf | undefined;
  readonly findings: readonly NumberedFinding[];
  readonly speaker: Speaker;
  readonly ends: TapeEnds;
  /** On the wall, in this part of it or not. */
  readonly anchors: readonly PlacedAnchor[];
  readonly windows: LegalWindows | undefined;
  /** What was made of the same wall before, where nothing that it looked at is another. */
  keep<Made>(name: string, inputs: readonly unknown[], make: (ground: WallGround) => Made): Made;
}
type WallGround = Required<Ground>;

function subjectOf(input: ElevationInput, { scale, cut }: SideOptions): Subject {
  const { layout, wall, checked, memory } = input;
  const units = input.units ?? layout.title.units;
  const keepOn =
    (findingsOn: ReadonlyMap<string, number>): Subject['keep'] =>
    (name, inputs, make) => {
      const ground = { layout, wall, findingsOn };
      return memory ? keptOr(memory, name, inputs, ground, make) : make(ground);
    };
  const shape = keepOn(new Map())('shape', [], (ground) => shapeOf(ground.wall, ground.layout));
  const shown = cut?.shown ?? wholeLength;
  // One number for one finding, whichever part it stands on.
  const all = numbered(checked.findings.filter((finding) => finding.wall === wall.name));
  const findings = all.filter(({ finding }) => isOnPart(finding, shape.length, shown, cut?.part));
  const anchors = [...wall.anchors, ...wall.ties].flatMap((anchor): PlacedAnchor[] => {
    const placed = placedAnchor(anchor, layout);
    return placed && isOn(shape, placed.station) ? [placed] : [];
  });
  const speaker = speakerFor(wall, units, findings);
  return {
    input,
    units,
    shape,
    scale,
    shown,
    part: cut?.part,
    findings,
    speaker,
    keep: keepOn(speaker.findingsOn),
    ends: tapeEndsOf(wall, shape, units, cut),
    anchors: anchors.sort((a, b) => a.station - b.station),
    windows: input.windows && legalWindowsOf({ layout, wall, shape }, input.windows.anchor),
  };
}

function isOn(shape: WallShape, station: Length | undefined): station is Length {
  return station !== undefined && station >= zero && station <= shape.length;
}

function tapeEndsOf(wall: Wall, shape: WallShape, units: LengthUnits, cut: SideOptions['cut']): TapeEnds {
  const names = endNames(wall);
  const lengthText = shape.lengthKnown ? formatStation(shape.length, units) : 'length not recorded';
  return cutTapeEnds({ ...names, lengthText }, units, cut);
}

type Across = ReturnType<typeof layOutAcross>;

/** Places along what is drawn, from its left end: marks, labels, margins. */
function layOutAcross(input: ElevationInput, subject: Subject) {
  const { wall, layout } = input;
  const { units, shape, scale, shown, anchors, ends } = subject;
  const { from = zero, to = shape.length } = shown;
  const wide = inMillimetres(minus(to, from)) * scale.paper;
  const onPaper = (station: Length): number => inMillimetres(minus(station, from)) * scale.paper;
  const levels = {
    left: levelTexts(input, shape, from, 'right', units),
    right: levelTexts(input, shape, to, 'left', units),
  };
  const widest = (texts: readonly { readonly text: string }[]): number =>
    texts.reduce((most, { text }) => Math.max(most, textWidth(text, 'label')), 0);
  const endsReach = tapeEndsReach(ends);
  const leftNotes = 14 + Math.max(26, widest(levels.left), endsReach.left);
  const rightNotes = 14 + Math.max(20, widest(levels.right), endsReach.right);
  const shownAnchors = anchors.filter(({ station }) => isShown(shown, station));
  const marks = placeMarks(shownAnchors, onPaper, units, { from: 20 - leftNotes, to: wide + rightNotes });
  const labels = foundLabels(
    { wall, layout, shape, units, shown },
    wall.foundAnchors.filter((anchor) => isOn(shape, anchor.station) && isShown(shown, anchor.station)),
  );
  const found = placeFoundLabels(labels, onPaper, { from: -30, to: wide + 34 });
  const rows = rowsReach({ wall, shape, units, shown }, onPaper);
  const windows = subject.windows && windowRow(subject.windows, { units, left: 0, right: wide, x: onPaper });
  // Room for the lanes and for their titles, where they stand out beyond the notes in the margins.
  const titled = 24;
  const reach = {
    left: Math.max(leftNotes, titled - marks.left, titled - found.left, rows.left, 1 - (windows?.left ?? 0)),
    right: Math.max(
      rightNotes,
      marks.right - wide + 1,
      found.right - wide + 1,
      rows.right,
      (windows?.right ?? 0) - wide + 1,
    ),
  };
  return { from, wide, reach, levels, labels, marks, found, onPaper, shownAnchors };
}

/** The wall between its lanes: everything from the labels above to the rows below. */
function drawWall(subject: Subject, across: Across, { left, top, room }: SidePlace): DrawnSide {
  const { input, units, shape, scale, shown, part, findings, speaker, ends, anchors, keep } = subject;
  const { layout, wall } = input;
  const { wide, shownAnchors } = across;
  const right = left + wide;
  const x = (station: Length): number => left + across.onPaper(station);
  const marks = movedMarks(across.marks, left);
  const found = movedLane(across.found, left);
  const joists = keep('joists', [shape], (ground) => joistEnds(ground.wall, shape.length));
  const extremes = levelExtremes(wall, shape, wall.joists.length > 0 || joists.length > 0);
  const lane = { from: Math.max(room.from, left - 30), to: Math.min(room.to, right + 34) };
  const markers = placeFindings(findings, x, shape.length, { ...lane, posts: found.posts, shown });

  const markersTop = top + found.height + 2;
  const bayBaseline = markersTop + markers.height + capHeights.least + 0.6;
  const drawingTop = joists.length > 1 ? bayBaseline + 2.2 : markersTop + markers.height + 2.2;
  const frame: ElevationFrame = {
    layout,
    wall,
    units,
    shape,
    speaker,
    paper: scale.paper,
    left,
    right,
    shown,
    ...extremes,
    x,
    y: (level) => drawingTop + inMillimetres(minus(extremes.highest, level)) * scale.paper,
  };
  const levels = [...levelNotes(frame, across.levels.left, 'left'), ...levelNotes(frame, across.levels.right, 'right')];
  const levelsBottom = subject.windows ? bottomOf(levels) : Number.NEGATIVE_INFINITY;
  const drawnBottom = Math.max(
    frame.y(extremes.lowest) + 2,
    lowestBody(frame, anchors),
    lowestThing(frame),
    levelsBottom,
  );
  const windows = subject.windows && windowRow(subject.windows, frame);
  const tapeTop = drawnBottom + (windows ? 3.4 + windows.height : 6.5);
  const stringTop = tapeTop + TAPE_HEIGHT;
  const gaps = gapString(frame);
  const gapTop = stringTop + marks.height + 1;
  const panelTop = gapTop + gaps.height + (gaps.rows > 0 ? 0.6 : 0);
  const place = placeOnSheet(frame);
  const panelled = keep('panel row', [...place, panelTop], (ground) => panelRow({ ...frame, ...ground }, panelTop));
  const angleTop = panelTop + panelled.height;
  const angled = keep('angle row', [...place, angleTop], (ground) => angleRow({ ...frame, ...ground }, angleTop));
  const sillTop = angleTop + angled.height + 2;
  const sillRow = keep('sill', [...place, sillTop], ({ wall: { pieces } }) =>
    pieces.length > 0 ? factRow(frame, sillCells(pieces, units), sillTop, 'wood') : undefined,
  );
  const concreteTop = sillTop + (sillRow ? FACT_ROW_HEIGHT + 1.2 : 0);
  const concreteRow = keep('concrete in words', [...place, concreteTop], () =>
    factRow(frame, concreteCells(frame), concreteTop, 'conc'),
  );
  const trayTop = concreteTop + FACT_ROW_HEIGHT + 3;
  const tray = isLast(part)
    ? trayNodes({ wall, shape, units, layout }, (station) => isOn(shape, station), {
        x: Math.max(room.from, left - 34),
        y: trayTop,
        right: room.to,
      })
    : { nodes: [], bottom: trayTop };

  const titleRight = left - 13;
  const placedFound = wall.foundAnchors.filter((anchor) => isOn(shape, anchor.station));
  // True to scale, drawn whole: where the wall is cut, the rest is cut off again.
  const whole: ElevationFrame = { ...frame, left: x(zero), right: x(shape.length) };
  const wholePlace = placeOnSheet(whole);
  const trueToScale: readonly SceneNode[] = [
    ...elevationParts(
      whole,
      {
        joists,
        unblocked: unblockedStretches(input.checked.findings.filter((finding) => finding.wall === wall.name)),
        anchors,
        foundAnchors: placedFound,
        tapeTop,
      },
      (name, inputs, draw) =>
        keep(name, [...wholePlace, ...inputs], ({ findingsOn, ...ground }) =>
          draw({ ...whole, ...ground, speaker: { ...speaker, findingsOn } }),
        ),
    ),
    ...(windows?.nodes(drawnBottom + 1) ?? []),
    keep('tape', [...wholePlace, tapeTop], () => tape([whole.left, tapeTop], shape.length, units, scale.paper)),
  ];
  const nodes: SceneNode[] = [
    ...cutAtEnds(trueToScale, ends, { left, right, top: drawingTop, bottom: tapeTop + TAPE_HEIGHT }),
    ...tapeEnds(ends, [left, tapeTop], right),
    ...markString(frame, shownAnchors, marks, stringTop),
    ...gapRow(
      frame,
      gaps,
      findings.map(({ finding }) => finding),
      gapTop,
    ),
    ...panelled.nodes,
    ...angled.nodes,
    ...(sillRow?.nodes ?? []),
    ...concreteRow.nodes,
    ...levels,
    ...foundLaneNodes(frame, across.labels, found, top, lane.to),
    ...bayNumbers(frame, joists, bayBaseline, [...found.posts, ...markers.posts]),
    ...(across.labels.length > 0
      ? [rowTitle('FOUND', Math.min(titleRight, found.left - 3), top + capHeights.detail)]
      : []),
    ...(shownAnchors.length > 0
      ? [
          rowTitle(
            wall.ties.length > 0 ? 'NEW ANCHORS, TIES' : 'NEW ANCHORS',
            Math.min(titleRight, marks.left - 3),
            stringTop + 4.4 + marks.fan + 3.4,
          ),
        ]
      : []),
    ...(gaps.rows > 0 ? [rowTitle(gaps.rounded ? 'gap (rounded)' : 'gap', titleRight, gapTop + 4.4)] : []),
    ...(panelled.height > 0 ? [rowTitle('PANELS', titleRight, panelTop + 5)] : []),
    ...(angled.height > 0 ? [rowTitle('ANGLES', titleRight, angleTop + 5.6 + 0.6)] : []),
    ...(sillRow ? [rowTitle('SILL', titleRight, sillTop + 5)] : []),
    rowTitle('CONCRETE', titleRight, concreteTop + 5),
    ...tray.nodes,
    ...(markers.rows > 0 && markers.markers.length > 0
      ? [rowTitle('FINDINGS', Math.min(titleRight, markers.left - 3), markersTop + 3.4)]
      : []),
    ...findingLaneNodes(markers, markersTop, drawingTop, lane.to),
  ];
  return { nodes, bottom: tray.bottom, drawingTop, leftover: [...(sillRow?.left ?? []), ...concreteRow.left] };
}

/** All of a frame but what is drawn on it: where it is the same, the same wall is drawn the same. */
function placeOnSheet(frame: ElevationFrame): readonly unknown[] {
  const { units, shape, speaker, paper, left, right, shown, highest, lowest } = frame;
  const origin = [frame.x(zero), frame.y(zero)];
  return [units, shape, speaker.zeroEnd, paper, left, right, shown.from, shown.to, highest, lowest, ...origin];
}

/** A plate or a rod may reach below the ground line: the tape stays clear of it. */
function lowestBody(frame: ElevationFrame, anchors: readonly PlacedAnchor[]): number {
  return anchors.reduce((lowest, placed) => {
    const body = bodyBox(frame, placed, placed.station);
    return Math.max(lowest, body.y + body.height - 2);
  }, Number.NEGATIVE_INFINITY);
}

/** A thing at its recorded height, on a wall whose ground is not recorded, may reach below what is drawn. */
function lowestThing(frame: ElevationFrame): number {
  return frame.wall.obstructions.reduce((lowest, thing) => {
    const box = drawnThing(frame, thing)?.box;
    return box ? Math.max(lowest, box.y + box.height - 2) : lowest;
  }, Number.NEGATIVE_INFINITY);
}

function bottomOf(nodes: readonly SceneNode[]): number {
  const bounds = boundsOf(nodes);
  return bounds ? bounds.y + bounds.height : Number.NEGATIVE_INFINITY;
}

function leftoverBlocks(cells: readonly FactCell[], width: number) {
  if (cells.length === 0) return [];
  const notes = leftoverNotes(cells, width).map((text) => ({ text, size: 'detail' }) as const);
  return textBlocks('Stretches too short for their row', notes, width, 'list');
}

// ---- words

export function speakerFor(wall: Wall, units: LengthUnits, findings: readonly NumberedFinding[]): Speaker {
  const findingsOn = new Map<string, number>();
  for (const { finding } of findings) {
    if (finding.thing !== undefined) findingsOn.set(finding.thing, (findingsOn.get(finding.thing) ?? 0) + 1);
  }
  const axis = planAxis(wall);
  return { units, findingsOn, zeroEnd: axis ? `the ${cornerNames(axis).zero} corner` : 'the left end' };
}

export function endNames(wall: Wall): Pick<TapeEnds, 'zero' | 'far'> {
  const axis = planAxis(wall);
  if (!axis) return { zero: 'left end', far: 'right end' };
  const { zero: first, far } = cornerNames(axis);
  return { zero: `${compassLetters(first)} corner`, far: `${compassLetters(far)} corner` };
}

function headingRemarks(
  { input: { wall }, units, scale, shown, part, shape }: Subject,
  { whyReduced }: SideOptions,
): readonly string[] {
  const axis = planAxis(wall);
  const taped = knownValue(wall.taped);
  const adjusted = knownValue(wall.adjusted);
  const lengths = [
    ...(taped === undefined ? [] : [`${formatStation(taped, units)} taped`]),
    ...(adjusted === undefined || adjusted === taped ? [] : [`${formatStation(adjusted, units)} adjusted`]),
    ...(wall.length === undefined
      ? ['Length not recorded']
      : taped === undefined && adjusted === undefined
        ? [formatStation(wall.length, units)]
        : []),
  ];
  const looking = `Inside elevation, standing inside${axis ? `, facing ${facing(axis)}` : '; no place in plan'}`;
  const scaled = `Scale ${scale.words}${whyReduced === undefined ? '' : `, ${whyReduced}`}`;
  return [
    `${looking}. ${lengths.join(', ')}. ${scaled}. Above the floor line: what was found. Below the tape: what is built.`,
    ...(part ? [partRemark('wall', part, shown, shape.length, units)] : []),
    ...(wall.noWork ? [`No work on this wall: ${plainText(wall.noWork.reason)}`] : []),
  ];
}

function wallName({ input: { wall }, shape, units, speaker, findings, part }: Subject): string {
  const length = shape.lengthKnown ? spokenLength(shape.length, units) : 'length not recorded';
  return [
    `wall ${plainText(wall.name)}${wall.label === undefined ? '' : `, ${plainText(wall.label)}`}`,
    ...(part ? [partWords(part)] : []),
    `${length}, read from ${speaker.zeroEnd}`,
    countOf(wall.anchors.length, 'new anchor'),
    ...(wall.panels.length > 0 ? [countOf(wall.panels.length, 'bracing panel')] : []),
    ...(wall.ties.length > 0 ? [countOf(wall.ties.length, 'tie')] : []),
    countOf(wall.foundAnchors.length, 'found anchor'),
    countOf(wall.pieces.length, 'sill piece'),
    countOf(findings.length, 'finding'),
  ].join(', ');
}
