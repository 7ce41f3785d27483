import { countOf } from '../documents/text-layout.ts';
import type { LengthUnits, Stretch } from '../model/layout.ts';
import type { Finding } from '../rules/finding.ts';
import { formatLength, formatStation } from '../units/format-length.ts';
import { inMillimetres, type Length, minus, plus, zero } from '../units/length.ts';
import { type GirderInput, scaleFor } from './drawing-input.ts';
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
import { type PlacedMark, shownHardware } from './placed-mark.ts';
import { group, line, type Scene, type SceneNode } from './scene.ts';
import { drillBlocks, findingBlocks, legendBlocks, symbolsUsed, textBlocks } from './sheet-lists.ts';
import { isShown, shownOf, wholeLength } from './shown-part.ts';
import {
  cutAtEnds,
  cutTapeEnds,
  type DrawnSide,
  isFirst,
  isLast,
  isOnPart,
  looseSheet,
  partRemark,
  partWords,
  type SheetFor,
  type SideOptions,
  type SidePlace,
  type SideView,
  tapeEnds,
  tapeEndsReach,
} from './side-view.ts';
import { compassLetters, compassOf, spokenLength } from './spoken.ts';
import { markString, movedMarks, placeMarks, rowTitle } from './strings.ts';
import { TAPE_HEIGHT, tape, tapeCheck } from './tape.ts';
import { capHeights } from './tokens.ts';

/** Paper for one girder; a longer one goes to the next smaller scale. */
const MOST_GIRDER_ON_PAPER = 800;

/** A girder from the side: beam, posts to their true heights, what was found and what is put on them; findings, legend, basis. */
export function drawGirder(input: GirderInput, use: SheetFor = 'paper'): Scene {
  const units = input.units ?? input.layout.title.units;
  const length = inMillimetres(girderShape(input.girder).length);
  const scale = scaleFor({ imperial: 24, metric: 25 }, units, length, MOST_GIRDER_ON_PAPER);
  const whyReduced = scale.reduced ? 'reduced: the girder is too long for the usual one' : undefined;
  return looseSheet(girderView(input, { scale, whyReduced }), input.basis, use);
}

/** A girder, or a part of one, before it has a place on paper. */
export function girderView(input: GirderInput, options: SideOptions): SideView {
  const { layout, girder, checked } = input;
  const { scale, cut } = options;
  const part = cut?.part;
  const units = input.units ?? layout.title.units;
  const shape = girderShape(girder);
  const own = new Set([girder.id, ...girder.posts.flatMap((post) => [post.id, ...post.hardware.map(({ id }) => id)])]);
  const isOwn = (entry: { readonly wall: string | undefined; readonly thing: string | undefined }): boolean =>
    entry.wall === girder.name || (entry.thing !== undefined && own.has(entry.thing));
  const findings = numbered(checked.findings.filter(isOwn)).filter(({ finding }) =>
    isOnPart(finding, shape.length, cut?.shown ?? wholeLength, part, (each) => placeAtPost(each, shape)),
  );
  const across = layOutAcross(input, units, shape, options);
  const without = isLast(part) ? withoutPlace(input, shape, units) : [];
  return {
    thing: girder.id,
    heading: [
      `GIRDER ${plainText(girder.name)}`,
      ...(girder.label === undefined ? [] : [plainText(girder.label).toUpperCase()]),
      ...(part ? [partWords(part).toUpperCase()] : []),
    ].join('   '),
    remarks: remarks(input, units, shape, options),
    title: `Girder ${plainText(girder.name)}${part ? `, ${partWords(part)}` : ''}, elevation`,
    house: plainText(layout.title.name ?? 'untitled layout'),
    kind: 'Elevation',
    name: [
      `girder ${plainText(girder.name)}`,
      ...(part ? [partWords(part)] : []),
      shape.lengthKnown ? spokenLength(shape.length, units) : 'length not recorded',
      countOf(girder.posts.length, 'post'),
      countOf(findings.length, 'finding'),
    ].join(', '),
    scale,
    wide: across.wide,
    reach: across.reach,
    draw: (place) => drawParts(input, { units, shape, options, across, findings }, place),
    lists: ({ nodes }, columnWidth) => {
      const list = findingBlocks(
        `Findings on girder ${plainText(girder.name)}`,
        findings,
        isFirst(part) ? checked.notChecked.filter(isOwn) : [],
        columnWidth,
      );
      const used = symbolsUsed([...nodes, ...list.flatMap((block) => block.draw([0, 0]))]);
      return {
        findings: list,
        legend: legendBlocks(girderLegend, used, columnWidth),
        more:
          without.length > 0
            ? textBlocks(
                'Cannot be placed',
                without.map((text) => ({ text, size: 'label' })),
                columnWidth,
                'list',
              )
            : [],
        drill: drillBlocks(columnWidth, [
          `Stations run from the left end. Scale ${scale.words}. The tape is true to scale: ${tapeCheck(units, scale.paper)} on this sheet. Print at 100 %.`,
          'Short heavy dashes: not recorded. Nobody measured that edge. The way that a post leans is not recorded: it is drawn to the right.',
        ]),
      };
    },
  };
}

function remarks(
  { girder }: GirderInput,
  units: LengthUnits,
  shape: GirderShape,
  { scale, whyReduced, cut }: SideOptions,
): readonly string[] {
  const length = shape.lengthKnown ? formatStation(shape.length, units) : 'Length not recorded';
  return [
    `From the side, ${looking(girder)}. ${sizeWords(girder.size, units)}, ${length}. Scale ${scale.words}${whyReduced === undefined ? '' : `, ${whyReduced}`}. Above the beam: what was found. Below the tape: what is built.`,
    ...(cut ? [partRemark('girder', cut.part, cut.shown, shape.length, units)] : []),
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
        ...shownHardware(piece, layout),
        station,
        planned: undefined,
        placeUnknown: false,
      }),
    ),
  );
}

type Across = ReturnType<typeof layOutAcross>;

function layOutAcross(input: GirderInput, units: LengthUnits, shape: GirderShape, { scale, cut }: SideOptions) {
  const shown = cut?.shown ?? wholeLength;
  const { from = zero, to = shape.length } = shown;
  const onPaper = (station: Length): number => inMillimetres(minus(station, from)) * scale.paper;
  const wide = onPaper(to);
  const lengthText = shape.lengthKnown ? formatStation(shape.length, units) : 'length not recorded';
  const ends = cutTapeEnds({ ...endNames(input.girder), lengthText }, units, cut);
  const endsReach = tapeEndsReach(ends);
  const levels = levelsOf(shape, units);
  const widest = levels.reduce((most, { text }) => Math.max(most, textWidth(text, 'label')), 0);
  const leftNotes = 14 + Math.max(26, widest, endsReach.left);
  const rightNotes = 14 + Math.max(20, endsReach.right);
  const hardware = hardwareMarks(input, shape).filter(({ station }) => isShown(shown, station));
  const marks = placeMarks(hardware, onPaper, units, { from: 20 - leftNotes, to: wide + rightNotes });
  const labels = postLabels({ girder: input.girder, shape, units }).filter(({ station }) => isShown(shown, station));
  const longest = labels.reduce((most, label) => Math.max(most, labelWidth(label)), 0);
  const found = placeFoundLabels(labels, onPaper, { from: -30 - longest / 3, to: wide + 34 + longest / 3 });
  const titled = 24;
  const reach = {
    left: Math.max(leftNotes, titled - marks.left, titled - found.left),
    right: Math.max(rightNotes, marks.right - wide + 1, found.right - wide + 1),
  };
  return { shown, wide, reach, ends, levels, hardware, labels, marks, found, onPaper };
}

function levelsOf(shape: GirderShape, units: LengthUnits): readonly LevelText[] {
  return [
    {
      level: shape.underside,
      text: `underside ${shape.undersideKnown ? signed(shape.underside, units) : 'not recorded'}`,
    },
  ];
}

interface GirderSubject {
  readonly units: LengthUnits;
  readonly shape: GirderShape;
  readonly options: SideOptions;
  readonly across: Across;
  readonly findings: readonly NumberedFinding[];
}

function drawParts(
  { girder }: GirderInput,
  { units, shape, options: { scale }, across, findings }: GirderSubject,
  { left, top, room }: SidePlace,
): DrawnSide {
  const { shown, wide, ends } = across;
  const right = left + wide;
  const x = (station: Length): number => left + across.onPaper(station);
  const marks = movedMarks(across.marks, left);
  const found = movedLane(across.found, left);
  const lane = { from: Math.max(room.from, left - 30), to: Math.min(room.to, right + 34) };
  const markers = placeFindings(findings, x, shape.length, {
    ...lane,
    posts: found.posts,
    placeOf: (finding) => placeAtPost(finding, shape),
    shown,
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
    shown,
    x,
    y: (level) => drawingTop + inMillimetres(minus(highest, level)) * scale.paper,
  };
  const tapeTop = frame.y(shape.lowest) + 7;
  const stringTop = tapeTop + TAPE_HEIGHT;
  const spansTop = stringTop + marks.height + 1;
  const spans = spanString(frame, spansTop);
  const titleRight = left - 13;
  // True to scale, drawn whole: where the girder is cut, the rest is cut off again.
  const trueToScale: readonly SceneNode[] = [
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
    tape([x(zero), tapeTop], shape.length, units, scale.paper),
  ];
  const nodes: SceneNode[] = [
    ...cutAtEnds(trueToScale, ends, { left, right, top: drawingTop, bottom: tapeTop + TAPE_HEIGHT }),
    ...tapeEnds(ends, [left, tapeTop], right),
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
  return { nodes, bottom: spansTop + spans.height, drawingTop, leftover: [] };
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
  const parts = stops.slice(1).flatMap((to, index) => {
    const from = stops[index] ?? zero;
    const part = shownOf(frame.shown, { from, to });
    if (!part) return [];
    const text = formatLength(minus(to, from), units);
    const width = textWidth(text, 'detail') + 0.8;
    const [left, right] = [frame.x(part.from), frame.x(part.to)];
    return [{ text, width, left, right, wanted: (left + right) / 2, fits: width + 1.2 <= right - left }];
  });
  const outside = parts.filter(({ fits }) => !fits);
  const centres = placeInLane(outside, { from: frame.left - 30, to: frame.right + 30, gap: 0.8 });
  const nodes: SceneNode[] = parts.flatMap(({ text, left, right, wanted, fits }) => [
    line([left, y], [right, y], { colour: 'ink3', pen: 'P5' }),
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
  for (const stop of stops.filter((each) => isShown(frame.shown, each))) {
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
