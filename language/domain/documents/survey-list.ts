import { stretchWords } from '../fit/thing-words.ts';
import type { Layout, LengthUnits, Stretch, Wall } from '../model/layout.ts';
import type { Block, SourceSpan } from '../model/source.ts';
import type { Checked } from '../rules/checked.ts';
import type { NotChecked } from '../rules/finding.ts';
import type { Length } from '../units/length.ts';
import { type Basis, basisOf } from './basis.ts';

/** What to measure, look at and ask on the next visit, in the order of a walk round the house. */
export interface SurveyList {
  readonly house: string;
  readonly units: LengthUnits;
  /** Walls as they are walked, girders and spaces, then what concerns the whole house. None is empty. */
  readonly groups: readonly SurveyGroup[];
  readonly basis: Basis;
}
export interface SurveyGroup {
  /** `Wall F (west)`, `Girder GD`, `The house`. */
  readonly title: string;
  readonly wall: string | undefined;
  /** From left to right; what has no place of its own comes last. */
  readonly items: readonly SurveyItem[];
}
export interface SurveyItem {
  /** `unknown` was written, a check lacks it and nobody wrote anything, it was not measured, or it is a question. */
  readonly kind: 'unknown' | 'missing' | 'not-measured' | 'question';
  readonly what: string;
  /** As written: `assume 2000 psi`. Empty where nothing was. */
  readonly given: string;
  /** `0'-0" to 9'-7"`; `undefined` where it has none. */
  readonly stretch: Stretch | undefined;
  /** How many checks wait for it. */
  readonly checks: number;
  readonly source: SourceSpan;
}

export function surveyListOf(layout: Layout, checked: Checked): SurveyList {
  const owners = ownersByBlock(layout);
  const groups = new Map<
    string,
    { readonly title: string; readonly wall: string | undefined; readonly items: SurveyItem[] }
  >();
  for (const owner of ownersInOrder(layout)) groups.set(owner.key, { title: owner.title, wall: owner.wall, items: [] });
  const waiting = checksByWant(checked.notChecked);

  const written = new Set(layout.unknowns.map((leaning) => leaning.what));
  const unknownOfLine = new Map<string, { checks: number }>();
  const unknownsOfWall = new Map<string, { checks: number }[]>();

  const add = (key: string, item: Omit<SurveyItem, 'stretch'>, walls: PlacesOnWall | undefined): void => {
    const group = groups.get(key) ?? groups.get(HOUSE);
    const line = walls?.lineOf(item.source);
    const listed = { ...item, stretch: line?.stretch };
    group?.items.push(listed);
    if (item.kind !== 'unknown') return;
    if (line) unknownOfLine.set(lineKey(line.source, item.what), listed);
    const wall = `${group?.wall} ${measuredIn(item.what)}`;
    const others = unknownsOfWall.get(wall);
    if (others) others.push(listed);
    else unknownsOfWall.set(wall, [listed]);
  };
  const places = new Map(layout.walls.map((wall) => [`wall:${wall.name}`, placesOn(wall)]));
  const ownerOf = (source: SourceSpan): string => owners.get(source.block) ?? HOUSE;

  for (const { what, typed, source, quality } of [...layout.unknowns, ...layout.assumptions]) {
    const key = ownerOf(source);
    const kind = quality === 'unknown' ? 'unknown' : 'not-measured';
    add(key, { kind, what, given: typed, checks: waiting.get(what)?.length ?? 0, source }, places.get(key));
  }
  for (const [wants, entries] of waiting) {
    const [first] = entries;
    if (!first || written.has(wants)) continue;
    const ofWall = unknownsOfWall.get(`${first.wall} ${measuredIn(wants)}`) ?? [];
    const same = unknownOfLine.get(lineKey(first.span, wants)) ?? (ofWall.length === 1 ? ofWall[0] : undefined);
    if (same) {
      same.checks += entries.length;
      continue;
    }
    const key = first.wall === undefined ? ownerOf(first.span) : `wall:${first.wall}`;
    add(
      groups.has(key) ? key : ownerOf(first.span),
      { kind: 'missing', what: wants, given: '', checks: entries.length, source: first.span },
      places.get(key),
    );
  }
  for (const { text, about, source } of layout.questions) {
    const key = about !== undefined && groups.has(about) ? about : ownerOf(source);
    add(key, { kind: 'question', what: text, given: '', checks: 0, source }, undefined);
  }
  return {
    house: layout.title.name ?? 'house without a name',
    units: layout.title.units,
    groups: [...groups.values()]
      .filter((group) => group.items.length > 0)
      .map(({ title, wall, items }) => ({ title, wall, items: inWalkingOrder(items) })),
    basis: basisOf(layout, checked),
  };
}

/** Where an item stands, in words. */
export function placeOfItem({ stretch }: SurveyItem, units: LengthUnits): string {
  return stretch ? stretchWords(stretch, units) : '';
}

const HOUSE = 'house';

/**
 * A check may name by its board what the text names by its wall. On one line, or where a wall has one such unknown, the first
 * words say what is measured.
 */
function measuredIn(what: string): string {
  const [measured = ''] = what.split(/ (?:of|above|at|on) /);
  return measured.replaceAll('-', '').toLowerCase();
}
const lineKey = (line: SourceSpan, what: string): string =>
  `${line.block.file}\n${line.block.key}\n${line.start} ${measuredIn(what)}`;

interface Owner {
  readonly key: string;
  readonly title: string;
  readonly wall: string | undefined;
}

function ownersInOrder({ walls, girders, spaces }: Layout): readonly Owner[] {
  return [
    ...walls.map((wall) => ({
      key: `wall:${wall.name}`,
      title: `Wall ${wall.name}${wall.label === undefined ? '' : ` (${wall.label})`}`,
      wall: wall.name,
    })),
    ...girders.map((girder) => ({ key: `girder:${girder.name}`, title: `Girder ${girder.name}`, wall: girder.name })),
    ...spaces.map((space) => ({ key: `space:${space.name}`, title: `Space ${space.name}`, wall: undefined })),
    { key: HOUSE, title: 'The house', wall: undefined },
  ];
}

/** Whose block a line stands in: that of the wall, or of the work on it. */
function ownersByBlock({ walls, girders, spaces }: Layout): ReadonlyMap<Block, string> {
  const owners = new Map<Block, string>();
  for (const wall of walls) {
    for (const { source } of [wall, ...wall.workBlocks]) owners.set(source.block, `wall:${wall.name}`);
  }
  for (const girder of girders) {
    for (const { source } of [girder, ...(girder.workBlocks ?? [])]) owners.set(source.block, `girder:${girder.name}`);
  }
  for (const space of spaces) owners.set(space.source.block, `space:${space.name}`);
  return owners;
}

function checksByWant(notChecked: readonly NotChecked[]): ReadonlyMap<string, readonly NotChecked[]> {
  const byWant = new Map<string, NotChecked[]>();
  for (const entry of notChecked) {
    const own = byWant.get(entry.wants);
    if (own) own.push(entry);
    else byWant.set(entry.wants, [entry]);
  }
  return byWant;
}

interface PlacedLine {
  readonly source: SourceSpan;
  readonly stretch: Stretch | undefined;
}
interface PlacesOnWall {
  /** The line of the wall that a span lies in, with its place; `undefined` for the heading. */
  lineOf(source: SourceSpan): PlacedLine | undefined;
}

function placesOn(wall: Wall): PlacesOnWall {
  const at = (station: Length | undefined): Stretch | undefined =>
    station === undefined ? undefined : { from: station, to: station };
  const lines: readonly PlacedLine[] = [
    ...[...wall.foundation, ...wall.pieces, ...wall.cripples, ...wall.joists, ...wall.rims].map((each) => ({
      source: each.source,
      stretch: { from: each.from, to: each.to },
    })),
    ...[...wall.obstructions, ...wall.defects, ...wall.panels, ...(wall.sideRoom ?? [])],
    ...[...wall.foundAnchors, ...wall.anchors, ...wall.ties, ...wall.studs, ...wall.irregularJoists].map((each) => ({
      source: each.source,
      stretch: at(each.station),
    })),
  ].filter((line) => line.source !== wall.source);
  const byStart = new Map<Block, PlacedLine[]>();
  for (const line of lines) {
    const own = byStart.get(line.source.block);
    if (own) own.push(line);
    else byStart.set(line.source.block, [line]);
  }
  for (const own of byStart.values()) own.sort((a, b) => a.source.start - b.source.start);
  return {
    lineOf(source) {
      const own = byStart.get(source.block) ?? [];
      // Lines do not overlap: the last that starts before the span is the only one that can hold it.
      let low = 0;
      let high = own.length;
      while (low < high) {
        const middle = (low + high) >> 1;
        if ((own[middle]?.source.start ?? 0) <= source.start) low = middle + 1;
        else high = middle;
      }
      const line = own[low - 1];
      return line && source.end <= line.source.end ? line : undefined;
    },
  };
}

function inWalkingOrder(items: readonly SurveyItem[]): readonly SurveyItem[] {
  const from = (item: SurveyItem): number => item.stretch?.from ?? Number.MAX_SAFE_INTEGER;
  return items.toSorted((a, b) => from(a) - from(b));
}
