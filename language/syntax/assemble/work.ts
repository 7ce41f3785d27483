import type { Connector } from '../../domain/hardware/connector.ts';
import { concreteAnchorKinds } from '../../domain/hardware/fastener-kinds.ts';
import type { AddedHardware, Panel, Tie } from '../../domain/model/design.ts';
import { bayCentre, baysBetween, joistsOnWall, namesBay } from '../../domain/model/joists.ts';
import type { AngleRun, NameReference, NewAnchor, Wall } from '../../domain/model/layout.ts';
import { knownValue } from '../../domain/model/reading.ts';
import type { SourceSpan } from '../../domain/model/source.ts';
import { nothing } from '../../domain/spare-room.ts';
import type { Length } from '../../domain/units/length.ts';
import { plus, zero } from '../../domain/units/length.ts';
import type { AnglesDraft, NewAnchorDraft, NewWorkWords, TieDraft, WorkDraft } from '../drafts.ts';
import { overTypicalPanel, withTypicalTags } from './panel-words.ts';
import { asBuiltOf } from './record.ts';
import type { StationFinder } from './stations.ts';
import type { Say, ThingNamer, WallInputs } from './wall.ts';
import { nearestName } from './wall.ts';

/** Where new work comes to stand. */
export interface WorkSite {
  readonly inputs: Pick<WallInputs, 'works' | 'typical' | 'connectors' | 'record'>;
  readonly wall: Parameters<typeof joistsOnWall>[0];
  readonly finder: StationFinder;
  readonly named: ThingNamer;
  readonly say: Say;
}

/** The pieces of new work on a wall that have marks, each kind in order of station. */
export function newWorkOn(site: WorkSite): Pick<Wall, 'anchors' | 'angles' | 'panels' | 'ties'> {
  const { works } = site.inputs;
  sayMisplacedOnWall(site);
  return {
    anchors: works
      .flatMap((work) => work.anchors)
      .map((each) => newAnchor(each, site))
      .sort(byStation),
    angles: works.flatMap((work) => work.angles).map((each) => angleRun(each, site)),
    panels: panelsOf(site).sort((a, b) => place(a.stretch?.from) - place(b.stretch?.from)),
    ties: works
      .flatMap((work) => work.ties)
      .map((each) => newTie(each, site))
      .sort(byStation),
  };
}

const place = (station: Length | undefined): number => station ?? Number.MAX_SAFE_INTEGER;
const byStation = (a: { readonly station: Length | undefined }, b: { readonly station: Length | undefined }): number =>
  place(a.station) - place(b.station);

function newAnchor(draft: NewAnchorDraft, site: WorkSite): NewAnchor {
  return {
    ...site.named('anchor', draft),
    ...connectorAt(draft, site),
    rightAngleDrill: draft.rightAngleDrill,
  };
}

function newTie(draft: TieDraft, site: WorkSite): Tie {
  return {
    ...site.named(draft.kind, draft),
    ...connectorAt(draft, site),
    kind: draft.kind,
    member: draft.member,
    ...(draft.rightAngleDrill ? { rightAngleDrill: true } : {}),
  };
}

/** What anchors and ties have alike: a connector at a station, planned and as built. */
function connectorAt(draft: NewAnchorDraft | TieDraft, site: WorkSite) {
  const station = draft.at ? site.finder.station(draft.at) : undefined;
  const asBuilt = asBuiltOf(draft.name.name, station, site.inputs.record, site.finder);
  return {
    name: draft.name.name,
    nameSource: draft.name.source,
    connectorName: draft.connector?.name,
    connectorSource: draft.connector?.source,
    connector: connectorOf(draft.connector, site),
    station,
    ...(asBuilt ? { asBuilt } : {}),
    stationSource: draft.at?.source,
    embed: draft.embed,
    offset: draft.offset,
    shim: draft.shim,
    ...(draft.bothSides ? { bothSides: true } : {}),
    ...withHardwareOf(draft, site),
    proposed: draft.proposed,
    state: stateOfMark(draft.name, site),
  };
}

function panelsOf(site: WorkSite): Panel[] {
  const { typical, works } = site.inputs;
  // Behind a panel whose end is not known, one written `to X` begins nobody knows where.
  let previousEnd: Length | undefined = zero;
  return works
    .flatMap((work) => work.panels)
    .map((draft): Panel => {
      const stretch = draft.span && site.finder.stretch(draft.span, previousEnd);
      previousEnd = stretch?.to;
      if (stretch && stretch.from === stretch.to) {
        site.say({
          code: 'wrong-kind',
          layer: 'design',
          message: `Panel ${draft.name.name} ends where it begins; write the stretch of wall that it covers.`,
          span: draft.span?.source ?? draft.source,
        });
      }
      const words = overTypicalPanel(typical?.panel ?? {}, draft.words);
      return {
        ...site.named('panel', draft),
        tags: withTypicalTags(typical?.panelTags, draft.tags),
        name: draft.name.name,
        nameSource: draft.name.source,
        stretch,
        stretchSource: draft.span?.source ?? draft.source,
        board: words.board,
        nails: words.nails,
        nailers: words.nailers,
        ventHoles: words.ventHoles,
        flatBlock: words.flatBlock?.size,
        ...(words.flatBlock ? { flatBlocked: true } : {}),
        height: words.height,
        proposed: draft.proposed,
        state: stateOfMark(draft.name, site),
      };
    });
}

/** What the record says of a mark; without an event it is planned. */
export function stateOfMark(
  mark: NameReference,
  { inputs }: { readonly inputs: Pick<WallInputs, 'record'> },
): NewAnchor['state'] {
  return inputs.record.states.get(mark.name.toLowerCase()) ?? 'planned';
}

type Hardware = { readonly inputs: Pick<WallInputs, 'connectors'>; readonly say: Say };

/** The connector of that name; `undefined`, and told, where nothing in sight has it. */
export function connectorOf(reference: NameReference | undefined, { inputs, say }: Hardware): Connector | undefined {
  if (!reference) return undefined;
  const connector = inputs.connectors.get(reference.name.toLowerCase());
  if (!connector) {
    say({
      code: 'unresolved-name',
      layer: 'design',
      message: `No connector \`${reference.name}\` in this file or the files it uses.`,
      span: reference.source,
      replacements: nearestName(
        reference,
        [...inputs.connectors.values()].map((each) => each.name),
      ),
    });
  }
  return connector;
}

/** `with X`: a piece from the hardware file, or a kind of fastener that the trade or a connector in sight has a word for. */
export function withHardwareOf(
  { withHardware }: Pick<NewWorkWords, 'withHardware'>,
  { inputs, say }: Hardware,
): { readonly withHardware?: readonly AddedHardware[] } {
  if (withHardware.length === 0) return {};
  return {
    withHardware: withHardware.map((reference): AddedHardware => {
      const key = reference.name.toLowerCase();
      const connector = inputs.connectors.get(key);
      const kinds = connector ? [] : fastenerKinds(inputs.connectors);
      const isKind = kinds.some((kind) => kind.toLowerCase() === key);
      if (!connector && !isKind) {
        say({
          code: 'unresolved-name',
          layer: 'design',
          message: `\`with ${reference.name}\`: no connector of that name in sight, nor a kind of anchor such as \`wedge-anchor\`.`,
          span: reference.source,
          replacements: nearestName(reference, [...[...inputs.connectors.values()].map((each) => each.name), ...kinds]),
        });
      }
      return { ...reference, connector, fastenerKind: isKind ? key : undefined };
    }),
  };
}

function fastenerKinds(connectors: ReadonlyMap<string, Connector>): readonly string[] {
  const inSight = [...connectors.values()].flatMap((each) =>
    each.fasteners.filter((fastener) => fastener.member === 'concrete').map((fastener) => fastener.kind),
  );
  return [...new Set([...concreteAnchorKinds, ...inSight])];
}

function angleRun(draft: AnglesDraft, site: WorkSite): AngleRun {
  const { stations, lacking } = angleStations(draft, site);
  return {
    ...site.named('angles', draft),
    name: draft.name.name,
    connectorName: draft.connector.name,
    connectorSource: draft.connector.source,
    connector: connectorOf(draft.connector, site),
    // Sorted in place a list of numbers stays one, which takes a third of the memory of any other.
    stations: stations.slice().sort((a, b) => a - b),
    lacking,
    ...(draft.shim ? { shim: draft.shim } : {}),
    ...(draft.proposed ? { proposed: true } : {}),
    ...withHardwareOf(draft, site),
  };
}

/** More angles than any wall takes. */
const MOST_ANGLES = 2000;

function angleStations(
  draft: AnglesDraft,
  { wall, finder, say }: WorkSite,
): { readonly stations: readonly Length[]; readonly lacking: readonly string[] } {
  const { placing } = draft;
  if (placing.kind === 'at')
    return { stations: placing.stations.flatMap((each) => finder.station(each) ?? []), lacking: nothing };
  const stretch = draft.span
    ? finder.stretch(draft.span, zero)
    : wall.length === undefined
      ? undefined
      : { from: zero, to: wall.length };
  if (!stretch) return { stations: [], lacking: [`stretch of angles ${draft.name.name}`] };
  if (placing.kind === 'spaced') {
    const spaced = knownValue(placing.spaced);
    if (spaced === undefined) return { stations: [], lacking: [`spacing of angles ${draft.name.name}`] };
    const stations: Length[] = [];
    if (spaced > 0 && (stretch.to - stretch.from) / spaced <= MOST_ANGLES) {
      for (let station = stretch.from; station <= stretch.to; station = plus(station, spaced)) stations.push(station);
    } else {
      say({
        code: 'wrong-kind',
        layer: 'design',
        message: `Angles ${draft.name.name} cannot stand that close, so none is counted; write the spacing that you mean.`,
        span: placing.spaced.source,
      });
    }
    return { stations, lacking: nothing };
  }
  const { joists, lacking } = joistsOnWall(wall);
  const wanted = namesBay(placing.bays);
  const stations = baysBetween(joists)
    .filter((bay) => wanted(bay.number))
    .map(bayCentre)
    .filter((centre) => centre >= stretch.from && centre <= stretch.to);
  return { stations, lacking };
}

function sayMisplacedOnWall({ inputs, wall, say }: WorkSite): void {
  for (const { postHardware } of inputs.works) {
    for (const each of postHardware) {
      sayMisplaced(
        `${each.role} ${each.name.name} belongs on a post, and wall ${wall.name} is no girder`,
        each.source,
        say,
      );
    }
  }
}

/** What stands on walls only. */
export function sayMisplacedOnGirder(works: readonly WorkDraft[], girder: string, say: Say): void {
  for (const work of works) {
    const placed: readonly (readonly [string, SourceSpan])[] = [
      ...work.anchors.map((each) => [`Anchor ${each.name.name}`, each.source] as const),
      ...work.angles.map((each) => [`Angles ${each.name.name}`, each.source] as const),
      ...work.panels.map((each) => [`Panel ${each.name.name}`, each.source] as const),
      ...work.ties.map((each) => [`The ${each.kind} ${each.name.name}`, each.source] as const),
      ...work.studs.map((each) => ['A new stud', each.source] as const),
      ...work.blocking.map((each) => ['New blocking', each.source] as const),
    ];
    const told = new Set<SourceSpan>();
    for (const [what, source] of placed) {
      if (told.has(source)) continue;
      told.add(source);
      sayMisplaced(`${what} belongs on a wall, and ${girder} is a girder`, source, say);
    }
  }
}

function sayMisplaced(words: string, span: SourceSpan, say: Say): void {
  say({
    code: 'wrong-kind',
    layer: 'design',
    message: `${words[0]?.toUpperCase()}${words.slice(1)}; it is left out. Move the line to the \`work on\` where it belongs.`,
    span,
  });
}
