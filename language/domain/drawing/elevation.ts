import { countOf } from '../documents/text-layout.ts';
import type { LengthUnits, Wall } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import { formatStation } from '../units/format-length.ts';
import { inMillimetres, type Length, minus, zero } from '../units/length.ts';
import { type DrawingScale, type ElevationInput, scaleFor } from './drawing-input.ts';
import {
  concrete,
  concreteEnds,
  crippleWalls,
  defects,
  floor,
  foundAnchors,
  openings,
  services,
  sills,
  warningZones,
} from './elevation-found.ts';
import type { ElevationFrame } from './elevation-frame.ts';
import { foundLabels } from './elevation-labels.ts';
import { elevationLegend } from './elevation-legend.ts';
import { bodyBox, newAnchors } from './elevation-new.ts';
import { angleRow, framingAngles, panelRow, panels, rowsReach, sisterBoards } from './elevation-panels.ts';
import { bayNumbers, findingLaneNodes, placeFindings } from './finding-lane.ts';
import { foundLaneNodes, movedLane, placeFoundLabels } from './found-lane.ts';
import { joistEnds } from './framing.ts';
import { type LegalWindows, legalWindowsOf, windowRow } from './legal-windows.ts';
import { lettered, plainText, textWidth } from './lettering.ts';
import { levelExtremes, levelNotes, levelTexts } from './level-notes.ts';
import { type NumberedFinding, numbered } from './numbered-findings.ts';
import { type PlacedAnchor, placedAnchor } from './placed-mark.ts';
import { cornerNames, facing, planAxis } from './plan-axis.ts';
import { group, type Scene, type SceneNode } from './scene.ts';
import { boundsOf } from './scene-bounds.ts';
import { heading, SHEET_MARGIN, watermark } from './sheet-furniture.ts';
import {
  basisBlocks,
  drillBlocks,
  findingBlocks,
  legendBlocks,
  listsUnder,
  symbolsUsed,
  textBlocks,
} from './sheet-lists.ts';
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
  placeMarks,
  rowTitle,
  sillCells,
} from './strings.ts';
import { endFlag, endFlagWidth, TAPE_HEIGHT, tape, tapeCheck, zeroFlag } from './tape.ts';
import type { Speaker } from './thing-names.ts';
import { capHeights } from './tokens.ts';
import { trayNodes } from './tray.ts';
import { shapeOf, type WallShape } from './wall-shape.ts';

/** Paper for one elevation: what a 36 in sheet leaves between its margins. A longer wall goes to the next smaller scale. */
const MOST_WALL_ON_PAPER = 800;
const LEAST_SHEET_WIDTH = 330;

/**
 * The inside elevation of one wall: what was found above, the tape, what is built below it, findings, legend, basis.
 * Every thing of the wall is in the scene: what has no place stands in a tray, and never disappears.
 */
export function drawElevation(input: ElevationInput): Scene {
  const { layout, wall, checked, basis } = input;
  const subject = subjectOf(input);
  const { units, scale, findings, ends } = subject;
  const across = layOutAcross(input, subject);
  const { width, left, right } = across;

  const head = heading(
    `WALL ${plainText(wall.name)}${wall.label === undefined ? '' : `   ${plainText(wall.label).toUpperCase()}`}`,
    headingRemarks(wall, units, scale),
    basis,
    width,
  );
  const { nodes: drawing, bottom, drawingTop, leftover } = drawWall(subject, across, head.bottom + 5);

  const inner = width - 2 * SHEET_MARGIN;
  const notChecked = checked.notChecked.filter((entry) => entry.wall === wall.name);
  const lists = listsUnder(bottom, width, SHEET_MARGIN, (columnWidth) => {
    const list = findingBlocks(`Findings on wall ${plainText(wall.name)}`, findings, notChecked, columnWidth);
    const used = symbolsUsed([...drawing, ...list.flatMap((block) => block.draw([0, 0]))]);
    return [
      ...list,
      ...legendBlocks(elevationLegend(units), used, columnWidth),
      ...leftoverBlocks(leftover, columnWidth),
      ...drillBlocks(columnWidth, [
        `Stations run from the left end (${ends.zero}), seen from inside. Scale ${scale.words}. The tape is true to scale: ${tapeCheck(units, scale.paper)} on this sheet. Print at 100 %.`,
        'Short heavy dashes: not recorded. Nobody measured that edge.',
      ]),
      ...basisBlocks(basis, columnWidth),
    ];
  });
  const height = Math.ceil(lists.top + lists.height + SHEET_MARGIN);
  const label = wall.label === undefined ? '' : ` ${plainText(wall.label)}`;
  const name = wallName(subject);

  return {
    width,
    height,
    title: `Wall ${plainText(wall.name)}${label}, inside elevation, ${plainText(layout.title.name ?? 'untitled layout')}`,
    description: `Inside elevation of ${name}. ${basis.label}. ${basis.lines.join(' ')}`,
    nodes: [
      ...watermark(basis, { x: SHEET_MARGIN, y: drawingTop, width: inner, height: height - drawingTop - SHEET_MARGIN }),
      ...head.nodes,
      group(drawing, { role: 'wall', thing: wall.id, name }),
      ...lists.nodes,
    ],
    regions: {
      heading: { x: 0, y: 0, width, height: head.bottom },
      drawing: {
        x: left - across.reach.left,
        y: head.bottom,
        width: right - left + across.reach.left + across.reach.right,
        height: bottom + 1 - head.bottom,
      },
      lists: { x: 0, y: lists.top - 3, width, height: height - lists.top + 3 },
    },
  };
}

/** What is drawn, before anything has a place on the sheet. */
interface Subject {
  readonly input: ElevationInput;
  readonly units: LengthUnits;
  readonly shape: WallShape;
  readonly scale: DrawingScale;
  readonly findings: readonly NumberedFinding[];
  readonly speaker: Speaker;
  readonly ends: { readonly zero: string; readonly far: string };
  readonly anchors: readonly PlacedAnchor[];
  readonly lengthText: string;
  readonly windows: LegalWindows | undefined;
}

function subjectOf(input: ElevationInput): Subject {
  const { layout, wall, checked } = input;
  const units = input.units ?? layout.title.units;
  const shape = shapeOf(wall, layout);
  const findings = numbered(checked.findings.filter((finding) => finding.wall === wall.name));
  const anchors = [...wall.anchors, ...wall.ties].flatMap((anchor): PlacedAnchor[] => {
    const placed = placedAnchor(anchor, layout);
    return placed && isOn(shape, placed.station) ? [placed] : [];
  });
  return {
    input,
    units,
    shape,
    scale: scaleFor({ imperial: 24, metric: 25 }, units, inMillimetres(shape.length), MOST_WALL_ON_PAPER),
    findings,
    speaker: speakerFor(wall, units, findings),
    ends: endNames(wall),
    anchors: anchors.sort((a, b) => a.station - b.station),
    lengthText: shape.lengthKnown ? formatStation(shape.length, units) : 'length not recorded',
    windows: input.windows && legalWindowsOf({ layout, wall, shape }, input.windows.anchor),
  };
}

function isOn(shape: WallShape, station: Length | undefined): station is Length {
  return station !== undefined && station >= zero && station <= shape.length;
}

type Across = ReturnType<typeof layOutAcross>;

/** Places along the wall: marks, labels, margins, and the width of the sheet that follows from them. */
function layOutAcross(input: ElevationInput, subject: Subject) {
  const { wall, layout } = input;
  const { units, shape, scale, anchors, ends, lengthText } = subject;
  const wallWidth = inMillimetres(shape.length) * scale.paper;
  const onPaper = (station: Length): number => inMillimetres(station) * scale.paper;
  const levels = {
    left: levelTexts(input, shape, zero, 'right', units),
    right: levelTexts(input, shape, shape.length, 'left', units),
  };
  const widest = (texts: readonly { readonly text: string }[]): number =>
    texts.reduce((most, { text }) => Math.max(most, textWidth(text, 'label')), 0);
  const leftNotes = 14 + Math.max(26, widest(levels.left), textWidth(ends.zero, 'label') + 4);
  const rightNotes =
    14 + Math.max(20, widest(levels.right), endFlagWidth(lengthText) + textWidth(ends.far, 'label') - 8);
  const marks = placeMarks(anchors, onPaper, units, { from: 20 - leftNotes, to: wallWidth + rightNotes });
  const labels = foundLabels(
    { wall, layout, shape, units },
    wall.foundAnchors.filter((anchor) => isOn(shape, anchor.station)),
  );
  const found = placeFoundLabels(labels, onPaper, { from: -30, to: wallWidth + 34 });
  const rows = rowsReach({ wall, shape, units }, onPaper);
  const windows = subject.windows && windowRow(subject.windows, { units, left: 0, right: wallWidth, x: onPaper });
  // Room for the lanes and for their titles, where they stand out beyond the notes in the margins.
  const titled = 24;
  const reach = {
    left: Math.max(leftNotes, titled - marks.left, titled - found.left, rows.left, 1 - (windows?.left ?? 0)),
    right: Math.max(
      rightNotes,
      marks.right - wallWidth + 1,
      found.right - wallWidth + 1,
      rows.right,
      (windows?.right ?? 0) - wallWidth + 1,
    ),
  };
  const natural = reach.left + wallWidth + reach.right + 2 * SHEET_MARGIN;
  const width = Math.ceil(Math.max(natural, LEAST_SHEET_WIDTH));
  const left = SHEET_MARGIN + reach.left + (width - natural) / 2;
  return {
    width,
    left,
    right: left + wallWidth,
    reach,
    levels,
    labels,
    marks: {
      ...marks,
      centres: marks.centres.map((centre) => centre + left),
      left: marks.left + left,
      right: marks.right + left,
    },
    found: movedLane(found, left),
    x: (station: Length): number => left + onPaper(station),
  };
}

/** The wall between its lanes: everything from the labels above to the rows below. */
function drawWall(
  subject: Subject,
  across: Across,
  top: number,
): {
  readonly nodes: readonly SceneNode[];
  readonly bottom: number;
  readonly drawingTop: number;
  readonly leftover: readonly FactCell[];
} {
  const { input, units, shape, scale, findings, speaker, ends, anchors, lengthText } = subject;
  const { layout, wall } = input;
  const { left, right, x, marks, found } = across;
  const joists = joistEnds(wall, shape.length);
  const extremes = levelExtremes(wall, shape, wall.joists.length > 0 || joists.length > 0);
  const lane = { from: Math.max(SHEET_MARGIN, left - 30), to: Math.min(across.width - SHEET_MARGIN, right + 34) };
  const markers = placeFindings(findings, x, shape.length, { ...lane, posts: found.posts });

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
    ...extremes,
    x,
    y: (level) => drawingTop + inMillimetres(minus(extremes.highest, level)) * scale.paper,
  };
  const levels = [...levelNotes(frame, across.levels.left, 'left'), ...levelNotes(frame, across.levels.right, 'right')];
  const levelsBottom = subject.windows ? bottomOf(levels) : Number.NEGATIVE_INFINITY;
  const drawnBottom = Math.max(frame.y(extremes.lowest) + 2, lowestBody(frame, anchors), levelsBottom);
  const windows = subject.windows && windowRow(subject.windows, frame);
  const tapeTop = drawnBottom + (windows ? 3.4 + windows.height : 6.5);
  const stringTop = tapeTop + TAPE_HEIGHT;
  const gaps = gapString(frame);
  const gapTop = stringTop + marks.height + 1;
  const panelTop = gapTop + gaps.height + (gaps.rows > 0 ? 0.6 : 0);
  const panelled = panelRow(frame, panelTop);
  const angleTop = panelTop + panelled.height;
  const angled = angleRow(frame, angleTop);
  const sillTop = angleTop + angled.height + 2;
  const sillRow = wall.pieces.length > 0 ? factRow(frame, sillCells(wall.pieces, units), sillTop, 'wood') : undefined;
  const concreteTop = sillTop + (sillRow ? FACT_ROW_HEIGHT + 1.2 : 0);
  const concreteRow = factRow(frame, concreteCells(frame), concreteTop, 'conc');
  const tray = trayNodes({ wall, shape, units, layout }, (station) => isOn(shape, station), {
    x: Math.max(SHEET_MARGIN, left - 34),
    y: concreteTop + FACT_ROW_HEIGHT + 3,
    right: across.width - SHEET_MARGIN,
  });

  const titleRight = left - 13;
  const tapeBaseline = tapeTop + TAPE_HEIGHT / 2 + capHeights.label / 2;
  const placedFound = wall.foundAnchors.filter((anchor) => isOn(shape, anchor.station));
  const nodes: SceneNode[] = [
    ...concrete(frame),
    ...floor(frame, joists),
    ...crippleWalls(frame),
    ...sills(frame),
    ...sisterBoards(frame),
    ...concreteEnds(frame),
    ...warningZones(frame),
    ...openings(frame),
    ...panels(frame),
    ...framingAngles(frame),
    ...newAnchors(frame, anchors, tapeTop),
    ...defects(frame),
    ...foundAnchors(frame, placedFound),
    ...services(frame),
    ...(windows?.nodes(drawnBottom + 1) ?? []),
    tape([left, tapeTop], shape.length, units, scale.paper),
    zeroFlag([left, tapeTop]),
    endFlag([right, tapeTop], lengthText),
    lettered(ends.zero, [titleRight, tapeBaseline], { size: 'label', anchor: 'end' }),
    lettered(ends.far, [right + endFlagWidth(lengthText) + 2, tapeBaseline], { size: 'label' }),
    ...markString(frame, anchors, marks, stringTop),
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
    ...(anchors.length > 0
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

/** A plate or a rod may reach below the ground line: the tape stays clear of it. */
function lowestBody(frame: ElevationFrame, anchors: readonly PlacedAnchor[]): number {
  return anchors.reduce((lowest, placed) => {
    const body = bodyBox(frame, placed, placed.station);
    return Math.max(lowest, body.y + body.height - 2);
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

function speakerFor(wall: Wall, units: LengthUnits, findings: readonly NumberedFinding[]): Speaker {
  const findingsOn = new Map<string, number>();
  for (const { finding } of findings) {
    if (finding.thing !== undefined) findingsOn.set(finding.thing, (findingsOn.get(finding.thing) ?? 0) + 1);
  }
  const axis = planAxis(wall);
  return { units, findingsOn, zeroEnd: axis ? `the ${cornerNames(axis).zero} corner` : 'the left end' };
}

function endNames(wall: Wall): Subject['ends'] {
  const axis = planAxis(wall);
  if (!axis) return { zero: 'left end', far: 'right end' };
  const { zero: first, far } = cornerNames(axis);
  return { zero: `${compassLetters(first)} corner`, far: `${compassLetters(far)} corner` };
}

function headingRemarks(wall: Wall, units: LengthUnits, scale: DrawingScale): readonly string[] {
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
  const scaled = `Scale ${scale.words}${scale.reduced ? ', reduced: the wall is too long for the usual one' : ''}`;
  return [
    `${looking}. ${lengths.join(', ')}. ${scaled}. Above the floor line: what was found. Below the tape: what is built.`,
    ...(wall.noWork ? [`No work on this wall: ${plainText(wall.noWork.reason)}`] : []),
  ];
}

function wallName({ input: { wall }, shape, units, speaker, findings }: Subject): string {
  const length = shape.lengthKnown ? spokenLength(shape.length, units) : 'length not recorded';
  return [
    `wall ${plainText(wall.name)}${wall.label === undefined ? '' : `, ${plainText(wall.label)}`}`,
    `${length}, read from ${speaker.zeroEnd}`,
    countOf(wall.anchors.length, 'new anchor'),
    ...(wall.panels.length > 0 ? [countOf(wall.panels.length, 'bracing panel')] : []),
    ...(wall.ties.length > 0 ? [countOf(wall.ties.length, 'tie')] : []),
    countOf(wall.foundAnchors.length, 'found anchor'),
    countOf(wall.pieces.length, 'sill piece'),
    countOf(findings.length, 'finding'),
  ].join(', ');
}
