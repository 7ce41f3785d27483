import type { Analysis } from '../../language/analysis.ts';
import type { FileId } from '../../language/domain/model/source.ts';
import { type CutBlock, cutBlocks } from '../../language/syntax/cut.ts';
import { type NameUse, namesInBlock } from '../../language/syntax/names.ts';
import type { ServerContext } from './context.ts';

/** A name where it stands in a file. */
export interface NamePlace extends NameUse {
  readonly file: FileId;
}

/** A declared name with all that refers to it, in every open house that uses its file. */
export interface SharedName {
  readonly declaration: NamePlace;
  readonly references: readonly NamePlace[];
}

export function nameAt(context: ServerContext, uri: FileId, offset: number): NamePlace | undefined {
  const analysis = context.analyses.of(uri);
  return analysis && namesInFile(analysis, uri).find(({ start, end }) => start <= offset && offset <= end);
}

/** `undefined` where no file in sight declares the name: shipped hardware and rule sets have no text to go to. */
export function sharedName(context: ServerContext, at: NamePlace): SharedName | undefined {
  const places = placesAround(context, at.file);
  const declaration =
    at.role === 'declares' ? at : places.find((each) => each.role === 'declares' && means(at, each, places));
  if (!declaration) return undefined;
  return {
    declaration,
    references: places.filter((each) => each.role === 'refers' && means(each, declaration, places)),
  };
}

/** Declarations of the same kind that a new name would clash with. */
export function rivals(context: ServerContext, { declaration }: SharedName, name: string): readonly NamePlace[] {
  return placesAround(context, declaration.file).filter(
    (each) =>
      each.role === 'declares' &&
      each.kinds[0] === declaration.kinds[0] &&
      isSame(each.name, name) &&
      isSame(each.owner ?? '', declaration.owner ?? '') &&
      !(each.file === declaration.file && each.start === declaration.start),
  );
}

function means(reference: NamePlace, declaration: NamePlace, places: readonly NamePlace[]): boolean {
  const [kind] = declaration.kinds;
  if (kind === undefined || !reference.kinds.includes(kind) || !isSame(reference.name, declaration.name)) return false;
  if (kind !== 'thing') return true;
  if (reference.owner !== undefined) return isSame(reference.owner, declaration.owner ?? '');
  // Without its wall the name of a thing must be the only one of its kind in the house.
  const called = places.filter(
    (each) => each.role === 'declares' && each.kinds[0] === 'thing' && isSame(each.name, declaration.name),
  );
  return called.length === 1;
}

function isSame(a: string, b: string): boolean {
  return a.toLowerCase() === b.toLowerCase();
}

/** Of every file that belongs to an open house with this file in it. */
function placesAround(context: ServerContext, file: FileId): readonly NamePlace[] {
  const roots = [file, ...context.documents.all().map((document) => document.uri)];
  const seen = new Set<FileId>();
  const places: NamePlace[] = [];
  for (const root of new Set(roots)) {
    const analysis = context.analyses.of(root);
    if (!analysis?.files.includes(file)) continue;
    for (const each of analysis.files) {
      if (seen.has(each)) continue;
      seen.add(each);
      for (const place of namesInFile(analysis, each)) places.push(place);
    }
  }
  return places;
}

/** Names of blocks by file and text: a block is read again only when its own text changed. */
const kept = new Map<FileId, ReadonlyMap<string, readonly NameUse[]>>();

export function namesInFile(analysis: Analysis, file: FileId): readonly NamePlace[] {
  const text = analysis.textOf(file);
  if (text === undefined) return [];
  const before = kept.get(file);
  const blocks = new Map<string, readonly NameUse[]>();
  const places = cutBlocks(text).flatMap((cut: CutBlock) => {
    const names = before?.get(cut.text) ?? blocks.get(cut.text) ?? namesInBlock(cut);
    blocks.set(cut.text, names);
    return names.map((use) => ({ ...use, file, start: cut.start + use.start, end: cut.start + use.end }));
  });
  kept.set(file, blocks);
  return places;
}

export function forgetNames(file: FileId): void {
  kept.delete(file);
}
