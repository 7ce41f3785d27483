import type { SisterBoard } from '../../domain/model/design.ts';
import type { NameReference, SillPiece, Stretch, UnplacedSill } from '../../domain/model/layout.ts';
import { knownValue, profileAt } from '../../domain/model/reading.ts';
import type { SourceSpan } from '../../domain/model/source.ts';
import { nothing } from '../../domain/spare-room.ts';
import type { Length } from '../../domain/units/length.ts';
import { half, minus, plus, zero } from '../../domain/units/length.ts';
import type { ReplacementDraft, SillWords, TypicalDraft, VaryingDraft, WallDraft, WorkDraft } from '../drafts.ts';
import type { StationFinder } from './stations.ts';
import type { MergedStretch } from './stretches.ts';
import { mergeStretches, overlapOf, profileOver, withReadings } from './stretches.ts';
import type { Say, ThingNamer } from './wall.ts';
import { createThingNamer, nearestName } from './wall.ts';

interface Board extends MergedStretch<SillWords> {
  readonly layer: SillPiece['layer'];
  readonly sistered?: readonly SisterBoard[];
}

export interface SillOfWall {
  readonly pieces: readonly SillPiece[];
  readonly unplaced: readonly UnplacedSill[];
  /** Where new boards came to lie; one without a legible place is not in it. */
  readonly sillPlaces: ReadonlyMap<ReplacementDraft, Stretch>;
  /** Boards as surveyed, where the design puts others in their place. */
  readonly foundPieces: readonly SillPiece[] | undefined;
}

/**
 * The boards of a wall's sill, each from true end to true end: as surveyed, cut by `break at`, and with what the design replaces.
 * A lap gives two boards that overlap; a chimney or a door leaves a hole between two.
 */
export function sillPieces(input: {
  readonly draft: WallDraft;
  readonly typical: TypicalDraft | undefined;
  readonly works: readonly WorkDraft[];
  readonly length: Length | undefined;
  readonly finder: StationFinder;
  readonly say: Say;
  readonly named: ThingNamer;
}): SillOfWall {
  const { draft } = input;
  const absent = draft.sills.length === 0 && draft.absent.includes('sill');
  const unplaced: UnplacedSill[] = [];
  const lacks: Lacks = (board, source, wants) =>
    unplaced.push({
      name: board,
      wants: input.length === undefined ? `length of wall ${draft.name}` : wants,
      source,
    });
  let boards: readonly Board[] = absent ? [] : surveyedBoards(input, lacks);
  for (const cut of draft.breaks) boards = cutAt(boards, cut, input, lacks);
  const surveyed = boards;
  const sillPlaces = new Map<ReplacementDraft, Stretch>();
  const newWood = input.works.flatMap((work) => work.replacements).filter((line) => line.what === 'sill');
  // A sister stands beside what is there once boards are replaced, wherever its line stands.
  for (const verb of ['replace', 'sister'] as const) {
    for (const line of newWood) {
      if (line.verb !== verb) continue;
      const place = placeOfNewWood(boards, line, input);
      if (!place) continue;
      sillPlaces.set(line, place.stretch);
      boards = verb === 'replace' ? replaced(boards, line, place, input) : sistered(boards, line, place);
    }
  }

  const pieces = piecesOf(boards, input.named, input);
  const isCut = boards.some((board) => board.layer === 'design');
  const foundPieces = isCut
    ? piecesOf(
        surveyed,
        createThingNamer(draft.name, () => undefined),
        input,
      )
    : undefined;
  return { pieces, unplaced, sillPlaces, foundPieces };
}

function piecesOf(
  boards: readonly Board[],
  named: ThingNamer,
  { draft, finder }: Parameters<typeof sillPieces>[0],
): readonly SillPiece[] {
  let unnamed = 0;
  return boards.map((board): SillPiece => {
    unnamed += board.name ? 0 : 1;
    const name = board.name?.name ?? `${draft.name}(${unnamed})`;
    const thing = named('sill', {
      name: { name, source: board.name?.source ?? board.source },
      source: board.source,
      tags: board.tags,
    });
    const { words } = board;
    const setBack = withReadings(profileOver(words.setBack, board), 'set-back', board, draft, finder);
    const headroom = withReadings(profileOver(words.headroom, board), 'headroom', board, draft, finder);
    return {
      ...thing,
      name,
      wall: draft.name,
      from: board.from,
      to: board.to,
      size: words.size,
      setBack,
      headroom,
      joint: words.joint ?? (boards.some((other) => other !== board && other.from === board.to) ? 'butt' : 'none'),
      jointLength: words.jointLength,
      gap: words.gap,
      treated: words.treated,
      double: words.double ?? false,
      ...(words.flush ? { flush: true } : {}),
      ...(words.runsThrough ? { runsThrough: true } : {}),
      species: words.species,
      conditions: words.conditions ?? nothing,
      layer: board.layer,
      ...(board.placeSource ? { placeSource: board.placeSource } : {}),
      ...(board.sistered ? { sistered: board.sistered } : {}),
    };
  });
}

type Lacks = (board: string | undefined, source: SourceSpan, wants: string) => void;

function surveyedBoards(input: Parameters<typeof sillPieces>[0], lacks: Lacks): readonly Board[] {
  const { draft } = input;
  // Several boards without a place: the first says nothing about where it ends.
  const placeless = draft.sills.filter((line) => !line.span && line.name);
  for (const line of placeless) {
    if (draft.sills.length === 1) break;
    input.say({
      code: 'missing-part',
      message: `Sill ${line.name?.name} does not say where it ends; write \`to\` and the station of its right end.`,
      span: line.source,
    });
  }
  const lines = draft.sills.length > 1 ? draft.sills.filter((line) => !placeless.includes(line)) : draft.sills;
  return mergeStretches<SillWords>({
    lines,
    typical: input.typical?.sill,
    length: input.length,
    finder: input.finder,
    headingSource: draft.source,
    fill: false,
    unplaced: (line) =>
      lacks(
        line?.name?.name,
        line?.source ?? draft.nameSource,
        `place of sill ${line?.name?.name ?? 'board'} on wall ${draft.name}`,
      ),
    // `geometry/sill-gap-or-overlap` tells of it, with the boards as they lie.
    overlap: () => undefined,
  }).map((board) => ({ ...board, layer: 'survey' as const }));
}

/** `break at S`: the board that spans S becomes two with the same attributes; a lap is centred on S. */
function cutAt(
  boards: readonly Board[],
  cut: WallDraft['breaks'][number],
  { draft, length, finder, say }: Parameters<typeof sillPieces>[0],
  lacks: Lacks,
): readonly Board[] {
  const at = finder.station(cut.at);
  if (at === undefined) {
    lacks(undefined, cut.at.source, `place of the break in the sill of wall ${draft.name}`);
    return boards;
  }
  const index = boards.findIndex((board) => board.from < at && at < board.to);
  const board = boards[index];
  if (!board) {
    // Where no board could be placed, one may lie here; past an end of the wall, the station has been told.
    if (boards.length > 0 && at >= 0 && (length === undefined || at <= length)) {
      say({
        code: 'geometry/station-outside-wall',
        message: `No sill board of wall ${draft.name} lies across this break, so it cuts nothing; mend its station.`,
        span: cut.at.source,
      });
    }
    return boards;
  }
  const joint = cut.words.joint ?? 'butt';
  const overlap = joint === 'half-lap' || joint === 'scarf' ? (knownValue(cut.words.jointLength) ?? zero) : zero;
  const rightEnd = plus(at, minus(overlap, half(overlap)));
  const leftEnd = minus(at, half(overlap));
  const left = partOf(board, { from: board.from, to: rightEnd });
  const right = partOf(board, { from: leftEnd, to: board.to });
  const cutLeft: Board = { ...left, words: { ...left.words, ...cut.words, joint } };
  return [
    ...boards.slice(0, index),
    cutLeft,
    { ...right, name: partName(board.name, boards) },
    ...boards.slice(index + 1),
  ];
}

interface PlaceOfNewWood {
  /** The board that the line names. */
  readonly old: Board | undefined;
  readonly stretch: Stretch;
}

/** Where a line puts new wood; `undefined`, and told, where it names no board in sight or no two ends. */
function placeOfNewWood(
  boards: readonly Board[],
  line: ReplacementDraft,
  { draft, finder, say }: Parameters<typeof sillPieces>[0],
): PlaceOfNewWood | undefined {
  const called = line.name ? boards.filter((board) => sameName(board.name, line.name)) : [];
  const [old] = called;
  if (line.name && !old) {
    say({
      code: 'unresolved-name',
      layer: 'design',
      message: `No sill board \`${line.name.name}\` on wall ${draft.name} to ${line.verb}.`,
      span: line.name.source,
      replacements: nearestName(
        line.name,
        boards.flatMap((board) => board.name?.name ?? []),
      ),
    });
    return undefined;
  }
  const { source } = line;
  const wholeWall = { from: { kind: 'start', source }, to: { kind: 'end', source }, source } as const;
  const stretch =
    line.where?.kind === 'at'
      ? finder.places(line.where)[0]?.stretch
      : line.where
        ? finder.stretch(line.where.span, old?.from ?? zero)
        : (old ?? finder.stretch(wholeWall, zero));
  if (!stretch) return undefined;
  if (stretch.from === stretch.to) {
    say({
      code: 'missing-part',
      layer: 'design',
      message: `A board has two ends; write where the new one begins and ends: \`${line.verb} sill 0" to 6'-0"\`.`,
      span: source,
    });
    return undefined;
  }
  if (old && !overlapOf(old, stretch)) {
    say({
      code: 'wrong-kind',
      layer: 'design',
      message: `Sill ${line.name?.name} does not lie there, so nothing is done to it; mend the stretch or the name.`,
      span: source,
    });
    return undefined;
  }
  return { old, stretch: { from: stretch.from, to: stretch.to } };
}

/** `sister sill E1 0" to 3'-0" …`: new wood beside; the old board stays as it is, true ends and all. */
function sistered(
  boards: readonly Board[],
  line: ReplacementDraft,
  { old, stretch }: PlaceOfNewWood,
): readonly Board[] {
  return boards.map((board): Board => {
    const here = old && board !== old ? undefined : overlapOf(board, stretch);
    if (!here) return board;
    const sister: SisterBoard = {
      ...here,
      size: line.words.size,
      treated: line.words.treated,
      species: line.words.species,
      source: line.source,
    };
    return { ...board, sistered: [...(board.sistered ?? []), sister] };
  });
}

/** `replace sill E1 0" to 8'-4" …`: a new board over that stretch; what is left of the old ones gets true ends there. */
function replaced(
  boards: readonly Board[],
  line: ReplacementDraft,
  { old, stretch }: PlaceOfNewWood,
  input: Parameters<typeof sillPieces>[0],
): readonly Board[] {
  const kept = boards.flatMap((board): readonly Board[] => {
    if (!overlapOf(board, stretch)) return [board];
    if (old && board !== old) return [board];
    const parts: Board[] = [];
    if (board.from < stretch.from) {
      const left = partOf(board, { from: board.from, to: stretch.from });
      parts.push({ ...left, words: { ...withoutJoint(left.words), joint: 'butt' } });
    }
    if (board.to > stretch.to) {
      const right = partOf(board, { from: stretch.to, to: board.to });
      parts.push(parts.length === 0 ? right : { ...right, name: partName(board.name, boards) });
    }
    return parts;
  });
  const fresh: Board = {
    ...stretch,
    name: newName(line.name, kept),
    words: { ...wordsUnder(boards, stretch, old, input.typical), ...line.words },
    tags: line.tags,
    source: line.source,
    placeSource: line.where?.kind === 'span' ? line.where.span.source : undefined,
    layer: 'design',
  };
  sayOverKeptBoard(kept, fresh, old, input);
  return [...kept, fresh].sort((a, b) => a.from - b.from);
}

/**
 * What a new board takes over from the one that it replaces: it lies where that lay and is as thick, unless its line says
 * otherwise. What wood it is, only its line knows. Over several boards it has but what is typical.
 */
function wordsUnder(
  boards: readonly Board[],
  stretch: Stretch,
  named: Board | undefined,
  typical: TypicalDraft | undefined,
): SillWords {
  const under = boards.filter((board) => overlapOf(board, stretch));
  const old = named ?? (under.length === 1 ? under[0] : undefined);
  const all = (old ? partOf(old, stretch).words : typical?.sill) ?? {};
  const { conditions: _conditions, treated: _treated, species: _species, ...words } = all;
  return old?.to === stretch.to ? words : withoutJoint(words);
}

function withoutJoint({ joint: _joint, jointLength: _length, gap: _gap, ...words }: SillWords): SillWords {
  return words;
}

/** Only the board that the line names gives way; past its end the new one would lie on the next. */
function sayOverKeptBoard(
  kept: readonly Board[],
  fresh: Board,
  old: Board | undefined,
  { draft, say }: Parameters<typeof sillPieces>[0],
): void {
  if (!old) return;
  const under = kept.find((board) => overlapOf(board, fresh) && !overlapOf(old, overlapOf(board, fresh) ?? board));
  if (!under) return;
  say({
    code: 'overlapping-stretches',
    layer: 'design',
    message: `The new board for ${old.name?.name} reaches over a board of wall ${draft.name} that stays; end it where ${old.name?.name} ends, or name no board.`,
    span: fresh.placeSource ?? fresh.source,
    related: [{ span: under.source, message: 'the board that stays' }],
  });
}

/** A part of a board; what slopes along the board goes on as it was. */
function partOf(board: Board, part: Stretch): Board {
  const { setBack, headroom, ...rest } = board.words;
  const sliced = (value: VaryingDraft | undefined): VaryingDraft | undefined => {
    const profile = profileOver(value, board);
    return profile && { first: profileAt(profile, part.from), last: profileAt(profile, part.to) };
  };
  const newSetBack = sliced(setBack);
  const newHeadroom = sliced(headroom);
  return {
    ...board,
    ...part,
    words: {
      ...rest,
      ...(newSetBack ? { setBack: newSetBack } : {}),
      ...(newHeadroom ? { headroom: newHeadroom } : {}),
    },
  };
}

/** What is left of an old board keeps its name, so a part put in is `E1-new`. */
function newName(name: NameReference | undefined, boards: readonly Board[]): NameReference | undefined {
  if (!name || !boards.some((board) => sameName(board.name, name))) return name;
  return partName({ name: `${name.name}-new`, source: name.source }, boards);
}

/** `F1` stays with the first part; the next is `F1(2)`. */
function partName(name: NameReference | undefined, boards: readonly Board[]): NameReference | undefined {
  if (!name) return undefined;
  if (!boards.some((board) => sameName(board.name, name))) return name;
  let part = 2;
  const stem = name.name.replace(/\(\d+\)$/, '');
  const taken = new Set(boards.map((board) => board.name?.name.toLowerCase()));
  while (taken.has(`${stem}(${part})`.toLowerCase())) part += 1;
  return { name: `${stem}(${part})`, source: name.source };
}

const sameName = (a: NameReference | undefined, b: NameReference | undefined): boolean =>
  a !== undefined && b !== undefined && a.name.toLowerCase() === b.name.toLowerCase();
