import type { Connector, FitSubject } from '../../hardware/connector.ts';
import type { Girder, Layout, LengthUnits, Post, PostHardware } from '../../model/layout.ts';
import { knownValue } from '../../model/reading.ts';
import type { SourceSpan } from '../../model/source.ts';
import type { Checked } from '../../rules/checked.ts';
import type { Length } from '../../units/length.ts';
import { countOf } from '../text-layout.ts';
import { stateOf } from './built-columns.ts';
import {
  type FindLine,
  findingsColumn,
  placeColumns,
  type ScheduleColumn,
  type ScheduleTable,
  stationColumns,
  tableOf,
} from './table.ts';
import { heightInWords, joined, readingInWords, sizeInWords } from './words.ts';

interface PostRow {
  readonly thing: string;
  readonly wall: string;
  readonly post: Post;
  readonly station: Length | undefined;
  readonly caps: readonly PostPiece[];
  readonly bases: readonly PostPiece[];
  readonly source: SourceSpan;
  readonly findings: number;
}
interface PostPiece {
  readonly mark: string;
  readonly words: string;
  readonly fits: string;
}

/** Posts under girders: what was found at head and foot, what is put there, and whether it fits. */
export function postTable(
  layout: Layout,
  checked: Checked,
  findings: ReadonlyMap<string, number>,
  findLine: FindLine,
): ScheduleTable {
  const { units } = layout.title;
  const rows = layout.girders.flatMap((girder) =>
    girder.posts.map((post): PostRow => {
      const pieces = (role: PostHardware['role']): readonly PostPiece[] =>
        post.hardware
          .filter((piece) => piece.role === role)
          .map((piece) => ({
            mark: piece.name,
            words: hardwareInWords(piece, units),
            fits: fitOf(girder, post, piece, checked),
          }));
      const own = findings.get(post.id) ?? 0;
      return {
        thing: post.id,
        wall: girder.name,
        post,
        station: post.station,
        caps: pieces('cap'),
        bases: pieces('base'),
        source: post.source,
        findings: post.hardware.reduce((sum, { id }) => sum + (findings.get(id) ?? 0), own),
      };
    }),
  );
  const count = (of: (row: PostRow) => readonly PostPiece[]): number =>
    rows.reduce((sum, row) => sum + of(row).length, 0);
  return tableOf(
    {
      of: 'posts',
      title: 'Post schedule',
      caption: 'Posts',
      notes: [
        `${countOf(rows.length, 'post')}; ${countOf(
          count(({ caps }) => caps),
          'new cap',
        )}, ${countOf(
          count(({ bases }) => bases),
          'new base',
        )}.`,
        'Stations run from the first end of the girder. "Fits" compares the widths that the hardware file gives, and no more.',
      ],
    },
    columnsOf(units, findLine),
    rows,
  );
}

function columnsOf(units: LengthUnits, findLine: FindLine): readonly ScheduleColumn<PostRow>[] {
  const found = (key: 'cap' | 'base' | 'pier' | 'footing') => ({
    key: `${key}Found`,
    heading: `${key.charAt(0).toUpperCase()}${key.slice(1)} found`,
    text: ({ post }: PostRow) => (post.found.get(key) ?? []).join(' ').replaceAll('-', ' '),
  });
  const added = (
    key: 'cap' | 'base',
    of: (row: PostRow) => readonly PostPiece[],
  ): readonly ScheduleColumn<PostRow>[] => [
    {
      key: `${key}New`,
      heading: `New ${key}`,
      text: (row) =>
        of(row)
          .map(({ mark, words }) => `${mark} ${words}`)
          .join('; '),
      json: (row) => of(row).map(({ mark, words, fits }) => ({ mark, words, fits })),
    },
    {
      key: `${key}Fits`,
      heading: 'Fits',
      only: 'text',
      text: (row) =>
        of(row)
          .map(({ fits }) => fits)
          .join('; '),
    },
    {
      key: `${key}Fits`,
      only: 'csv',
      text: (row) =>
        of(row)
          .map(({ fits }) => fits)
          .join('; '),
    },
  ];
  return [
    { key: 'post', heading: 'Post', text: ({ post }) => post.name ?? '' },
    { key: 'girder', heading: 'Girder', text: ({ wall }) => wall },
    ...stationColumns<PostRow>({ key: 'station', heading: 'Station' }, units, (row) => row.station, 'no place'),
    { key: 'size', heading: 'Size', text: ({ post }) => sizeInWords(post.size, units) },
    {
      key: 'height',
      heading: 'Height',
      numeric: true,
      text: ({ post }) => heightInWords(post.height, units),
    },
    found('cap'),
    ...added('cap', ({ caps }) => caps),
    found('base'),
    ...added('base', ({ bases }) => bases),
    found('pier'),
    found('footing'),
    { key: 'work', heading: 'Work', text: ({ post }) => workOn(post, units) },
    ...placeColumns<PostRow>(findLine),
    findingsColumn<PostRow>(),
  ];
}

function hardwareInWords(piece: PostHardware, units: LengthUnits): string {
  const state = stateOf({ state: piece.state ?? 'planned', proposed: piece.proposed === true });
  return joined([
    piece.connector?.name ?? piece.connectorName,
    piece.bothSides ? 'both sides' : '',
    piece.shim ? `shim ${readingInWords(piece.shim, units)}` : '',
    state === 'set by hand' ? '' : state,
  ]);
}

function workOn({ remedied, shored, newPad }: Post, units: LengthUnits): string {
  const post =
    remedied?.how === 'replaced'
      ? `replace by ${sizeInWords(remedied.size, units) || 'size not said'}`
      : remedied
        ? 'take out'
        : '';
  return joined([shored ? 'shore' : '', post, newPad ? 'new footing' : '']);
}

/** What the checks say of it, else its widths against what the hardware takes. */
function fitOf(girder: Girder, post: Post, piece: PostHardware, checked: Checked): string {
  const { connector } = piece;
  if (!connector) return 'connector not known';
  const clash = checked.findings.find(({ rule, thing }) => thing === piece.id && rule.startsWith('post/'));
  if (clash) return clash.accepted === undefined ? 'clash' : 'clash, accepted';
  const size = post.remedied?.how === 'replaced' ? post.remedied.size : post.size;
  const answers = [
    widthAnswer(connector, 'post-width', knownValue(size?.wide), 'post'),
    ...(piece.role === 'cap' ? [widthAnswer(connector, 'beam-width', knownValue(girder.size?.thick), 'girder')] : []),
  ].filter((answer) => answer !== '');
  const shim = piece.shim?.kind === 'unknown' ? ['shim not known'] : [];
  return [...new Set([...answers.filter((answer) => answer !== 'yes'), ...shim])].join(', ') || 'yes';
}

function widthAnswer(connector: Connector, subject: FitSubject, width: Length | undefined, what: string): string {
  const asked = connector.fits.filter((each) => each.subject === subject);
  if (asked.length === 0) return `no ${what} width given`;
  if (width === undefined) return `${what} width not known`;
  const isIn = asked.every(
    ({ least, most }) => (least === undefined || width >= least) && (most === undefined || width <= most),
  );
  return isIn ? 'yes' : `clash: ${what} width`;
}
