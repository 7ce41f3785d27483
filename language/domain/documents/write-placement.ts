import type { LengthUnits } from '../model/layout.ts';
import type { HoleFails, Spot } from '../place/crew-notes.ts';
import { costInWords } from '../place/failure-words.ts';
import { formatLength, formatStation } from '../units/format-length.ts';
import { inMillimetres, type Length } from '../units/length.ts';
import { basisInJson, lengthInJson } from './json-parts.ts';
import type { AnchorReport, BoardReport, PlacementReport } from './placement-report.ts';
import { countOf, printable, wrapWords } from './text-layout.ts';
import { type TableColumn, textTable } from './text-table.ts';

/** The widest table: fits a landscape page and a wide terminal. */
export const placementTableWidth = 132;

/** Boards, then anchors, then boards without a placement with the ways out, then framing, then what it rests on. */
export function placementToText(report: PlacementReport): string {
  const { placement, layout, basis, boards } = report;
  const { units } = layout.title;
  const anchors = boards.flatMap(({ anchors }) => anchors);
  return [
    `Placement: ${printable(report.house)}`,
    ...(basis.demo ? ['DEMO VALUES - not for permit, purchase or building'] : []),
    '',
    ...textTable(boardColumns(report), boards, placementTableWidth),
    '',
    ...(anchors.length === 0 ? [] : [...textTable(anchorColumns(report), rowsOf(boards), placementTableWidth), '']),
    ...boards.flatMap((board) => failureLines(board, report)),
    ...framingLines(report),
    `${countOf(anchors.length, 'new connector')}${placement.costs.unit === 'money' ? `, ${costInWords(placement.cost, placement.costs)}` : ''}.`,
    ...notesOf(report, units).flatMap((note) => wrapWords(printable(note), 110)),
    '',
    ...basis.lines.map(printable),
    '',
  ].join('\n');
}

export const placementSchemaVersion = 1;

/** The schema is documented in docs/json.md. */
export function placementToJson(report: PlacementReport): string {
  const { placement, layout, boards } = report;
  const { units } = layout.title;
  const { costs } = placement;
  const cost = (value: number) => ({ value, text: costInWords(value, costs) });
  const document = {
    schemaVersion: placementSchemaVersion,
    house: report.house,
    slip: lengthInJson(placement.slip, units),
    costs:
      costs.unit === 'money'
        ? { unit: 'cents', currency: costs.currency, withLabour: costs.withLabour, because: null }
        : { unit: 'connectors', currency: null, withLabour: false, because: costs.because },
    cost: cost(placement.cost),
    pieces: boards.map(({ board, anchors, failure }) => ({
      wall: board.wall.name,
      piece: board.piece.name,
      outcome: board.outcome,
      feasible: board.outcome === 'placed' ? true : board.outcome === 'infeasible' ? false : null,
      because: 'why' in board ? board.why : (failure?.cause ?? null),
      cost: board.outcome === 'placed' ? cost(board.cost) : null,
      leastCost: board.outcome === 'placed' ? cost(board.lowerBound) : null,
      slack: board.outcome === 'placed' && board.slack !== undefined ? lengthInJson(board.slack, units) : null,
      anchors: anchors.map(({ mark, anchor, replaces, slide, why, ifHoleFails }) => ({
        mark,
        kind: anchor.use.connector.kind,
        connector: anchor.use.connector.name,
        station: lengthInJson(anchor.station, units),
        shim: anchor.use.shim === undefined ? null : lengthInJson(anchor.use.shim, units),
        rightAngleDrill: anchor.use.rightAngleDrill,
        slideLeft: lengthInJson(slide.left, units),
        slideRight: lengthInJson(slide.right, units),
        ifHoleFails: holeFailsInJson(ifHoleFails, units),
        replacesProposal: replaces !== undefined,
        why,
      })),
      kept:
        'board' in board
          ? board.board.kept.map(({ words, station, planned }) => ({
              name: words,
              station: lengthInJson(station, units),
              found: planned === undefined,
            }))
          : [],
      cheaperAtOtherPrices: board.outcome === 'placed' ? board.cheaperAtOtherPrices : [],
      blockers: failure?.blockers ?? [],
      waysOut:
        failure?.reliefs.map(({ words, cost: value }) => ({
          words,
          cost: value === undefined ? null : cost(value),
        })) ?? [],
    })),
    framing: report.framing.map(({ wall, angles, blocks, tooNarrow, gapsLeft, lacking }) => ({
      wall: wall.name,
      angles:
        angles === undefined
          ? null
          : {
              mark: angles.mark,
              connector: angles.connector.name,
              bays: angles.bays,
              stations: angles.stations.map((station) => lengthInJson(station, units)),
            },
      blocks,
      baysTooNarrow: tooNarrow,
      gapsLeft: gapsLeft.map(({ from, to }) => ({ from: lengthInJson(from, units), to: lengthInJson(to, units) })),
      lacking,
    })),
    removedProposals: report.removed,
    rules: report.underEach.map(({ name, alone, together, errors }) => ({
      name,
      alone: cost(alone),
      together: cost(together),
      errors,
    })),
    basis: basisInJson(report.basis),
  };
  return `${JSON.stringify(document, null, 2)}\n`;
}

function boardColumns({ layout, placement }: PlacementReport): readonly TableColumn<BoardReport>[] {
  const { units } = layout.title;
  const { costs } = placement;
  return [
    { heading: 'Wall', text: ({ board }) => board.wall.name },
    { heading: 'Piece', text: ({ board }) => board.piece.name },
    { heading: 'From', text: ({ board }) => formatStation(board.piece.from, units), numeric: true },
    { heading: 'To', text: ({ board }) => formatStation(board.piece.to, units), numeric: true },
    { heading: 'Kept', text: ({ board }) => ('board' in board ? String(board.board.kept.length) : ''), numeric: true },
    {
      heading: 'New',
      text: ({ board, anchors }) => (board.outcome === 'placed' ? String(anchors.length) : ''),
      numeric: true,
    },
    {
      heading: 'Cost',
      text: ({ board }) => (board.outcome === 'placed' && costs.unit === 'money' ? costInWords(board.cost, costs) : ''),
      numeric: true,
      optional: true,
    },
    {
      heading: 'Least room',
      text: ({ board }) =>
        board.outcome === 'placed' && board.slack !== undefined ? formatLength(board.slack, units) : '',
      numeric: true,
    },
    { heading: 'Outcome', text: (each) => outcomeInWords(each, costs) },
  ];
}

function outcomeInWords({ board, anchors }: BoardReport, costs: PlacementReport['placement']['costs']): string {
  switch (board.outcome) {
    case 'placed': {
      if (anchors.length === 0) return 'nothing to add';
      const proven =
        board.lowerBound === board.cost
          ? costs.unit === 'money'
            ? 'proven cheapest'
            : 'proven fewest'
          : `at least ${costInWords(board.lowerBound, costs)} whatever is done`;
      const other = board.cheaperAtOtherPrices;
      return other.length === 0
        ? proven
        : `${proven} at mean prices; within their ranges ${other.join(' or ')} can be cheaper`;
    }
    case 'infeasible':
      return 'NO PLACEMENT, see below';
    case 'gave-up':
      return 'given up, see below';
    case 'open':
      return `not placed: ${board.why}`;
    case 'left-alone':
      return `left alone: ${board.why}`;
  }
}

interface AnchorRow extends AnchorReport {
  readonly board: BoardReport['board'];
}
function rowsOf(boards: readonly BoardReport[]): readonly AnchorRow[] {
  return boards.flatMap(({ board, anchors }) => anchors.map((anchor) => ({ ...anchor, board })));
}

function anchorColumns({ layout }: PlacementReport): readonly TableColumn<AnchorRow>[] {
  const { units } = layout.title;
  const room = (length: Length) => (length === 0 ? '-' : formatLength(length, units));
  return [
    { heading: 'Mark', text: ({ mark }) => mark },
    { heading: 'Piece', text: ({ board }) => board.piece.name },
    { heading: 'Station', text: ({ anchor }) => formatStation(anchor.station, units), numeric: true },
    { heading: 'mm', text: ({ anchor }) => String(Math.round(inMillimetres(anchor.station))), numeric: true },
    { heading: 'Connector', text: ({ anchor }) => useInWords(anchor, units) },
    { heading: 'Slide left', text: ({ slide }) => room(slide.left), numeric: true },
    { heading: 'right', text: ({ slide }) => room(slide.right), numeric: true },
    { heading: 'If the hole fails', text: ({ ifHoleFails }) => holeFailsInWords(ifHoleFails, units) },
    { heading: 'Why here', text: ({ why }) => why },
  ];
}

function useInWords({ use }: Pick<Spot, 'use'>, units: LengthUnits): string {
  const shim = use.shim === undefined ? '' : `, shim ${formatLength(use.shim, units)}`;
  return `${use.connector.name}${use.rightAngleDrill ? ', right-angle drill' : ''}${shim}`;
}

/** For the crew: `next 7'-1" or 8'-3"`, `stop, call`. */
export function holeFailsInWords(answer: HoleFails, units: LengthUnits): string {
  const show = ({ station }: Spot) => formatStation(station, units);
  switch (answer.kind) {
    case 'spots': {
      const near = answer.spots.filter(({ use }) => use.id === answer.spots[0]?.use.id).slice(0, 2);
      return `next ${near.map(show).join(' or ')}`;
    }
    case 'more-anchors':
      return `${answer.anchors.length} instead: ${answer.anchors.map(show).join(', ')}`;
    case 'stop':
      return 'stop, call';
  }
}

function holeFailsInJson(answer: HoleFails, units: LengthUnits) {
  const spots = answer.kind === 'spots' ? answer.spots : answer.kind === 'more-anchors' ? answer.anchors : [];
  return {
    kind: answer.kind,
    spots: spots.map(({ station, use }) => ({ connector: use.connector.name, station: lengthInJson(station, units) })),
  };
}

function failureLines({ board, failure }: BoardReport, { placement }: PlacementReport): readonly string[] {
  if (!failure) return [];
  const lead = `Sill ${board.piece.name} on wall ${board.wall.name} has no placement: ${failure.cause}.`;
  const blockers =
    failure.blockers.length === 0 ? [] : [`By itself enough to rule it out: ${failure.blockers.join(' and ')}.`];
  const reliefs = failure.reliefs.map(
    ({ words, cost }) =>
      `- ${words}${cost === undefined ? '' : ` (then ${costInWords(cost, placement.costs)} on this board)`}`,
  );
  const last =
    reliefs.length === 0
      ? 'No single change was found that helps: ask an engineer.'
      : 'Ways out, each tried by placing again:';
  return [...[lead, ...blockers, last, ...reliefs].flatMap((line) => wrapWords(printable(line), 110)), ''];
}

function framingLines({ framing, layout }: PlacementReport): readonly string[] {
  const { units } = layout.title;
  const lines = framing.flatMap(({ wall, angles, blocks, tooNarrow, gapsLeft, lacking }): string[] => {
    const parts = [
      ...(angles === undefined
        ? []
        : [
            `${countOf(angles.stations.length, 'framing angle')} ${angles.mark} (${angles.connector.name}) in ${baysInWords(angles.bays)}`,
          ]),
      ...(blocks.length === 0 ? [] : [`${countOf(blocks.length, 'block')} in ${baysInWords(blocks)}`]),
      ...(tooNarrow.length === 0 ? [] : [`too narrow for an angle: ${baysInWords(tooNarrow)}`]),
      ...gapsLeft.map(
        ({ from, to }) => `no bay takes an angle from ${formatStation(from, units)} to ${formatStation(to, units)}`,
      ),
      ...lacking.map((wants) => `not known: ${wants}`),
    ];
    return parts.length === 0 ? [] : [`Wall ${wall.name}: ${parts.join('; ')}.`];
  });
  return lines.length === 0 ? [] : ['Floor to sill', ...lines.flatMap((line) => wrapWords(printable(line), 110)), ''];
}

/** `bays 1, 3, 5`. */
function baysInWords(bays: readonly number[]): string {
  return `${bays.length === 1 ? 'bay' : 'bays'} ${bays.join(', ')}`;
}

function notesOf({ placement, layout, underEach, removed }: PlacementReport, units: LengthUnits): readonly string[] {
  const { costs, slip, issued } = placement;
  return [
    costs.unit === 'money'
      ? `Cheapest first, at the mean of low and high${costs.withLabour ? ' with labour' : ', without labour'}; then with the most room.`
      : `Fewest connectors first (${costs.because}: each counts as one); then with the most room.`,
    slip === 0
      ? 'No slip is promised: each figure under "slide" holds for that connector alone.'
      : `Every new hole may drift up to ${formatLength(slip, units)} either way, all at once, and its limits still hold; what was set by hand keeps its own. Figures under "slide" are for one alone.`,
    'Anchors go by the tables of the rule set; forces are not asked for here, `calc` sets them beside the capacity.',
    ...(issued.length === 0
      ? []
      : [`An issue holds the marks of ${issued.join(', ')}: kept where they are. --move-issued lets them go.`]),
    ...(removed.length === 0 ? [] : [`Proposals that go: ${removed.join(', ')}.`]),
    ...underEach.map(({ name, alone, together, errors }, index) =>
      index === 0
        ? `${name} alone: ${costInWords(alone, costs)}; ${countOf(errors, 'error')} left under it.`
        : `${name} alone: ${costInWords(alone, costs)}; together with those above: ${costInWords(together, costs)}; ${countOf(errors, 'error')} left under it.`,
    ),
    ...(layout.title.ruleSets.length === 0 ? ['No rule set is chosen, so nothing can be placed.'] : []),
  ];
}
