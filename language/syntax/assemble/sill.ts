import type { NameReference, SillPiece, Stretch, UnplacedSill } from '../../domain/model/layout.ts';
import { knownValue, profileAt } from '../../domain/model/reading.ts';
import type { SourceSpan } from '../../domain/model/source.ts';
import type { Length } from '../../domain/units/length.ts';
import { half, minus, plus, zero } from '../../domain/units/length.ts';
import type { LineOf, SillWords, TypicalDraft, VaryingDraft, WallDraft, WorkDraft } from '../drafts.ts';
import type { StationFinder } from './stations.ts';
import type { MergedStretch } from './stretches.ts';
import { mergeStretches, overlapOf, profileOver, withLevel, withPoint } from './stretches.ts';
import type { Say, ThingNamer } from './wall.ts';

interface Board extends MergedStretch<SillWords> {
  readonly layer: SillPiece['layer'];
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
}): { readonly pieces: readonly SillPiece[]; readonly unplaced: readonly UnplacedSill[] } {
  const { draft, finder } = input;
  if (draft.sills.length === 0 && draft.absent.includes('sill')) return { pieces: [], unplaced: [] };
  const unplaced: UnplacedSill[] = [];
  const lacks: Lacks = (board, source, wants) =>
    unplaced.push({
      name: board,
      wants: input.length === undefined ? `length of wall ${draft.name}` : wants,
      source,
    });
  let boards: readonly Board[] = surveyedBoards(input, lacks);
  for (const cut of draft.breaks) boards = cutAt(boards, cut, input, lacks);
  for (const line of input.works.flatMap((work) => work.replacedSills)) boards = replaced(boards, line, input);

  let unnamed = 0;
  const pieces = boards.map((board): SillPiece => {
    unnamed += board.name ? 0 : 1;
    const name = board.name?.name ?? `${draft.name}(${unnamed})`;
    const thing = input.named('sill', {
      name: { name, source: board.name?.source ?? board.source },
      source: board.source,
      tags: board.tags,
    });
    const { words } = board;
    let setBack = profileOver(words.setBack, board);
    let headroom = profileOver(words.headroom, board);
    for (const reading of draft.readings) {
      if (reading.key !== 'set-back' && reading.key !== 'headroom') continue;
      for (const { stretch } of finder.places(reading.where)) {
        if (!stretch) continue;
        const here = within(stretch, board);
        if (!here) continue;
        const add = (profile: typeof setBack): typeof setBack =>
          here.from === here.to
            ? withPoint(profile, { station: here.from, value: reading.value })
            : withLevel(profile, here, reading.value);
        if (reading.key === 'set-back') setBack = add(setBack);
        else headroom = add(headroom);
      }
    }
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
      species: words.species,
      conditions: words.conditions ?? [],
      layer: board.layer,
    };
  });
  return { pieces, unplaced };
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
    overlap: (earlier, later) => {
      if (earlier.words.joint === 'half-lap' || earlier.words.joint === 'scarf') return;
      input.say({
        code: 'overlapping-stretches',
        message:
          `Sill ${later.name?.name ?? ''} begins before the board on its left ends; write \`half-lap\` or \`scarf\` there, or mend a station.`.replace(
            'Sill  ',
            'A sill board ',
          ),
        span: later.span?.source ?? later.source,
        related: [{ span: earlier.span?.source ?? earlier.source, message: 'the board on its left' }],
      });
    },
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

/** `replace sill E1 0" to 8'-4" …`: a new board over that stretch; what is left of the old ones gets true ends there. */
function replaced(
  boards: readonly Board[],
  line: LineOf<SillWords>,
  input: Parameters<typeof sillPieces>[0],
): readonly Board[] {
  const old = line.name ? boards.find((board) => sameName(board.name, line.name)) : undefined;
  if (line.name && !old) {
    input.say({
      code: 'unresolved-name',
      layer: 'design',
      message: `No sill board \`${line.name.name}\` on wall ${input.draft.name} to replace.`,
      span: line.name.source,
    });
    return boards;
  }
  const stretch: Stretch | undefined = line.span ? input.finder.stretch(line.span, old?.from ?? zero) : old;
  if (!stretch) return boards;
  const kept = boards.flatMap((board): readonly Board[] => {
    if (!overlapOf(board, stretch)) return [board];
    if (old && board !== old) return [board];
    const parts: Board[] = [];
    if (board.from < stretch.from) {
      const left = partOf(board, { from: board.from, to: stretch.from });
      parts.push({ ...left, words: { ...left.words, joint: 'butt' } });
    }
    if (board.to > stretch.to) {
      const right = partOf(board, { from: stretch.to, to: board.to });
      parts.push(parts.length === 0 ? right : { ...right, name: partName(board.name, boards) });
    }
    return parts;
  });
  const base = old?.words ?? input.typical?.sill ?? {};
  const { conditions: _oldConditions, ...sound } = base;
  const fresh: Board = {
    ...stretch,
    name: newName(line.name, kept),
    words: { ...sound, ...line.words },
    tags: line.tags,
    source: line.source,
    placeSource: line.span?.source,
    layer: 'design',
  };
  return [...kept, fresh].sort((a, b) => a.from - b.from);
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

function within(stretch: Stretch, board: Stretch): Stretch | undefined {
  if (stretch.from === stretch.to) return stretch.from >= board.from && stretch.from <= board.to ? stretch : undefined;
  return overlapOf(stretch, board);
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
