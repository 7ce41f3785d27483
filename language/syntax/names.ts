import type { CutBlock } from './cut.ts';
import { parseBlock } from './parse.ts';
import { nodesOf, placeOf, type TreeNode } from './tree.ts';

/** What a name can be the name of. Marks are new work: one in a house; things were found: one on their wall or girder. */
export type NameKind =
  | 'wall'
  | 'girder'
  | 'line'
  | 'space'
  | 'connector'
  | 'rule set'
  | 'price list'
  | 'mark'
  | 'thing';

/** A name where it stands in a block. */
export interface NameUse {
  readonly role: 'declares' | 'refers';
  /** A reference may mean a name of any of these. */
  readonly kinds: readonly NameKind[];
  readonly name: string;
  /** The wall or girder that a thing stands on, as written; `undefined` where the text does not say. */
  readonly owner: string | undefined;
  /** UTF-16 offsets from the start of the block, quotes included. */
  readonly start: number;
  readonly end: number;
}

/** Every name in a block, in the order of the text. */
export function namesInBlock(cut: CutBlock): readonly NameUse[] {
  const { tree } = parseBlock(cut);
  if (!tree) return [];
  const owner = 'name' in tree && (tree.$type === 'Wall' || tree.$type === 'Girder') ? tree.name : ownerOfWork(tree);
  const uses: NameUse[] = [];
  for (const node of nodesOf(tree)) {
    for (const [property, meaning] of Object.entries(meanings[node.$type] ?? {})) {
      for (const use of usesOf(node, property, meaning, owner)) uses.push(use);
    }
  }
  return uses.sort((a, b) => a.start - b.start);
}

interface Meaning {
  readonly role: NameUse['role'];
  readonly kinds: readonly NameKind[];
}
const declares = (kind: NameKind): Meaning => ({ role: 'declares', kinds: [kind] });
const refers = (...kinds: readonly NameKind[]): Meaning => ({ role: 'refers', kinds });

/** By the kind of node and the property of it that holds the name. */
const meanings: Readonly<Record<string, Readonly<Record<string, Meaning>>>> = {
  Wall: { name: declares('wall') },
  Girder: { name: declares('girder') },
  ResistanceLine: { name: declares('line') },
  LineWalls: { walls: refers('wall') },
  Space: { name: declares('space') },
  Connector: { name: declares('connector') },
  RuleSet: { name: declares('rule set') },
  RulesFact: { rules: refers('rule set') },
  Prices: { name: declares('price list') },
  Price: { of: refers('connector') },
  Labour: { of: refers('connector') },
  SillPiece: { name: declares('thing') },
  Opening: { name: declares('thing') },
  Service: { name: declares('thing') },
  Defect: { name: declares('thing') },
  FoundAnchor: { name: declares('thing') },
  Post: { name: declares('thing') },
  Station: { of: refers('thing') },
  Work: { on: refers('wall', 'girder') },
  NewAnchor: { name: declares('mark'), connector: refers('connector') },
  Angles: { name: declares('mark'), connector: refers('connector') },
  Panel: { name: declares('mark') },
  HoldDown: { name: declares('mark'), connector: refers('connector') },
  PostHardware: { name: declares('mark'), connector: refers('connector'), on: refers('thing') },
  WithHardware: { hardware: refers('connector') },
  Replacement: { name: refers('thing') },
  FoundThingWork: { on: refers('thing'), connector: refers('connector') },
  Acceptance: { on: refers('thing', 'mark') },
  Installed: { marks: refers('mark') },
  InstalledUsing: { connector: refers('connector') },
  Omitted: { marks: refers('mark') },
  Tested: { marks: refers('mark', 'thing') },
  Changed: { marks: refers('mark') },
  Discovered: { on: refers('wall', 'girder') },
  DeadHole: { on: refers('wall', 'girder') },
};

/** The properties that hold names; a test compares them with the grammar. */
export const nameProperties: ReadonlyMap<string, ReadonlySet<string>> = new Map(
  Object.entries(meanings).map(([type, properties]) => [type, new Set(Object.keys(properties))]),
);

function ownerOfWork(tree: TreeNode): string | undefined {
  return tree.$type === 'Work' && 'on' in tree && typeof tree.on === 'string' ? tree.on : undefined;
}

function* usesOf(
  node: TreeNode,
  property: string,
  { role, kinds }: Meaning,
  owner: string | undefined,
): Generator<NameUse> {
  const held: unknown = (node as TreeNode & Readonly<Record<string, unknown>>)[property];
  const names = Array.isArray(held) ? held : [held];
  for (const [index, name] of names.entries()) {
    const place = placeOf(node, property, index);
    if (typeof name !== 'string' || !place) continue;
    const use = { role, kinds, name, owner: kinds.includes('thing') ? owner : undefined };
    const dot = name.indexOf('.');
    // `F.X4`: the thing X4 of wall F.
    if (role === 'refers' && dot > 0 && kinds.includes('thing') && place.end - place.start === name.length) {
      const [onWall, rest] = [name.slice(0, dot), name.slice(dot + 1)];
      yield {
        role,
        kinds: ['wall', 'girder'],
        name: onWall,
        owner: undefined,
        start: place.start,
        end: place.start + dot,
      };
      yield { ...use, name: rest, owner: onWall, start: place.start + dot + 1, end: place.end };
    } else yield { ...use, start: place.start, end: place.end };
  }
}
