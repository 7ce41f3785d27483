import { countOf } from '../documents/text-layout.ts';
import type { LengthUnits, Stretch } from '../model/layout.ts';
import type { Finding } from '../rules/finding.ts';
import { formatLength, formatStation } from '../units/format-length.ts';
import { inMillimetres, type Length, minus, plus, zero } from '../units/length.ts';
import { type DrawingScale, type GirderInput, scaleFor } from './drawing-input.ts';
import { labelWidth } from './elevation-labels.ts';
import { findingLaneNodes, placeFindings, stretchOfFinding } from './finding-lane.ts';
import { foundLaneNodes, movedLane, placeFoundLabels } from './found-lane.ts';
import { girderLegend } from './girder-legend.ts';
import {
  beam,
  type GirderFrame,
  type GirderShape,
  girderShape,
  hardwareBox,
  postLabels,
  posts,
  sizeWords,
} from './girder-posts.ts';
import { placeInLane } from './label-lane.ts';
import { lettered, plainText, textWidth } from './lettering.ts';
import { type LevelText, levelNotes, signed } from './level-notes.ts';
import { type NumberedFinding, numbered } from './numbered-findings.ts';
import { isIssued, type PlacedMark } from './placed-mark.ts';
import { group, line, type Scene, type SceneNode } from './scene.ts';
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
import { compassLetters, compassOf, spokenLength } from './spoken.ts';
import { markString, placeMarks, rowTitle } from './strings.ts';
import { endFlag, endFlagWidth, TAPE_HEIGHT, tape, tapeCheck, zeroFlag } from './tape.ts';
import { capHeights } from './tokens.ts';

/** Paper for one girder; a longer one goes to the next smaller scale. */
const MOST_GIRDER_ON_PAPER = 800;
const LEAST_SHEET_WIDTH = 330;

/** A girder from the side: beam, posts to their true heights, what was found and what is put on them; findings, legend, basis. */
export function drawGirder(input: GirderInput): Scene {
  const { layout, girder, checked, basis } = input;
  const units = input.units ?? layout.title.units;
  const shape = girderShape(girder);
  const scale = scaleFor({ imperial: 24, metric: 25 }, units, inMillimetres(shape.length), MOST_GIRDER_ON_PAPER);
  const own = new Set([girder.id, ...girder.posts.flatMap((post) => [post.id, ...post.hardware.map(({ id }) => id)])]);
  const isOwn = (entry: { readonly wall: string | undefined; readonly thing: string | undefined }): boolean =>
    entry.wall === girder.name || (entry.thing !== undefined && own.has(entry.thing));
  const findings = numbered(checked.findings.filter(isOwn));
  const across = layOutAcross(input, units, shape, scale);
  const { width } = across;
  const title = `GIRDER ${plainText(girder.name)}${girder.label === undefined ? '' : `   ${plainText(girder.label).toUpperCase()}`}`;
  const head = heading(title, remarks(input, units, shape, scale), basis, width);
  const { nodes, bottom, drawingTop } = drawParts(input, units, shape, scale, across, findings, head.bottom + 5);
  const without = withoutPlace(input, shape, units);
  const lists = listsUnder(bottom, width, SHEET_MARGIN, (columnWidth) => {
    const list = findingBlocks(
      `Findings on girder ${plainText(girder.name)}`,
      findings,
      checked.notChecked.filter(isOwn),
      columnWidth,
    );
    const used = symbolsUsed([...nodes, ...list.flatMap((block) => block.draw([0, 0]))]);
    return [
      ...list,
      ...legendBlocks(girderLegend, used, columnWidth),
      ...(without.length > 0
        ? textBlocks(
            'Cannot be placed',
            without.map((text) => ({ text, size: 'label' })),
            columnWidth,
            'list',
          )
        : []),
      ...drillBlocks(columnWidth, [
        `Stations run from the left end. Scale ${scale.words}. The tape is true to scale: ${tapeCheck(units, scale.paper)} on this sheet. Print at 100 %.`,
        'Short heavy dashes: not recorded. Nobody measured that edge. The way that a post leans is not recorded: it is drawn to the right.',
      ]),
      ...basisBlocks(basis, columnWidth),
    ];
  });
  const height = Math.ceil(lists.top + lists.height + SHEET_MARGIN);
  const name = [
    `girder ${plainText(girder.name)}`,
    shape.lengthKnown ? spokenLength(shape.length, units) : 'length not recorded',
    countOf(girder.posts.length, 'post'),
    countOf(findings.length, 'finding'),
  ].join(', ');
  return {
    width,
    height,
    title: `Girder ${plainText(girder.name)}, elevation, ${plainText(layout.title.name ?? 'untitled layout')}`,
    description: `Elevation of ${name}. ${basis.label}. ${basis.lines.join(' ')}`,
    nodes: [
      ...watermark(basis, {
        x: SHEET_MARGIN,
        y: drawingTop,
        width: width - 2 * SHEET_MARGIN,
        height: height - drawingTop - SHEET_MARGIN,
      }),
      ...head.nodes,
      group(nodes, { role: 'wall', thing: girder.id, name }),
      ...lists.nodes,
    ],
    regions: {
      heading: { x: 0, y: 0, width, height: head.bottom },
      drawing: {
        x: across.left - across.reach.left,
        y: head.bottom,
        width: across.right - across.left + across.reach.left + across.reach.right,
        height: bottom + 1 - head.bottom,
      },
      lists: { x: 0, y: lists.top - 3, width, height: height - lists.top + 3 },
    },
  };
}

function remarks(
  { girder }: GirderInput,
  units: LengthUnits,
  shape: GirderShape,
  scale: DrawingScale,
): readonly string[] {
  const length = shape.lengthKnown ? formatStation(shape.length, units) : 'Length not recorded';
  return [
    `From the side, ${looking(girder)}. ${sizeWords(girder.size, units)}, ${length}. Scale ${scale.words}${scale.reduced ? ', reduced: the girder is too long for the usual one' : ''}. Above the beam: what was found. Below the tape: what is built.`,
    ...(girder.noWork ? [`No work on this girder: ${plainText(girder.noWork.reason)}`] : []),
  ];
}

/** Station 0 at the left: who stands so looks to the left of the girder's run. */
function looking({ from, to }: GirderInput['girder']): string {
  if (!from || !to || (from.x === to.x && from.y === to.y)) return 'no place in plan';
  return `looking ${compassOf(-(to.y - from.y), to.x - from.x)}`;
}

function endNames({ from, to }: GirderInput['girder']): { readonly zero: string; readonly far: string } {
  if (!from || !to || (from.x === to.x && from.y === to.y)) return { zero: 'left end', far: 'right end' };
  const [x, y] = [to.x - from.x, to.y - from.y];
  return { zero: `${compassLetters(compassOf(-x, -y))} end`, far: `${compassLetters(compassOf(x, y))} end` };
}

/** New hardware with its mark, at its post. */
function hardwareMarks({ layout }: GirderInput, shape: GirderShape): readonly PlacedMark[] {
  return shape.posts.flatMap(({ post, station }) =>
    post.hardware.map(
      (piece): PlacedMark => ({
        id: piece.id,
        name: piece.name,
        connector: piece.connector,
        proposed: piece.proposed === true,
        state: piece.state ?? 'planned',
        issued: isIssued(piece, layout),
        station,
        planned: undefined,
        placeUnknown: false,
      }),
    ),
  );
}

type Across = ReturnType<typeof layOutAcross>;

function layOutAcross(input: GirderInput, units: LengthUnits, shape: GirderShape, scale: DrawingScale) {
  const onPaper = (station: Length): number => inMillimetres(station) * scale.paper;
  const wide = onPaper(shape.length);
  const ends = endNames(input.girder);
  const lengthText = shape.lengthKnown ? formatStation(shape.length, units) : 'length not recorded';
  const levels = levelsOf(shape, units);
  const widest = levels.reduce((most, { text }) => Math.max(most, textWidth(text, 'label')), 0);
  const leftNotes = 14 + Math.max(26, widest, textWidth(ends.zero, 'label') + 4);
  const rightNotes = 14 + Math.max(20, endFlagWidth(lengthText) + textWidth(ends.far, 'label') - 8);
  const hardware = hardwareMarks(input, shape);
  const marks = placeMarks(hardware, onPaper, units, { from: 20 - leftNotes, to: wide + rightNotes });
  const labels = postLabels({ girder: input.girder, shape, units });
  const longest = labels.reduce((most, label) => Math.max(most, labelWidth(label)), 0);
  const found = placeFoundLabels(labels, onPaper, { from: -30 - longest / 3, to: wide + 34 + longest / 3 });
  const titled = 24;
  const reach = {
    left: Math.max(leftNotes, titled - marks.left, titled - found.left),
    right: Math.max(rightNotes, marks.right - wide + 1, found.right - wide + 1),
  };
  const natural = reach.left + wide + reach.right + 2 * SHEET_MARGIN;
  const width = Math.ceil(Math.max(natural, LEAST_SHEET_WIDTH));
  const left = SHEET_MARGIN + reach.left + (width - natural) / 2;
  return {
    width,
    left,
    right: left + wide,
    reach,
    ends,
    lengthText,
    levels,
    hardware,
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

function levelsOf(shape: GirderShape, units: LengthUnits): readonly LevelText[] {
  return [
    {
      level: shape.underside,
      text: `underside ${shape.undersideKnown ? signed(shape.underside, units) : 'not recorded'}`,
    },
  ];
}

function drawParts(
  input: GirderInput,
  units: LengthUnits,
  shape: GirderShape,
  scale: DrawingScale,
  across: Across,
  findings: readonly NumberedFinding[],
  top: number,
): { readonly nodes: readonly SceneNode[]; readonly bottom: number; readonly drawingTop: number } {
  const { girder } = input;
  const { left, right, x, marks, found, ends, lengthText } = across;
  const lane = { from: Math.max(SHEET_MARGIN, left - 30), to: Math.min(across.width - SHEET_MARGIN, right + 34) };
  const markers = placeFindings(findings, x, shape.length, {
    ...lane,
    posts: found.posts,
    placeOf: (finding) => placeAtPost(finding, shape),
  });
  const markersTop = top + found.height + 2;
  const drawingTop = markersTop + markers.height + 2.2;
  const highest = plus(shape.underside, shape.depth);
  const frame: GirderFrame = {
    girder,
    shape,
    units,
    paper: scale.paper,
    left,
    right,
    x,
    y: (level) => drawingTop + inMillimetres(minus(highest, level)) * scale.paper,
  };
  const tapeTop = frame.y(shape.lowest) + 7;
  const stringTop = tapeTop + TAPE_HEIGHT;
  const spansTop = stringTop + marks.height + 1;
  const spans = spanString(frame, spansTop);
  const titleRight = left - 13;
  const tapeBaseline = tapeTop + TAPE_HEIGHT / 2 + capHeights.label / 2;
  const nodes: SceneNode[] = [
    ...beam(frame),
    ...posts(frame),
    group(
      shape.posts.flatMap((post) =>
        post.post.hardware.map((piece) => {
          const body = hardwareBox(frame, post, piece);
          return line([x(post.station), body.y + body.height], [x(post.station), tapeTop], {
            colour: 'ink3',
            pen: 'hair',
          });
        }),
      ),
      { role: 'leader', hidden: true },
    ),
    tape([left, tapeTop], shape.length, units, scale.paper),
    zeroFlag([left, tapeTop]),
    endFlag([right, tapeTop], lengthText),
    lettered(ends.zero, [titleRight, tapeBaseline], { size: 'label', anchor: 'end' }),
    lettered(ends.far, [right + endFlagWidth(lengthText) + 2, tapeBaseline], { size: 'label' }),
    ...markString(frame, across.hardware, marks, stringTop),
    ...spans.nodes,
    ...levelNotes(frame, across.levels, 'left'),
    ...foundLaneNodes(frame, across.labels, found, top, lane.to),
    ...(across.labels.length > 0
      ? [rowTitle('FOUND', Math.min(titleRight, found.left - 3), top + capHeights.detail)]
      : []),
    ...(across.hardware.length > 0
      ? [rowTitle('NEW', Math.min(titleRight, marks.left - 3), stringTop + 4.4 + marks.fan + 3.4)]
      : []),
    rowTitle('SPANS', titleRight, spansTop + 4.4),
    ...(markers.rows > 0 && markers.markers.length > 0
      ? [rowTitle('FINDINGS', Math.min(titleRight, markers.left - 3), markersTop + 3.4)]
      : []),
    ...findingLaneNodes(markers, markersTop, drawingTop, lane.to),
  ];
  return { nodes, bottom: spansTop + spans.height, drawingTop };
}

/** A finding about a post stands at it, whether or not it names a station. */
function placeAtPost(finding: Finding, shape: GirderShape): Stretch | undefined {
  const post = shape.posts.find(
    ({ post: each }) => each.id === finding.thing || each.hardware.some(({ id }) => id === finding.thing),
  );
  return post ? { from: post.station, to: post.station } : stretchOfFinding(finding);
}

/** From support to support, centre to centre, true to the stations. */
function spanString(
  frame: GirderFrame,
  top: number,
): { readonly nodes: readonly SceneNode[]; readonly height: number } {
  const { shape, units } = frame;
  const stops = [...new Set([zero, ...shape.posts.map(({ station }) => station), shape.length])].sort((a, b) => a - b);
  const y = top + 3.6;
  const parts = stops.slice(1).map((to, index) => {
    const from = stops[index] ?? zero;
    const text = formatLength(minus(to, from), units);
    const width = textWidth(text, 'detail') + 0.8;
    return {
      from,
      to,
      text,
      width,
      wanted: (frame.x(from) + frame.x(to)) / 2,
      fits: width + 1.2 <= frame.x(to) - frame.x(from),
    };
  });
  const outside = parts.filter(({ fits }) => !fits);
  const centres = placeInLane(outside, { from: frame.left - 30, to: frame.right + 30, gap: 0.8 });
  const nodes: SceneNode[] = parts.flatMap(({ from, to, text, wanted, fits }) => [
    line([frame.x(from), y], [frame.x(to), y], { colour: 'ink3', pen: 'P5' }),
    ...(fits ? [lettered(text, [wanted, y - 0.9], { size: 'detail', anchor: 'middle' as const })] : []),
  ]);
  outside.forEach(({ text, wanted }, index) => {
    const at = centres?.[index];
    if (at === undefined) return;
    nodes.push(
      line([wanted, y + 0.4], [at, y + 1.9], { colour: 'ink3', pen: 'hair' }),
      lettered(text, [at, y + 2.3 + capHeights.detail], { size: 'detail', anchor: 'middle' }),
    );
  });
  for (const stop of stops) {
    const isEnd = stop === zero || stop === shape.length;
    nodes.push(
      isEnd
        ? line([frame.x(stop), y - 1.8], [frame.x(stop), y + 1.8], { colour: 'ink', pen: 'P2' })
        : line([frame.x(stop) - 0.9, y + 0.9], [frame.x(stop) + 0.9, y - 0.9], { colour: 'ink', pen: 'P3' }),
    );
  }
  return {
    nodes: [group(nodes, { role: 'dimension', name: 'spans between supports', hidden: true })],
    height: outside.length > 0 ? 9 : 6,
  };
}

function withoutPlace({ girder }: GirderInput, shape: GirderShape, units: LengthUnits): readonly string[] {
  const placed = new Set(shape.posts.map(({ post }) => post.id));
  return girder.posts
    .filter((post) => !placed.has(post.id))
    .map((post) => {
      const why = post.station === undefined ? 'no station' : `${formatStation(post.station, units)} is off the girder`;
      const marks = post.hardware.map((piece) => plainText(piece.name));
      return `Post ${plainText(post.name ?? '')}: ${why}${marks.length > 0 ? `. Marks on it: ${marks.join(', ')}` : ''}`;
    });
}
