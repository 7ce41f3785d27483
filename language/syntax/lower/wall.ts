import type { MicroDegrees, ObstructionWord } from '../../domain/model/layout.ts';
import { degrees } from '../../domain/model/layout.ts';
import { parseQuantity } from '../../domain/units/parse-quantity.ts';
import type * as ast from '../../generated/ast.ts';
import type { WallDraft } from '../drafts.ts';
import type { LowerContext } from './context.ts';
import { illegible } from './context.ts';
import { sayRepeatedFacts } from './repeated-facts.ts';
import { storeysOf } from './storeys.ts';
import {
  blockTags,
  crippleWords,
  foundationWords,
  joistWords,
  leanOnUnknown,
  lineOf,
  lowerFoundBlocking,
  rimWords,
  sillWords,
  tagsOf,
} from './stretches.ts';
import { lowerAcceptance, lowerQuestion } from './title.ts';

type Mutable<T> = { -readonly [Key in keyof T]: T[Key] extends readonly (infer Item)[] ? Item[] : T[Key] };

/** The survey of one wall. A line that cannot be read in full is left out; its problem has been said by the parser. */
export function lowerWall(tree: ast.Wall, context: LowerContext): WallDraft | undefined {
  if (tree.name === undefined) return undefined;
  const { name } = tree;
  const wall: Mutable<WallDraft> = {
    kind: 'wall',
    name,
    nameSource: context.spanOf(tree, 'name'),
    label: tree.label,
    source: context.span(tree),
    taped: undefined,
    adjusted: undefined,
    face: undefined,
    turn: undefined,
    faces: undefined,
    from: undefined,
    to: undefined,
    interior: false,
    storeys: [],
    foundation: [],
    sills: [],
    breaks: [],
    cripples: [],
    joists: [],
    rims: [],
    irregularJoists: [],
    studs: [],
    blocking: [],
    readings: [],
    obstructions: [],
    defects: [],
    foundAnchors: [],
    absent: [],
    accepted: [],
    questions: [],
    tags: blockTags(tree.items, context),
  };
  sayRepeatedFacts(tree.items, context);
  for (const item of tree.items) lowerItem(item, wall, context);
  return wall;
}

function lowerItem(item: ast.WallItem, wall: Mutable<WallDraft>, context: LowerContext): void {
  const onWall = `wall ${wall.name}`;
  switch (item.$type) {
    case 'WallLength':
      wall.taped = context.length(item.length, `length of ${onWall}`) ?? wall.taped;
      wall.adjusted = context.length(item.adjusted, `adjusted length of ${onWall}`) ?? wall.adjusted;
      wall.face = item.face ?? wall.face;
      return;
    case 'WallTurn':
      wall.turn = item.turn ? turns[item.turn] : (angleOf(item.angle) ?? wall.turn);
      return;
    case 'WallFaces':
      wall.faces = item.faces ? compass[item.faces] : (angleOf(item.angle) ?? wall.faces);
      return;
    case 'WallCorners':
      wall.from = context.point(item.from);
      wall.to = context.point(item.to);
      return;
    case 'WallRole':
      wall.interior = true;
      return;
    case 'WallStoreys': {
      const what = `storeys above ${onWall}`;
      wall.storeys.push({ span: context.stretch(item.where, what), value: storeysOf(item, what, context) });
      return;
    }
    case 'FoundationStretch': {
      const what = `foundation of ${onWall}${placeWords(item.where)}`;
      wall.foundation.push(lineOf(item, foundationWords(item, context, what), context, what));
      return;
    }
    case 'SillPiece': {
      const what = item.name === undefined ? `sill of ${onWall}` : `sill ${item.name}`;
      wall.sills.push(lineOf(item, sillWords(item, context, what), context, what, context.name(item, 'name')));
      return;
    }
    case 'SillBreak': {
      const at = context.station(item.at, 'a sill break');
      if (at) wall.breaks.push({ at, words: sillWords(item, context, 'a sill break'), source: context.span(item) });
      return;
    }
    case 'SpotReading': {
      const what = `${item.key} reading on ${onWall}`;
      const value = context.length(item.value, what);
      const where = context.where(item.where, what);
      if (value && where) wall.readings.push({ key: item.key, value, where, source: context.span(item) });
      return;
    }
    case 'CrippleStretch': {
      const what = `cripple wall of ${onWall}${placeWords(item.where)}`;
      wall.cripples.push(lineOf(item, crippleWords(item, context, what), context, what));
      return;
    }
    case 'FoundStud':
      sayWidthNotUsed(item.where, 'A stud', context);
      for (const each of item.where?.at ?? []) {
        const at = context.station(each, 'a stud');
        if (at)
          wall.studs.push({
            at,
            size: context.size(item.size, `a stud of ${onWall}`),
            tags: context.tags(item.tags),
            source: context.span(item),
          });
      }
      return;
    case 'JoistRun': {
      const what = `joists of ${onWall}`;
      wall.joists.push(lineOf(item, joistWords(item, context, what), context, what));
      return;
    }
    case 'IrregularJoist':
      sayWidthNotUsed(item.where, 'A joist', context);
      for (const each of item.where?.at ?? []) {
        const at = context.station(each, 'a joist');
        if (at) {
          wall.irregularJoists.push({
            at,
            role: item.role,
            size: context.size(item.size, `a joist of ${onWall}`),
            tags: context.tags(item.tags),
            source: context.span(item),
          });
        }
      }
      return;
    case 'Rim': {
      const what = `rim of ${onWall}`;
      wall.rims.push(lineOf(item, rimWords(item, context, what), context, what));
      return;
    }
    case 'FoundBlocking':
      wall.blocking.push(...lowerFoundBlocking(item, context, `blocks of ${onWall}`));
      return;
    case 'Opening':
    case 'Service':
      lowerObstruction(item, wall, context);
      return;
    case 'Defect': {
      const named = context.name(item, 'name');
      const what = `${item.kind}${named ? ` ${named.name}` : ''} on ${onWall}`;
      const where = context.where(item.where, what);
      if (!where) return;
      const dimension = (key: 'width' | 'depth') => {
        const found = item.attributes.find((each) => each.$type === 'DefectDimension' && each.key === key);
        return found?.$type === 'DefectDimension' ? context.length(found.value, `${key} of ${what}`) : undefined;
      };
      wall.defects.push({
        kind: item.kind,
        name: named,
        where,
        width: dimension('width'),
        depth: dimension('depth'),
        tags: tagsOf(item.attributes, context),
        source: context.span(item),
      });
      return;
    }
    case 'FoundAnchor':
      lowerFoundAnchor(item, wall, context);
      return;
    case 'AbsentLine':
      if (item.what !== undefined) wall.absent.push(item.what.toLowerCase());
      return;
    case 'Acceptance':
      wall.accepted.push(...lowerAcceptance(item, context));
      return;
    case 'AskLine':
      wall.questions.push(...lowerQuestion(item, context));
      return;
    case 'NoteLine':
    case 'PhotoLine':
    case 'TagLine':
      return;
  }
}

function lowerObstruction(item: ast.Opening | ast.Service, wall: Mutable<WallDraft>, context: LowerContext): void {
  const named = context.name(item, 'name');
  const what = `${item.kind.replaceAll('-', ' ')}${named ? ` ${named.name}` : ''} on wall ${wall.name}`;
  const where = context.where(item.where, what);
  const words = new Set<ObstructionWord>();
  const lengths = new Map<ast.ObstructionDimension['key'], ReturnType<LowerContext['length']>>();
  let zone: ReturnType<LowerContext['zone']>;
  let netArea: ReturnType<LowerContext['quantity']>;
  for (const each of item.attributes) {
    if (each.$type === 'ObstructionDimension')
      lengths.set(each.key, context.length(each.value, `${dimensionWords[each.key]} of ${what}`));
    if (each.$type === 'Zone') zone = context.zone(each, what);
    if (each.$type === 'ObstructionArea') netArea = context.quantity(each.area, `net area of ${what}`, 'area');
    if (each.$type === 'ObstructionWord') words.add(each.word);
  }
  wall.obstructions.push({
    kind: item.kind,
    name: named,
    label: item.label,
    // A thing that is there stays in the list even while its place is half typed.
    where: where ?? {
      kind: 'at',
      stations: [illegible(context.span(item))],
      width: undefined,
      source: context.span(item),
    },
    zone,
    off: lengths.get('off'),
    deep: lengths.get('deep'),
    diameter: lengths.get('dia'),
    hub: lengths.get('hub'),
    netArea,
    words,
    tags: tagsOf(item.attributes, context),
    source: context.span(item),
  });
}
const dimensionWords = { off: 'stand-off', deep: 'depth', dia: 'diameter', hub: 'hub' } as const;

function lowerFoundAnchor(item: ast.FoundAnchor, wall: Mutable<WallDraft>, context: LowerContext): void {
  const named = context.name(item, 'name');
  const what = named ? `old anchor ${named.name}` : `old anchor on wall ${wall.name}`;
  const stations = (item.where?.at ?? []).flatMap((each) => context.station(each, what) ?? []);
  sayWidthNotUsed(item.where, 'An anchor', context);
  const states: string[] = [];
  let kind: WallDraft['foundAnchors'][number]['anchor']['kind'];
  let loss: WallDraft['foundAnchors'][number]['anchor']['loss'];
  let washer: string | undefined;
  let nut: string | undefined;
  let credit: 'none' | 'half' | 'full' = 'none';
  const lengths = new Map<ast.FoundAnchorDimension['key'], ReturnType<LowerContext['length']>>();
  for (const each of item.attributes) {
    switch (each.$type) {
      case 'FoundAnchorKind':
        kind = each.kind;
        break;
      case 'FoundAnchorState':
        states.push(each.state);
        break;
      case 'FoundAnchorLoss': {
        const share = context.quantity(each.loss, `loss of ${what}`, 'share');
        if (share) loss = { over: each.over, share };
        break;
      }
      case 'FoundAnchorWasher':
        washer = each.washer;
        if (washer === 'unknown') leanOnUnknown(context, `washer of ${what}`, washer, each);
        break;
      case 'FoundAnchorNut':
        nut = each.nut;
        if (nut === 'unknown') leanOnUnknown(context, `nut of ${what}`, nut, each);
        break;
      case 'FoundAnchorDimension':
        lengths.set(each.key, context.length(each.value, `${each.key} of ${what}`));
        break;
      case 'FoundAnchorCredit':
        credit = each.credit ?? credit;
        break;
    }
  }
  wall.foundAnchors.push({
    name: named,
    stations: stations.length > 0 ? stations : [illegible(context.span(item))],
    anchor: {
      size: context.length(item.size, `size of ${what}`),
      kind,
      states,
      loss,
      washer,
      nut,
      embed: lengths.get('embed'),
      offset: lengths.get('offset'),
      projects: lengths.get('projects'),
      credit,
    },
    tags: tagsOf(item.attributes, context),
    source: context.span(item),
  });
}

/** `at 3'-0" wide 4"` speaks of things that take room along the wall. */
function sayWidthNotUsed(where: ast.Place | undefined, what: string, context: LowerContext): void {
  if (!where?.width) return;
  context.say(
    'wrong-kind',
    `${what} stands at a station and has its own size; write that before or behind, and no width along the wall.`,
    context.span(where.width),
    { severity: 'warning' },
  );
}

const turns = { right: degrees(90), left: degrees(-90), straight: degrees(0) } as const;
const compass = { north: degrees(0), east: degrees(90), south: degrees(180), west: degrees(270) } as const;

function angleOf(text: string | undefined): MicroDegrees | undefined {
  const quantity = text === undefined ? undefined : parseQuantity(text);
  return quantity?.dimension === 'angle' ? degrees(quantity.amount) : undefined;
}

function placeWords(where: ast.Stretch | undefined): string {
  const to = where?.to;
  const words = to?.end ?? (to?.distance?.$type === 'Measured' ? to.distance.amount : undefined);
  return words === undefined ? '' : `, stretch to ${words}`;
}
