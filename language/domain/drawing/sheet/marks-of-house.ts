import type { Layout, ThingId } from '../../model/layout.ts';
import type { Length } from '../../units/length.ts';
import { drawnStation, type ShownMark, shownAnchor, shownHardware } from '../placed-mark.ts';

/** A wall or a girder with the marks of its new work, in order of station; those without a place last. */
export interface MarkOwner {
  readonly id: ThingId;
  readonly kind: 'wall' | 'girder';
  readonly name: string;
  readonly label: string | undefined;
  readonly noWork: string | undefined;
  readonly marks: readonly OwnedMark[];
}
export interface OwnedMark extends ShownMark {
  readonly placed: boolean;
}

export const isGirder = ({ kind }: MarkOwner): boolean => kind === 'girder';

export function marksOfHouse(layout: Layout): readonly MarkOwner[] {
  return [
    ...layout.walls.map(
      (wall): MarkOwner => ({
        id: wall.id,
        kind: 'wall',
        name: wall.name,
        label: wall.label,
        noWork: wall.noWork?.reason,
        marks: inOrder(
          [...wall.anchors, ...wall.ties].map((mark) => ({
            station: drawnStation(mark),
            mark: shownAnchor(mark, layout),
          })),
        ),
      }),
    ),
    ...layout.girders.map(
      (girder): MarkOwner => ({
        id: girder.id,
        kind: 'girder',
        name: girder.name,
        label: girder.label,
        noWork: girder.noWork?.reason,
        marks: inOrder(
          girder.posts.flatMap((post) =>
            post.hardware.map((piece) => ({
              station: post.station,
              mark: shownHardware(piece, layout),
            })),
          ),
        ),
      }),
    ),
  ];
}

function inOrder(
  marks: readonly { readonly station: Length | undefined; readonly mark: ShownMark }[],
): readonly OwnedMark[] {
  const far = Number.POSITIVE_INFINITY;
  return [...marks]
    .sort((a, b) => {
      const [one, other] = [a.station ?? far, b.station ?? far];
      return one === other ? 0 : one - other;
    })
    .map(({ station, mark }) => ({ ...mark, placed: station !== undefined }));
}
