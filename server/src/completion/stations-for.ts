import { type CompletionItem, CompletionItemKind } from 'vscode-languageserver';
import type { Analysis } from '../../../language/analysis.ts';
import type { Wall } from '../../../language/domain/model/layout.ts';
import { bestStations } from '../../../language/domain/place/best-stations.ts';
import { formatStation } from '../../../language/domain/units/format-length.ts';
import type { Follower } from '../../../language/syntax/what-may-follow.ts';
import type { Caret } from './caret.ts';

/** Where the anchor that is being typed may stand: board by board from the left, on each the most wanted place first. */
export function stationsFor(
  followers: readonly Follower[],
  { layout }: Analysis,
  caret: Caret,
): readonly CompletionItem[] {
  const { wall, typed } = caret;
  const isStation = followers.some(
    ({ token, path }) =>
      token === 'LENGTH' && path.some(({ rule, property }) => rule === 'NewAnchor' && property === 'at'),
  );
  // `anchor A-5 bolt-half at`: the third word names the connector.
  const word = typed.tokens[2];
  const name = word?.typed.replace(/^["“]|["”]$/g, '');
  const connector = name === undefined ? undefined : layout.connectors.get(name.toLowerCase());
  if (!isStation || !wall || !connector) return [];
  const others = withoutMark(wall, typed.tokens[1]?.typed);
  return others.pieces
    .flatMap((piece) =>
      bestStations(layout, others, piece, connector).map((station) => ({ station, piece: piece.name })),
    )
    .slice(0, mostStations)
    .map(({ station, piece }, index) => ({
      label: formatStation(station, layout.title.units),
      detail: `clear on ${piece}`,
      kind: CompletionItemKind.Value,
      sortText: `0${String(index).padStart(4, '0')}`,
    }));
}

const mostStations = 12;

/** The anchor on the caret's own line takes no place yet. */
function withoutMark(wall: Wall, mark: string | undefined): Wall {
  return { ...wall, anchors: wall.anchors.filter(({ name }) => name.toLowerCase() !== mark?.toLowerCase()) };
}
