import { thingWords } from '../../fit/thing-words.ts';
import type { Remedy, ReplaceWood } from '../../model/design.ts';
import type {
  FoundAnchor,
  Girder,
  Layout,
  LengthUnits,
  Post,
  SillPiece,
  Stretch,
  Tags,
  ThingId,
  Wall,
} from '../../model/layout.ts';
import type { SourceSpan } from '../../model/source.ts';
import type { Length } from '../../units/length.ts';
import { countOf } from '../text-layout.ts';
import {
  type FindLine,
  placeColumns,
  type ScheduleColumn,
  type ScheduleTable,
  stationColumns,
  tableOf,
} from './table.ts';
import { joined, readingInWords, sizeInWords } from './words.ts';

interface RemedyRow {
  readonly thing: string | undefined;
  readonly wall: string;
  readonly verb: Remedy['verb'] | 'no work';
  readonly on: string;
  readonly found: string;
  readonly place: Stretch | undefined;
  readonly put: string;
  readonly byLicensedTrade: boolean;
  readonly tags: Tags;
  readonly reason: string;
  readonly source: SourceSpan;
}

/** What is done to what was found, and where it is left alone on purpose. */
export function remedyTable(layout: Layout, findLine: FindLine): ScheduleTable {
  const { units } = layout.title;
  const rows = [
    ...layout.walls.flatMap((wall) => ofOwner(wall, wall.remedies, foundOn(wall), units)),
    ...layout.girders.flatMap((girder) => ofOwner(girder, girder.remedies ?? [], postsOf(girder), units)),
  ];
  const licensed = rows.filter((row) => row.byLicensedTrade).length;
  return tableOf(
    {
      of: 'remedies',
      title: 'Work on what was found',
      caption: 'Work on what was found',
      notes: [
        `${countOf(rows.filter(({ verb }) => verb !== 'no work').length, 'line')} of work on what was found.`,
        ...(licensed > 0
          ? [`${countOf(licensed, 'line')} for a licensed trade or the utility: gas and power, and what may burn gas.`]
          : []),
      ],
    },
    columnsOf(units, findLine),
    rows,
  );
}

interface Found {
  readonly words: string;
  readonly name: string | undefined;
  readonly place: Stretch | undefined;
}

function ofOwner(
  owner: Wall | Girder,
  remedies: readonly Remedy[],
  found: (id: ThingId | undefined, units: LengthUnits) => Found | undefined,
  units: LengthUnits,
): readonly RemedyRow[] {
  const rows = remedies.map((remedy): RemedyRow => {
    const target = found(remedy.target, units);
    const isWood = 'what' in remedy;
    const name = isWood ? target?.name : remedy.on.name;
    return {
      thing: remedy.target,
      wall: owner.name,
      verb: remedy.verb,
      on: joined([isWood ? remedy.what : '', name ?? ''], ' '),
      found: target?.words ?? (isWood ? '' : 'not found'),
      place: (isWood ? remedy.stretch : undefined) ?? target?.place,
      put: isWood
        ? woodInWords(remedy, units)
        : remedy.verb === 'washer'
          ? (remedy.connector?.name ?? remedy.connectorName ?? 'none named')
          : '',
      byLicensedTrade: !isWood && remedy.byLicensedTrade === true,
      tags: remedy.tags,
      reason: '',
      source: remedy.source,
    };
  });
  const { noWork } = owner;
  if (!noWork) return rows;
  const left: RemedyRow = {
    thing: owner.id,
    wall: owner.name,
    verb: 'no work',
    on: '',
    found: '',
    place: undefined,
    put: '',
    byLicensedTrade: false,
    tags: noWork.tags ?? { notes: [], photos: [], by: undefined, dated: undefined },
    reason: noWork.reason,
    source: noWork.source,
  };
  return [...rows, left];
}

function woodInWords({ verb, size, treated, species }: ReplaceWood, units: LengthUnits): string {
  const wood = joined([
    sizeInWords(size, units) || 'size as found',
    treated === undefined ? '' : treated ? 'treated' : 'untreated',
    species ?? '',
  ]);
  return verb === 'sister' ? `${wood}, beside it` : wood;
}

/** Things of a wall by id, as the survey has them. */
function foundOn(wall: Wall): (id: ThingId | undefined, units: LengthUnits) => Found | undefined {
  return (id, units) => {
    if (id === undefined) return undefined;
    const thing = [...wall.obstructions, ...wall.defects].find((each) => each.id === id);
    if (thing)
      return { words: thingWords({ ...thing, stretch: undefined }, units), name: thing.name, place: thing.stretch };
    const anchor = wall.foundAnchors.find((each) => each.id === id);
    if (anchor) return { words: anchorInWords(anchor, units), name: anchor.name, place: pointAt(anchor.station) };
    const piece = [...(wall.foundPieces ?? []), ...wall.pieces].find((each) => each.id === id);
    if (piece) return { words: pieceInWords(piece, units), name: piece.name, place: piece };
    return undefined;
  };
}

const postsOf =
  (girder: Girder) =>
  (id: ThingId | undefined, units: LengthUnits): Found | undefined => {
    const post = girder.posts.find((each) => each.id === id);
    return post && { words: postInWords(post, units), name: post.name, place: pointAt(post.station) };
  };

/** The design's words among the states are what this very line brings about. */
const BY_DESIGN: ReadonlySet<string> = new Set(['to-be-removed', 'abandoned']);

function anchorInWords({ size, kind, states, credit }: FoundAnchor, units: LengthUnits): string {
  return joined([
    joined([readingInWords(size, units), kind ?? '', 'anchor'], ' '),
    states
      .filter((state) => !BY_DESIGN.has(state))
      .join(' ')
      .replaceAll('-', ' '),
    `credit ${credit}`,
  ]);
}

const pieceInWords = ({ size, conditions }: SillPiece, units: LengthUnits): string =>
  joined([sizeInWords(size, units), conditions.join(' ')]);

const postInWords = ({ size, found }: Post, units: LengthUnits): string =>
  joined([
    sizeInWords(size, units),
    ...[...found].map(([part, words]) => `${part} ${words.join(' ')}`.replaceAll('-', ' ')),
  ]);

const pointAt = (station: Length | undefined): Stretch | undefined =>
  station === undefined ? undefined : { from: station, to: station };

function columnsOf(units: LengthUnits, findLine: FindLine): readonly ScheduleColumn<RemedyRow>[] {
  return [
    { key: 'wall', heading: 'Wall', text: (row) => row.wall },
    { key: 'work', heading: 'Work', text: (row) => row.verb },
    { key: 'on', heading: 'On', text: (row) => row.on },
    ...stationColumns<RemedyRow>({ key: 'from', heading: 'From' }, units, ({ place }) => place?.from),
    ...stationColumns<RemedyRow>({ key: 'to', heading: 'To' }, units, ({ place }) => place?.to),
    { key: 'found', heading: 'Found', text: (row) => row.found },
    { key: 'put', heading: 'Put in', text: (row) => row.put },
    {
      key: 'by',
      heading: 'By',
      text: ({ byLicensedTrade, tags }) => joined([byLicensedTrade ? 'licensed trade or utility' : '', tags.by ?? '']),
    },
    { key: 'notes', heading: 'Notes', text: ({ reason, tags }) => joined([reason, ...tags.notes], '; ') },
    ...placeColumns<RemedyRow>(findLine),
  ];
}
