import type { Girder, Layout, ThingId, Wall } from '../../language/domain/model/layout.ts';
import type { UnderCursor } from './things.ts';

/** What has an elevation. */
export type ElevationSubject = { readonly id: ThingId; readonly name: string } & (
  | { readonly kind: 'wall'; readonly of: Wall }
  | { readonly kind: 'girder'; readonly of: Girder }
);

/** Walls, then girders, as the text has them. */
export function subjectsOf({ walls, girders }: Pick<Layout, 'walls' | 'girders'>): readonly ElevationSubject[] {
  return [
    ...walls.map((of) => ({ kind: 'wall' as const, of, id: of.id, name: nameOf('Wall', of) })),
    ...girders.map((of) => ({ kind: 'girder' as const, of, id: of.id, name: nameOf('Girder', of) })),
  ];
}

/** That of the cursor, else the one before, else the first. */
export function subjectInSight(
  cursor: UnderCursor | undefined,
  layout: Pick<Layout, 'walls' | 'girders'>,
  before: ThingId | undefined,
): ElevationSubject | undefined {
  const subjects = subjectsOf(layout);
  const here = cursor?.girder?.id ?? cursor?.wall?.id;
  return (
    subjects.find(({ id }) => id === here) ?? subjects.find(({ id }) => id === before) ?? subjects.find(() => true)
  );
}

/** A finding about a wall names it; one about a post or what is put on it may name that alone. */
export function isAbout(
  subject: ElevationSubject,
  entry: { readonly wall: string | undefined; readonly thing?: ThingId | undefined },
): boolean {
  if (subject.kind === 'wall') return entry.wall === subject.of.name;
  const { id, name, posts } = subject.of;
  if (entry.wall === name) return true;
  return [id, ...posts.flatMap((post) => [post.id, ...post.hardware.map((piece) => piece.id)])].some(
    (own) => own === entry.thing,
  );
}

function nameOf(word: string, { name, label }: { readonly name: string; readonly label?: string | undefined }): string {
  return [word, name, label].filter(Boolean).join(' ');
}
