import type { Leaning, NameReference, Point, Size, Tags, Zone } from '../../domain/model/layout.ts';
import { noTags } from '../../domain/model/layout.ts';
import type { Known, Quality, Reading } from '../../domain/model/reading.ts';
import type { Block, SourceSpan } from '../../domain/model/source.ts';
import type { Layer } from '../../domain/rules/finding.ts';
import { ownText, withoutSpareRoom } from '../../domain/spare-room.ts';
import type { Length } from '../../domain/units/length.ts';
import { nominalSize } from '../../domain/units/nominal-size.ts';
import { parseLength } from '../../domain/units/parse-length.ts';
import { parseQuantity } from '../../domain/units/parse-quantity.ts';
import type { Dimension, Quantity } from '../../domain/units/quantity.ts';
import type * as ast from '../../generated/ast.ts';
import type { SpanDraft, StationDraft, VaryingDraft, WhereDraft } from '../drafts.ts';
import type { Problem, ProblemCode } from '../problem.ts';
import { placeOf, type TreeNode } from '../tree.ts';
import { withUsualUnits } from '../usual-units.ts';

/** What the lowering of one block collects, and how it reads values, places and tags. */
export interface LowerContext {
  readonly problems: Problem[];
  readonly leanings: Leaning[];
  span(node: TreeNode): SourceSpan;
  /** As it was typed. */
  textOf(node: TreeNode): string;
  /** Of the words of one property; of the whole node where the property was not written. */
  spanOf<Node extends TreeNode>(node: Node, property: keyof Node & string, index?: number): SourceSpan;
  say(code: ProblemCode, message: string, span: SourceSpan, more?: Partial<Problem>): void;
  name<Node extends TreeNode>(node: Node, property: keyof Node & string, index?: number): NameReference | undefined;
  /** A day as written. One that no calendar has is told, and kept. */
  date<Node extends TreeNode>(node: Node, property: keyof Node & string): string | undefined;
  /** `what` says in words whose value it is, for the survey list: `set-back of sill F2`. */
  length(value: ast.Value | undefined, what: string): Reading<Length> | undefined;
  /** A length that must be known: places, hardware. Silent `undefined` where it is not. */
  knownLength(value: ast.Value | undefined, what: string): Length | undefined;
  quantity(
    value: ast.Value | undefined,
    what: string,
    dimension: Dimension | readonly Dimension[],
  ): Reading<Quantity> | undefined;
  count(value: ast.Value | undefined, what: string): Reading<number> | undefined;
  varying(value: ast.Varying | undefined, what: string): VaryingDraft | undefined;
  size(size: ast.Size | undefined, what: string): Size | undefined;
  point(point: ast.Point | undefined): Point | undefined;
  station(station: ast.Station | undefined, what: string): StationDraft | undefined;
  stretch(stretch: ast.Stretch | undefined, what: string): SpanDraft | undefined;
  where(where: ast.Where | undefined, what: string): WhereDraft | undefined;
  zone(zone: ast.Zone, what: string): Zone | undefined;
  tags(tags: readonly (ast.Tag | { readonly $type: string })[]): Tags;
}

/** @param text of the block. */
export function createLowerContext(block: Block, text: string, layer: Layer, wall: string | undefined): LowerContext {
  const problems: Problem[] = [];
  const leanings: Leaning[] = [];

  let last: SourceSpan | undefined;
  /** A node and the one in it that is all of it are mostly asked one after the other: one place. */
  const spanOver = (start: number, end: number): SourceSpan => {
    if (last?.start !== start || last.end !== end) last = { block, start, end };
    return last;
  };
  const span = (node: TreeNode): SourceSpan => spanOver(node.$start, node.$end);
  const spanOf = <Node extends TreeNode>(node: Node, property: keyof Node & string, index?: number): SourceSpan => {
    const place = placeOf(node, property, index);
    return place ? spanOver(place.start, place.end) : span(node);
  };
  const say: LowerContext['say'] = (code, message, at, more) => {
    problems.push({
      code,
      severity: 'error',
      message,
      span: at,
      related: [],
      replacements: [],
      layer,
      ...(wall === undefined ? {} : { wall }),
      ...more,
    });
  };
  const lean = (what: string, typed: string, quality: Leaning['quality'], source: SourceSpan): void => {
    leanings.push({ what, typed, quality, source });
  };

  /** `undefined` where nothing legible stands there; `unknown` where that was written. */
  const amount = (
    value: ast.Value | undefined,
    what: string,
  ): { readonly quality: Quality; readonly typed: string } | 'unknown' | undefined => {
    if (!value) return undefined;
    if (value.$type === 'Unknown') {
      lean(what, 'unknown', 'unknown', span(value));
      return 'unknown';
    }
    if (value.amount === undefined) return undefined;
    const quality = qualities[value.quality ?? 'measured'];
    if (quality !== 'measured') lean(what, `${value.quality} ${value.amount}`, quality, span(value));
    return { quality, typed: ownText(value.amount) };
  };

  const lengthOf = (typed: string, at: SourceSpan): Length | undefined => {
    const parsed = parseLength(typed);
    switch (parsed.kind) {
      case 'length':
        if (parsed.doubt !== undefined) {
          say('doubtful-length', `${parsed.doubt}; measure it again or write what the tape shows.`, at, {
            severity: 'warning',
            replacements: replacing(parsed.suggestions ?? [], at),
          });
        }
        return parsed.length;
      case 'bare':
        say('no-unit', `${typed} what? Write ${inWords(parsed.suggestions)}.`, at, {
          replacements: replacing(parsed.suggestions, at),
        });
        return undefined;
      case 'bad':
        say(halfTyped.test(typed) ? 'syntax' : 'wrong-kind', `${parsed.reason}.`, at, {
          replacements: replacing(parsed.suggestions ?? [], at),
        });
        return undefined;
    }
  };

  const length: LowerContext['length'] = (value, what) => {
    const found = amount(value, what);
    if (found === undefined || !value) return undefined;
    if (found === 'unknown') return { kind: 'unknown', source: span(value) };
    const at = value.$type === 'Measured' ? spanOf(value, 'amount') : span(value);
    const parsed = lengthOf(found.typed, at);
    return parsed === undefined ? undefined : known(parsed, found, span(value));
  };

  const quantity: LowerContext['quantity'] = (value, what, dimension) => {
    const found = amount(value, what);
    if (found === undefined || !value) return undefined;
    if (found === 'unknown') return { kind: 'unknown', source: span(value) };
    const wanted = typeof dimension === 'string' ? [dimension] : dimension;
    const parsed = parseQuantity(found.typed);
    const units =
      parsed?.dimension === 'number' && !wanted.includes('number')
        ? wanted.flatMap((each) => withUsualUnits(found.typed, each))
        : [];
    if (units.length > 0) {
      say('no-unit', `${found.typed} what? Write ${inWords(units)}.`, span(value), {
        replacements: replacing(units, span(value)),
      });
      return undefined;
    }
    if (!parsed || !wanted.includes(parsed.dimension)) {
      say(
        'wrong-kind',
        `${found.typed} is not ${wanted.map((each) => dimensionWords[each]).join(' or ')}, which ${what} takes.`,
        span(value),
      );
      return undefined;
    }
    return known(parsed, found, span(value));
  };

  const station: LowerContext['station'] = (node, what) => {
    if (!node) return undefined;
    const source = span(node);
    if (node.end) return { kind: node.end, source };
    const distance = length(node.distance, `station of ${what}`);
    if (!distance) return { kind: 'illegible', source };
    if (node.fromRight) return { kind: 'from-right', amount: distance, source };
    if (node.side !== undefined) {
      const of = name(node, 'of');
      return of ? { kind: 'beside', side: node.side, amount: distance, of, source } : { kind: 'illegible', source };
    }
    return { kind: 'from-left', amount: distance, source };
  };
  const stretch: LowerContext['stretch'] = (node, what) => {
    if (!node) return undefined;
    const to = station(node.to, what);
    if (!to) return undefined;
    return { from: station(node.from, what), to, source: span(node) };
  };
  function name<Node extends TreeNode>(
    node: Node,
    property: keyof Node & string,
    index?: number,
  ): NameReference | undefined {
    const value = node[property];
    const text = index === undefined ? value : Array.isArray(value) ? value[index] : undefined;
    return typeof text === 'string' && text !== ''
      ? { name: ownText(text), source: spanOf(node, property, index) }
      : undefined;
  }

  function date<Node extends TreeNode>(node: Node, property: keyof Node & string): string | undefined {
    const day = node[property];
    if (typeof day !== 'string') return undefined;
    const wrong = wrongDay(day);
    if (wrong !== undefined) say('wrong-kind', `${day} is no day of the calendar: ${wrong}.`, spanOf(node, property));
    return day;
  }

  return {
    problems,
    leanings,
    span,
    textOf: (node) => text.slice(node.$start, node.$end),
    spanOf,
    say,
    name,
    date,
    length,
    knownLength: (value, what) => {
      const reading = length(value, what);
      return reading?.kind === 'known' ? reading.value : undefined;
    },
    quantity,
    count: (value, what) => {
      const reading = quantity(value, what, 'number');
      if (!reading || reading.kind === 'unknown') return reading;
      return known(reading.value.amount, reading, reading.source);
    },
    varying: (value, what) => {
      const first = length(value?.first, what);
      const last = length(value?.last, what);
      if (!first) return undefined;
      return { first, last };
    },
    size: (node, what) => {
      if (!node) return undefined;
      if (node.nominal !== undefined) {
        const dressed = nominalSize(node.nominal);
        const source = span(node);
        if (!dressed) {
          say(
            'wrong-kind',
            `${node.nominal} is no lumber size that mills name; write the true size: \`size 1-1/2" x 5-1/2"\`.`,
            source,
          );
          return undefined;
        }
        const nominal = ownText(node.nominal);
        const said = { quality: 'measured', typed: nominal } as const;
        const [thick, wide] = [known(dressed.thick, said, source), known(dressed.wide, said, source)];
        return { nominal, thick, wide, long: undefined };
      }
      const thick = length(node.sides[0], `size of ${what}`);
      if (!thick) return undefined;
      // `size unknown` speaks of both sides.
      const wide = length(node.sides[1], `size of ${what}`) ?? (thick.kind === 'unknown' ? thick : undefined);
      if (!wide) return undefined;
      return { nominal: undefined, thick, wide, long: length(node.sides[2], `size of ${what}`) };
    },
    point: (node) => {
      if (!node) return undefined;
      const x = length(node.x, 'a plan position');
      const y = length(node.y, 'a plan position');
      return x?.kind === 'known' && y?.kind === 'known' ? { x: x.value, y: y.value } : undefined;
    },
    station,
    stretch,
    where: (node, what) => {
      if (!node) return undefined;
      if (node.$type === 'Stretch') {
        const drafted = stretch(node, what);
        return drafted && { kind: 'span', span: drafted };
      }
      const stations = node.at.flatMap((each) => station(each, what) ?? []);
      return stations.length === 0
        ? undefined
        : { kind: 'at', stations, width: length(node.width, `width of ${what}`), source: span(node) };
    },
    zone: (node, what) => {
      const near = length(node.zone?.first, `height zone of ${what}`);
      const far = length(node.zone?.last, `height zone of ${what}`);
      if (!near || !node.side || !node.datum) return undefined;
      return { near, far, side: node.side, datum: node.datum };
    },
    tags: (nodes) => {
      if (nodes.length === 0) return noTags;
      const notes: string[] = [];
      const photos: number[] = [];
      let by: string | undefined;
      let dated: string | undefined;
      for (const node of nodes as readonly ast.Tag[]) {
        if (node.$type === 'NoteTag' && node.note !== undefined) notes.push(node.note);
        if (node.$type === 'PhotoTag') photos.push(...node.photos);
        if (node.$type === 'ByTag') by = node.by;
        if (node.$type === 'DatedTag') dated = date(node, 'dated');
      }
      return notes.length === 0 && photos.length === 0 && by === undefined && dated === undefined
        ? noTags
        : withoutSpareRoom({ notes, photos, by, dated });
    },
  };
}

/** Field by field: what is spread into an object takes half as much memory again, and readings are many. */
function known<T>(
  value: T,
  { quality, typed }: { readonly quality: Quality; readonly typed: string },
  source: SourceSpan,
): Known<T> {
  return { kind: 'known', value, quality, typed, source };
}

/** Where a station is needed and nothing legible stands: kept, so that the thing is listed and not lost. */
export const illegible = (source: SourceSpan): StationDraft => ({ kind: 'illegible', source });

/** Why the calendar has no such day; `undefined` where it has. */
function wrongDay(day: string): string | undefined {
  const [year, month, date] = day.split('-').map(Number);
  if (year === undefined || month === undefined || date === undefined) return undefined;
  if (month < 1 || month > 12) return `there is no month ${month}`;
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = month === 2 ? (leap ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31;
  if (date >= 1 && date <= days) return undefined;
  return `${monthNames[month - 1]} ${year} has ${days} days`;
}
const monthNames = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

const qualities = { measured: 'measured', assume: 'assumed', scaled: 'scaled', told: 'told' } as const;
const halfTyped = /['′’][ \t]*(?:-|-?[ \t]*\d[\d \t]*[-/]?)$/;

const dimensionWords: Readonly<Record<Dimension, string>> = {
  pressure: 'a pressure (psi, psf, kPa)',
  force: 'a force (lb, kN)',
  'force-per-length': 'a force along a length (plf, kN/m)',
  area: 'an area (sq ft, m²)',
  share: 'a share (%)',
  angle: 'an angle (°)',
  density: 'a density (pcf)',
  mass: 'a mass (kg)',
  moment: 'a moment (ft-lb, N·m)',
  time: 'a time (min, hours)',
  number: 'a plain number',
};

function replacing(texts: readonly string[], span: SourceSpan): Problem['replacements'] {
  return texts.map((text) => ({ title: `Write ${text}`, text, span }));
}

function inWords(texts: readonly string[]): string {
  if (texts.length < 2) return texts.join('');
  return `${texts.slice(0, -1).join(', ')} or ${texts[texts.length - 1]}`;
}
