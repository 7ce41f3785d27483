import { kindInWords } from '../documents/schedule.ts';
import { pieceAt } from '../fit/piece-anchors.ts';
import type { Panel, SisterBoard } from '../model/design.ts';
import type {
  AngleRun,
  Defect,
  FoundAnchor,
  FoundationStretch,
  LengthUnits,
  Obstruction,
  SillPiece,
  Stretch,
  Wall,
} from '../model/layout.ts';
import { knownValue, type Reading } from '../model/reading.ts';
import type { MarkState } from '../model/record.ts';
import type { Length } from '../units/length.ts';
import { plainText } from './lettering.ts';
import type { PlacedAnchor } from './placed-mark.ts';
import { spokenLength } from './spoken.ts';
import type { FoundState } from './symbols.ts';

/** Names of things in full words, for a person who hears the drawing. */
export interface Speaker {
  readonly units: LengthUnits;
  /** `the south-west corner`, `the left end`. */
  readonly zeroEnd: string;
  readonly findingsOn: ReadonlyMap<string, number>;
}

export function spokenAnchor(placed: PlacedAnchor, wall: Wall, speaker: Speaker): string {
  const { connector, anchor, station } = placed;
  const kind = connector
    ? spokenKind(connector.kind)
    : `connector ${plainText(anchor.connectorName ?? 'not said')}, not known`;
  const piece = pieceAt(wall, station);
  const what = 'kind' in anchor ? anchor.kind : 'anchor';
  return said(
    `${what} ${plainText(placed.name)}, ${kind === what ? '' : `${kind}, `}${spokenLength(station, speaker.units)} from ${speaker.zeroEnd}`,
    [
      piece ? `piece ${plainText(piece.name)}` : 'no sill piece there',
      ...(placed.planned === undefined ? [] : [`planned at ${spokenLength(placed.planned, speaker.units)}`]),
      ...(placed.placeUnknown ? ['where it was put is not recorded'] : []),
      ...(placed.issued ? ['issued'] : []),
      spokenState(placed),
      findingCount(placed.id, speaker),
    ],
  );
}

function spokenState({ state, proposed }: { readonly state: MarkState; readonly proposed: boolean }): string {
  return state === 'planned' ? (proposed ? 'proposed' : 'set by hand') : stateWords[state];
}

export function spokenPanel(panel: Panel, speaker: Speaker): string {
  return said(`bracing panel ${plainText(panel.name)}`, [
    spokenStretch(panel.stretch, speaker),
    ...(panel.board ? [panel.board.kind] : []),
    spokenState(panel),
    findingCount(panel.id, speaker),
  ]);
}

export function spokenAngles(run: AngleRun, speaker: Speaker): string {
  return said(`framing angles ${plainText(run.name)}`, [
    `${run.stations.length}`,
    run.proposed ? 'proposed' : 'set by hand',
    findingCount(run.id, speaker),
  ]);
}

export function spokenSister(piece: SillPiece, board: SisterBoard, speaker: Speaker): string {
  return said(`new board beside sill piece ${plainText(piece.name)}`, [spokenStretch(board, speaker)]);
}

const stateWords = { installed: 'installed', omitted: 'omitted', failed: 'failed its test' } as const;

function spokenKind(kind: keyof typeof kindInWords): string {
  return kind === 'through-bolt' ? 'bolt through the sill' : kindInWords[kind];
}

export function spokenFoundAnchor(anchor: FoundAnchor, speaker: Speaker): string {
  const size = knownValue(anchor.size);
  return said(`found anchor${anchor.name === undefined ? '' : ` ${plainText(anchor.name)}`}`, [
    ...(size === undefined ? [] : [spokenLength(size, speaker.units)]),
    anchor.station === undefined
      ? 'station not known'
      : `${spokenLength(anchor.station, speaker.units)} from ${speaker.zeroEnd}`,
    ...foundFacts(anchor),
    findingCount(anchor.id, speaker),
  ]);
}

export function spokenThing(thing: Obstruction | Defect, speaker: Speaker): string {
  const label = 'label' in thing && thing.label !== undefined ? [plainText(thing.label)] : [];
  return said(`${kindWords(thing.kind)}${thing.name === undefined ? '' : ` ${plainText(thing.name)}`}`, [
    ...label,
    spokenStretch(thing.stretch, speaker),
    ...(remedyWords(thing) ?? []),
    ...('zone' in thing && !thing.zone && !thing.words.has('riser') ? ['height not recorded'] : []),
    findingCount(thing.id, speaker),
  ]);
}

/** What the design does to it. */
export function remedyWords(thing: Obstruction | Defect): readonly string[] | undefined {
  if (!thing.remedied) return undefined;
  return [thing.remedied === true ? 'seen to by the design' : `to be ${thing.remedied}`];
}

export function spokenPiece(piece: SillPiece, speaker: Speaker): string {
  return said(`sill piece ${plainText(piece.name)}${piece.layer === 'design' ? ', new' : ''}`, [
    spokenStretch(piece, speaker),
    findingCount(piece.id, speaker),
  ]);
}

export function spokenFoundation(
  stretch: FoundationStretch,
  thick: Reading<Length> | undefined,
  speaker: Speaker,
): string {
  const thickness = knownValue(thick);
  return said(`${stretch.material} stem wall`, [
    spokenStretch(stretch, speaker),
    thickness === undefined ? 'thickness not recorded' : `${spokenLength(thickness, speaker.units)} thick`,
    findingCount(stretch.id, speaker),
  ]);
}

function spokenStretch(stretch: Stretch | undefined, speaker: Speaker): string {
  if (!stretch) return 'place not known';
  const from = spokenLength(stretch.from, speaker.units);
  return stretch.from === stretch.to
    ? `at ${from} from ${speaker.zeroEnd}`
    : `from ${from} to ${spokenLength(stretch.to, speaker.units)} from ${speaker.zeroEnd}`;
}

function said(first: string, rest: readonly string[]): string {
  return [first, ...rest].join(', ');
}

function findingCount(thing: string, speaker: Speaker): string {
  const count = speaker.findingsOn.get(thing) ?? 0;
  return count === 0 ? 'no finding' : `${count} finding${count === 1 ? '' : 's'}`;
}

/** `electrical-panel` as people say it; words that the trade writes with a hyphen keep it. */
export const kindWords = (kind: string): string => (hyphened.has(kind) ? kind : kind.replaceAll('-', ' '));
const hyphened: ReadonlySet<string> = new Set(['half-lap', 'cast-in', 'J-bolt', 'single-wall', 'double-wall']);

/** What a survey says of a found anchor, in the words of its line. */
export function foundFacts(anchor: FoundAnchor): readonly string[] {
  return [
    ...anchor.states.map(kindWords),
    ...(anchor.loss ? ['loss of section'] : []),
    ...(anchor.nut !== undefined && anchor.nut !== 'tight' ? [`${anchor.nut === 'none' ? 'no' : anchor.nut} nut`] : []),
    ...(anchor.newWasher ? ['new washer'] : anchor.washer === 'none' ? ['no washer'] : []),
    anchor.credit === 'none' ? 'no credit' : `${anchor.credit} credit`,
  ];
}

export function foundState(anchor: FoundAnchor): FoundState {
  const states = new Set(anchor.states);
  return {
    credit: anchor.credit,
    rust: states.has('heavy-rust') ? 'heavy' : states.has('light-rust') ? 'light' : 'none',
    bent: states.has('bent'),
    loose: states.has('loose'),
    removed:
      states.has('broken') ||
      states.has('split-out') ||
      states.has('to-be-removed') ||
      states.has('abandoned') ||
      states.has('failed'),
  };
}

export function isSound(anchor: FoundAnchor): boolean {
  const state = foundState(anchor);
  return state.rust !== 'heavy' && !state.bent && !state.loose && !state.removed && anchor.nut !== 'none';
}
