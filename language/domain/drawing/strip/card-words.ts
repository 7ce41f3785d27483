import { type MarkRecord, recordOfMarks, testInWords } from '../../documents/schedules/mark-record.ts';
import { fastenerSize, fastenersByMember, washerInWords } from '../../documents/schedules/words.ts';
import type { Layout, LengthUnits, NewAnchor, Wall } from '../../model/layout.ts';
import { type HoleFails, holeFailsOf, type Spot, slideOf } from '../../place/crew-notes.ts';
import type { Finding } from '../../rules/finding.ts';
import { formatInches, formatStation } from '../../units/format-length.ts';
import { formatQuantity } from '../../units/format-quantity.ts';
import { millimetre, minus, plus, roundDownTo, roundUpTo, sixteenth } from '../../units/length.ts';
import { plainText } from '../lettering.ts';
import type { PlacedAnchor } from '../placed-mark.ts';
import type { ColourToken } from '../tokens.ts';
import { type DepthPart, type Drilling, drillingOf } from './drilling.ts';

export interface CardLine {
  readonly text: string;
  readonly size: 'label' | 'detail';
  readonly heavy?: boolean;
  readonly colour?: ColourToken;
}

/** What one card says beside mark and station; what nobody knows is said as unknown. */
export interface CardWords {
  /** Beside the mark: what is put in. */
  readonly connector: string;
  /** Under it: `proposed`, `installed`; nothing for work that is to be done as it stands. */
  readonly state: string | undefined;
  /** Beside the station: `was 0'-10"`, `built place not recorded`, `right-angle` for the drill. */
  readonly place: string | undefined;
  readonly lines: readonly CardLine[];
  /** Filled in by the record, else left for the crew. */
  readonly embedGot: string | undefined;
  readonly torque: string | undefined;
}

export function cardWords(
  on: {
    readonly layout: Layout;
    readonly wall: Wall;
    readonly units: LengthUnits;
    readonly findings: readonly Finding[];
  },
  placed: PlacedAnchor,
): CardWords {
  const record = recordOfMarks(on.layout)(on.wall.name, placed.name);
  const drilling = drillingOf(on.layout, on.wall, placed);
  return {
    connector: plainText(placed.connector?.name ?? placed.anchor.connectorName ?? 'no connector named'),
    state: stateOf(placed),
    place: placeOf(placed, on.units),
    lines: [...warnings(on, placed), ...linesOf(on, placed, drilling, record)],
    embedGot: quantityOf(record.installed?.event.embed, (length) => formatInches(length, on.units)),
    torque: quantityOf(record.installed?.event.torque, formatQuantity),
  };
}

function stateOf({ state, proposed }: PlacedAnchor): string | undefined {
  if (state === 'failed') return 'FAILED TEST';
  if (state !== 'planned') return state;
  return proposed ? 'proposed' : undefined;
}

function placeOf({ planned, placeUnknown, anchor }: PlacedAnchor, units: LengthUnits): string | undefined {
  if (placeUnknown) return 'built place not recorded';
  if (planned !== undefined) return `was ${formatStation(planned, units)}`;
  return anchor.rightAngleDrill ? 'right-angle' : undefined;
}

/** Nobody drills where a check still says stop or error of this very mark. */
function warnings(on: Parameters<typeof cardWords>[0], { id, state }: PlacedAnchor): readonly CardLine[] {
  if (state !== 'planned') return [];
  const live = on.findings.filter(
    ({ thing, severity, accepted }) =>
      thing === id && (severity === 'stop' || (severity === 'error' && accepted === undefined)),
  );
  if (live.length === 0) return [];
  const worst = live.some(({ severity }) => severity === 'stop') ? 'STOP' : 'ERROR';
  const rules = [...new Set(live.map(({ rule }) => rule.slice(rule.indexOf('/') + 1).replaceAll('-', ' ')))];
  return [
    {
      text: `${worst}: ${rules.join(', ')}. Ask first.`,
      size: 'label',
      heavy: true,
      colour: worst === 'STOP' ? 'stop' : 'error',
    },
  ];
}

function linesOf(
  on: Parameters<typeof cardWords>[0],
  placed: PlacedAnchor,
  drilling: Drilling | undefined,
  record: MarkRecord,
): readonly CardLine[] {
  const { connector, state } = placed;
  const tests = record.tests.map(
    ({ date, event }): CardLine => ({ text: `${testInWords(event)}, ${date}`, size: 'detail' }),
  );
  if (state === 'omitted') {
    const reason = record.omitted?.event.reason;
    return [
      { text: reason === undefined ? 'no reason given' : plainText(reason), size: 'detail' },
      { text: 'Drill nothing here under this mark.', size: 'label', heavy: true },
    ];
  }
  if (!connector)
    return [{ text: 'Connector not described: bit and depth not known. Ask.', size: 'label', heavy: true }];
  const howSet = howSetInWords(on, placed);
  const what: readonly CardLine[] = howSet.length === 0 ? [] : [{ text: howSet.join(', '), size: 'detail' }];
  if (state === 'installed') {
    const { installed } = record;
    const reason = installed?.event.reason;
    const by = installed?.by === undefined ? '' : `, ${plainText(installed.by)}`;
    return [
      ...what,
      { text: installed ? `installed ${installed.date}${by}` : 'installed', size: 'detail', colour: 'good' },
      ...(reason === undefined ? [] : [{ text: `because ${plainText(reason)}`, size: 'detail' } as const]),
      ...tests,
    ];
  }
  if (state === 'failed') {
    return [
      ...what,
      ...tests.slice(-1),
      { text: 'Failed: ask before another hole.', size: 'label', heavy: true, colour: 'error' },
    ];
  }
  return [...what, ...slideLines(on, placed), ...drillingLines(on, placed, drilling), ...failsLines(on, placed)];
}

/** What a crew must know of how it is set beside its hole: offset on the sill, shim, washer, the stud it stands on. */
function howSetInWords(
  { units }: Parameters<typeof cardWords>[0],
  { anchor, connector }: PlacedAnchor,
): readonly string[] {
  const words: string[] = [];
  if ('kind' in anchor && anchor.member !== undefined) words.push(`on ${anchor.member.replace('-', ' ')}`);
  if (connector?.kind === 'through-bolt' || connector?.kind === 'hold-down') {
    const { offset } = anchor;
    if (offset?.kind === 'known') words.push(`${formatInches(offset.value, units)} from inner edge`);
    else if (offset) words.push('place across the sill unknown: ask');
    else if (connector.kind === 'through-bolt') words.push('middle of the sill');
  }
  if (connector?.kind === 'side-plate' || connector?.kind === 'stepped-side-plate') {
    const { drop } = connector;
    words.push(drop ? `top ${formatInches(drop, units)} below top of sill` : 'top level with sill');
  }
  if (anchor.shim?.kind === 'known') words.push(`shim ${formatInches(anchor.shim.value, units)}`);
  else if (anchor.shim) words.push('shim: thickness unknown');
  if (anchor.bothSides) words.push('both sides');
  for (const added of anchor.withHardware ?? []) words.push(`with ${plainText(added.name)}`);
  return words;
}

function slideLines(on: Parameters<typeof cardWords>[0], { anchor, station }: PlacedAnchor): readonly CardLine[] {
  if ('kind' in anchor) return [{ text: 'slide: none known, ask', size: 'label' }];
  const room = slideOf(on.layout, on.wall, anchor);
  if (!room) return [{ text: 'slide: not known, ask', size: 'label' }];
  // What is printed never reaches further than what is true.
  const tape = on.units === 'metric' ? millimetre : sixteenth;
  const from = roundUpTo(minus(station, room.left), tape);
  const to = roundDownTo(plus(station, room.right), tape);
  if (to <= from) return [{ text: 'no slide: here only', size: 'label' }];
  return [{ text: `slide ${formatStation(from, on.units)} to ${formatStation(to, on.units)}`, size: 'label' }];
}

function drillingLines(
  { units }: Parameters<typeof cardWords>[0],
  { connector }: PlacedAnchor,
  drilling: Drilling | undefined,
): readonly CardLine[] {
  if (!drilling) {
    const fasteners = fastenersByMember(connector, units);
    return [{ text: `no hole in concrete; ${fasteners === '' ? 'fasteners not given' : fasteners}`, size: 'detail' }];
  }
  const { bit, depth, holes, parts, measuredFrom, way } = drilling;
  const count = holes > 1 ? `${holes} x ` : '';
  const bits = bit === undefined ? 'bit not given' : `${formatInches(bit, units)} bit`;
  const deep = depth === undefined ? 'depth UNKNOWN: ask' : `${formatInches(depth, units)} deep`;
  const first: CardLine = { text: `${count}${bits}, ${deep}`, size: 'label', heavy: true };
  if (way === 'into-face') {
    const plate = drilling.throughPlate;
    const lags = connector?.fasteners.filter(({ member }) => member !== 'concrete') ?? [];
    return [
      first,
      {
        text: `from face of concrete${plate === undefined ? '' : `; plate on: + ${formatInches(plate, units)}`}`,
        size: 'detail',
      },
      ...lags.map(
        (lag): CardLine => ({
          text: `${lag.member}: ${fastenerSize(lag, units)} ${lag.kind.replaceAll('-', ' ')}${lag.hole === undefined ? '' : `, pilot ${formatInches(lag.hole, units)}`}`,
          size: 'detail',
        }),
      ),
    ];
  }
  const sum = parts.map((part) => partInWords(part, units)).join(' + ');
  return [
    first,
    ...(measuredFrom === 'nailer'
      ? [
          { text: `= ${sum}`, size: 'detail' } as const,
          { text: 'from top of nailer: set it first', size: 'detail' } as const,
        ]
      : [{ text: `= ${sum}, from its top`, size: 'detail' } as const]),
  ];
}

function partInWords({ of, deep }: DepthPart, units: LengthUnits): string {
  const words = deep === undefined ? 'UNKNOWN' : formatInches(deep, units);
  return of === 'concrete' ? words : `${words} ${of}`;
}

function failsLines(on: Parameters<typeof cardWords>[0], placed: PlacedAnchor): readonly CardLine[] {
  const { anchor } = placed;
  if ('kind' in anchor) return [{ text: 'bad hole: stop, call', size: 'detail' }];
  const answer = holeFailsOf(on.layout, on.wall, anchor);
  return [
    { text: `bad hole: ${answer ? failsInWords(answer, anchor, on.units) : 'not known; stop, call'}`, size: 'detail' },
  ];
}

/** The next place, and with what, where that is another connector or another drill than the mark's own. */
function failsInWords(answer: HoleFails, { connector, rightAngleDrill }: NewAnchor, units: LengthUnits): string {
  const show = ({ station, use }: Spot): string => {
    const other = [
      ...(use.connector.name === connector?.name ? [] : [plainText(use.connector.name)]),
      ...(use.rightAngleDrill && !rightAngleDrill ? ['right-angle'] : []),
      ...(use.shim === undefined ? [] : [`shim ${formatInches(use.shim, units)}`]),
    ];
    return [formatStation(station, units), ...other].join(' ');
  };
  switch (answer.kind) {
    case 'spots': {
      const [first] = answer.spots;
      const near = answer.spots.filter(({ use }) => use.id === first?.use.id).slice(0, 2);
      return near.map(show).join(' or ');
    }
    case 'more-anchors':
      return `${answer.anchors.length} instead: ${answer.anchors.map(show).join(' and ')}`;
    case 'stop':
      return 'stop, call';
  }
}

function quantityOf<Value>(
  reading: { readonly kind: 'known'; readonly value: Value } | { readonly kind: 'unknown' } | undefined,
  print: (value: Value) => string,
): string | undefined {
  if (!reading) return undefined;
  return reading.kind === 'known' ? print(reading.value) : 'unknown';
}

/** Of each connector once for the whole strip: `bolt-half: 1/2" x 8-1/2" adhesive rod, washer 3" x 3"`. */
export function connectorInWords({ connector, anchor }: PlacedAnchor, units: LengthUnits): string | undefined {
  const fastener = connector?.fasteners.find(({ member }) => member === 'concrete');
  if (!connector || !fastener) return undefined;
  const washer = connector.kind === 'through-bolt' ? washerInWords(connector, anchor.withHardware, units) : '';
  const words = [
    `${fastenerSize(fastener, units)} ${fastener.kind.replaceAll('-', ' ')}`,
    ...(washer === '' ? [] : [`washer ${washer}`]),
    ...connector.tools.map(plainText),
  ];
  return `${plainText(connector.name)}: ${words.join('; ')}`;
}
