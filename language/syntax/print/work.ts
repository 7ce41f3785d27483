import type { AddedHardware, Panel, Remedy, ReplaceWood, Tie } from '../../domain/model/design.ts';
import { bayCentre, baysBetween, joistsOnWall } from '../../domain/model/joists.ts';
import type {
  AngleRun,
  Girder,
  Layout,
  NewAnchor,
  NoWork,
  SillPiece,
  Stretch,
  Wall,
  WorkBlock,
} from '../../domain/model/layout.ts';
import { printName } from './name.ts';
import { keyed, printPlace, printReading, printSize, printStation, printStretch } from './values.ts';
import type { InWall } from './wall.ts';
import { blockingLine, sillWords } from './wall.ts';
import { lineOf, printNameOrUnknown, printReference, printText, tagLines, tagWords } from './words.ts';

/** What will be built on a wall: one block, or none where nothing is designed. */
export function printWorkOnWall(wall: Wall, layout: Layout): readonly string[] {
  const { units } = layout.title;
  const inWall: InWall = { units, end: wall.length };
  return block(wall.name, wall.workBlocks, [
    ...wall.anchors.map((anchor) => anchorLine(anchor, inWall)),
    ...wall.blocking.filter((each) => each.layer === 'design').map((each) => blockingLine(each, units)),
    ...wall.studs
      .filter((stud) => stud.layer === 'design')
      .map((stud) =>
        lineOf(
          ['stud at', printStation(stud.station, units, wall.length), printSize(stud.size, units)],
          [stud.proposed ? 'proposed' : undefined, tagWords(stud.tags)],
        ),
      ),
    ...wall.panels.map((panel) => panelLine(panel, inWall)),
    ...wall.ties.map((tie) => tieLine(tie, inWall)),
    ...wall.angles.map((run) => anglesLine(run, wall, inWall)),
    ...wall.remedies.map((remedy) => remedyLine(remedy, wall, inWall)),
    ...noWorkLine(wall.noWork),
  ]);
}

export function printWorkOnGirder(girder: Girder, layout: Layout): readonly string[] {
  const { units } = layout.title;
  return block(girder.name, girder.workBlocks ?? [], [
    ...girder.posts.flatMap((post) =>
      post.hardware.map((each) =>
        lineOf(
          [each.role, printName(each.name), printReference(each.connectorName), 'on', printName(post.name ?? '')],
          keyed('shim', each.shim, units),
          each.bothSides ? 'both-sides' : undefined,
          withWords(each.withHardware),
          [each.proposed ? 'proposed' : undefined, tagWords(each.tags)],
        ),
      ),
    ),
    ...(girder.remedies ?? []).map((remedy) => remedyLine(remedy, undefined, { units, end: undefined })),
    ...noWorkLine(girder.noWork),
  ]);
}

function block(on: string, blocks: readonly WorkBlock[], lines: readonly string[]): readonly string[] {
  const notes = blocks.flatMap(({ tags }) => (tags ? tagLines(tags) : []));
  return lines.length === 0 && blocks.length === 0 ? [] : [lineOf('work on', printName(on)), ...notes, ...lines];
}

function noWorkLine(noWork: NoWork | undefined): readonly string[] {
  if (!noWork) return [];
  return [lineOf('no work because', printText(noWork.reason), noWork.tags && tagWords(noWork.tags))];
}

function anchorLine(anchor: NewAnchor, { units, end }: InWall): string {
  return lineOf(
    ['anchor', printName(anchor.name), anchor.connectorName && printReference(anchor.connectorName)],
    ['at', printStation(anchor.station, units, end)],
    [keyed('embed', anchor.embed, units), keyed('offset', anchor.offset, units), keyed('shim', anchor.shim, units)],
    [anchor.rightAngleDrill ? 'right-angle-drill' : undefined, anchor.bothSides ? 'both-sides' : undefined],
    [withWords(anchor.withHardware), anchor.proposed ? 'proposed' : undefined],
    tagWords(anchor.tags),
  );
}

const withWords = (added: readonly AddedHardware[] | undefined): string =>
  lineOf((added ?? []).map(({ name }) => `with ${printReference(name)}`));

function panelLine(panel: Panel, { units, end }: InWall): string {
  const { board, nails, nailers, ventHoles } = panel;
  return lineOf(
    ['panel', printName(panel.name), panel.stretch ? printStretch(panel.stretch, units, end) : 'to unknown'],
    board && [board.kind, board.thick && printReading(board.thick, units)],
    nails && [
      ['nails', nails.penny === undefined ? '' : `${nails.penny}d`, nails.kind].join(' '),
      keyed('edge', nails.edge, units),
      keyed('field', nails.field, units),
    ],
    nailers === 'none' ? 'nailers none' : undefined,
    nailers && nailers !== 'none'
      ? [
          'nailers',
          printSize(nailers.size, units),
          nailers.nails &&
            lineOf('nails', nailers.nails.count?.toString(), `${nailers.nails.penny ?? ''}d`, nailers.nails.kind),
          nailers.clear ? 'clear' : undefined,
        ]
      : undefined,
    ventHoles === 'none' ? 'vent-holes none' : undefined,
    ventHoles && ventHoles !== 'none'
      ? ['vent-holes', ventHoles.diameter && printReading(ventHoles.diameter, units), ventHoles.pattern]
      : undefined,
    panel.flatBlock || panel.flatBlocked ? lineOf('flat-block', printSize(panel.flatBlock, units)) : undefined,
    keyed('height', panel.height, units),
    panel.proposed ? 'proposed' : undefined,
    tagWords(panel.tags),
  );
}

function tieLine(tie: Tie, { units, end }: InWall): string {
  return lineOf(
    [tie.kind, printName(tie.name), tie.connectorName && printReference(tie.connectorName)],
    ['at', printStation(tie.station, units, end), tie.member && `on ${tie.member}`],
    [keyed('embed', tie.embed, units), keyed('offset', tie.offset, units), keyed('shim', tie.shim, units)],
    [tie.rightAngleDrill ? 'right-angle-drill' : undefined, tie.bothSides ? 'both-sides' : undefined],
    [withWords(tie.withHardware), tie.proposed ? 'proposed' : undefined],
    tagWords(tie.tags),
  );
}

function anglesLine(run: AngleRun, wall: Wall, inWall: InWall): string {
  return lineOf(
    ['angles', printName(run.name), printReference(run.connectorName), placesOfAngles(run, wall, inWall)],
    keyed('shim', run.shim, inWall.units),
    withWords(run.withHardware),
    [run.proposed ? 'proposed' : undefined, tagWords(run.tags)],
  );
}

/** By bays where they stand in the middles of bays, so that what nobody recorded of the joists goes with them. */
function placesOfAngles(run: AngleRun, wall: Wall, { units, end }: InWall): string {
  if (run.lacking.some((what) => what.startsWith('stretch of angles'))) return 'to unknown every bay';
  if (run.lacking.some((what) => what.startsWith('spacing of angles'))) return 'spaced unknown';
  if (run.stations.length === 0) return 'none';
  const bays = baysBetween(joistsOnWall(wall).joists);
  const byCentre = new Map(bays.map((bay) => [bayCentre(bay), bay.number]));
  const numbers = run.stations.map((station) => byCentre.get(station));
  const known = numbers.flatMap((number) => number ?? []);
  if (known.length < numbers.length || byCentre.size < bays.length)
    return `at ${run.stations.map((station) => printStation(station, units, end)).join(', ')}`;
  return known.length === bays.length ? 'every bay' : `${known.length === 1 ? 'bay' : 'bays'} ${known.join(', ')}`;
}

// ---- what happens to found things

function remedyLine(remedy: Remedy, wall: Wall | undefined, { units, end }: InWall): string {
  if (!('what' in remedy)) {
    return lineOf(
      [remedy.verb, printReference(remedy.on.name), remedy.connectorName && printReference(remedy.connectorName)],
      tagWords(remedy.tags),
    );
  }
  const board = remedy.verb === 'replace' && remedy.what === 'sill' ? newBoard(remedy.stretch, wall) : undefined;
  return lineOf(
    [remedy.verb, remedy.what, remedy.name === undefined ? undefined : printName(remedy.name)],
    placeOfWood(remedy, { units, end }),
    // A new board is spelled out, since it carries on what the old one was.
    board
      ? sillWords(board, units)
      : [
          printSize(remedy.size, units),
          remedy.treated === undefined ? undefined : remedy.treated ? 'treated' : 'untreated',
          remedy.species === undefined ? undefined : `species ${printNameOrUnknown(remedy.species)}`,
        ],
    tagWords(remedy.tags),
  );
}

/** A board whose line names a place where it cannot lie stays without one. */
function placeOfWood({ what, stretch }: ReplaceWood, { units, end }: InWall): string | undefined {
  if (what === 'sill') return stretch ? printStretch(stretch, units, end) : 'to unknown';
  return stretch && printPlace(stretch, units, end);
}

function newBoard(stretch: Stretch | undefined, wall: Wall | undefined): SillPiece | undefined {
  return wall?.pieces.find(
    (piece) => piece.layer === 'design' && piece.from === stretch?.from && piece.to === stretch.to,
  );
}
