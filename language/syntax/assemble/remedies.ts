import { isOpening } from '../../domain/fit/studs.ts';
import type { Connector } from '../../domain/hardware/connector.ts';
import type { Remedy, ReplaceWood, TreatThing } from '../../domain/model/design.ts';
import type {
  Defect,
  FoundAnchor,
  IrregularJoist,
  IrregularStud,
  NameReference,
  Obstruction,
  Post,
  SillPiece,
  Stretch,
  ThingId,
} from '../../domain/model/layout.ts';
import type { SourceSpan } from '../../domain/model/source.ts';
import { sixteenth } from '../../domain/units/length.ts';
import type { ReplacementDraft, TreatmentDraft, WorkDraft } from '../drafts.ts';
import type { StationFinder } from './stations.ts';
import type { Say, ThingNamer } from './wall.ts';
import { createThingNamer, nearestName } from './wall.ts';
import { connectorOf } from './work.ts';

interface Site {
  readonly works: readonly WorkDraft[];
  /** Name of the wall or girder. */
  readonly owner: string;
  readonly finder: StationFinder;
  readonly connectors: ReadonlyMap<string, Connector>;
  readonly say: Say;
}

interface FoundOnWall {
  readonly obstructions: readonly Obstruction[];
  readonly defects: readonly Defect[];
  readonly foundAnchors: readonly FoundAnchor[];
}

interface WallSite extends Site {
  readonly found: FoundOnWall;
  readonly pieces: readonly SillPiece[];
  /** Where each `replace sill` and `sister sill` came to lie. */
  readonly sillPlaces: ReadonlyMap<ReplacementDraft, Stretch>;
  readonly irregularJoists: readonly IrregularJoist[];
  readonly studs: readonly IrregularStud[];
}

/** What the design does to things found on a wall, and those things with the effect on them. The survey stays legible beside it. */
export function remediesOnWall(site: WallSite): FoundOnWall & { readonly remedies: readonly Remedy[] } {
  const { works, owner, found } = site;
  if (works.every((work) => work.replacements.length === 0 && work.treatments.length === 0))
    return { ...found, remedies: [] };
  const effects = createEffects(site.say);
  const inSight = createSight([
    ...found.obstructions.map((thing): Treatable => ({ thing, what: isOpening(thing) ? 'opening' : 'obstruction' })),
    ...found.defects.map((thing): Treatable => ({ thing, what: 'defect' })),
    ...found.foundAnchors.map((thing): Treatable => ({ thing, what: 'found-anchor' })),
    ...site.pieces.map((thing): Treatable => ({ thing, what: 'sill' })),
  ]);
  const named = quietNamer(owner);
  const remedies = inTextOrder(works).flatMap((draft): readonly Remedy[] =>
    isReplacement(draft) ? replaceOnWall(draft, site, named) : [treat(draft, inSight, 'wall', site, effects, named)],
  );
  return {
    remedies,
    obstructions: found.obstructions.map((thing) => {
      if (effects.has(thing.id, 'remove')) return { ...thing, remedied: 'removed' };
      return effects.has(thing.id, 'relocate') ? { ...thing, remedied: 'relocated' } : thing;
    }),
    defects: found.defects.map((thing) => (effects.has(thing.id, 'repair') ? { ...thing, remedied: true } : thing)),
    foundAnchors: found.foundAnchors.map((thing) => {
      const states = [
        ...(effects.has(thing.id, 'remove') ? ['to-be-removed'] : []),
        ...(effects.has(thing.id, 'grout') ? ['abandoned'] : []),
      ];
      const newWasher = effects.washer(thing.id);
      if (states.length === 0 && !newWasher) return thing;
      return { ...thing, states: [...thing.states, ...states], ...(newWasher ? { newWasher } : {}) };
    }),
  };
}

function replaceOnWall(draft: ReplacementDraft, site: WallSite, named: ThingNamer): readonly ReplaceWood[] {
  switch (draft.what) {
    case 'sill': {
      const target = draft.name && site.pieces.find((piece) => isCalled(piece, draft.name))?.id;
      return [replaceWood(draft, named, { target, stretch: site.sillPlaces.get(draft) })];
    }
    case 'joist':
      return [replaceFraming(draft, site.irregularJoists, site, named)];
    case 'stud': {
      const found = site.studs.filter((stud) => stud.layer === 'survey');
      return [replaceFraming(draft, found, site, named)];
    }
    case 'post':
      sayMisplaced(draft, `A post stands under a girder, and ${site.owner} is a wall`, site.say);
      return [];
  }
}

/** What the design does to the posts of a girder. */
export function remediesOnGirder(site: Site & { readonly posts: readonly Post[] }): {
  readonly posts: readonly Post[];
  readonly remedies: readonly Remedy[];
} {
  const { works, owner, posts, finder, say } = site;
  const effects = createEffects(say);
  const replaced = new Map<ThingId, ReplacementDraft>();
  const inSight = createSight(posts.map((thing): Treatable => ({ thing, what: 'post' })));
  const named = quietNamer(owner);
  const remedies = inTextOrder(works).flatMap((draft): readonly Remedy[] => {
    if (!isReplacement(draft)) return [treat(draft, inSight, 'girder', site, effects, named)];
    if (draft.what !== 'post') {
      sayMisplaced(draft, `A ${draft.what} is wood of a wall, and ${owner} is a girder`, say);
      return [];
    }
    const stretch = draft.where && finder.places(draft.where)[0]?.stretch;
    const post = draft.name
      ? posts.find((each) => isCalled(each, draft.name))
      : posts.find((each) => stretch !== undefined && each.station !== undefined && covers(stretch, each.station));
    if (!post) sayNoPost(draft, posts, site);
    else if (draft.verb === 'replace') {
      effects.note(post.id, 'replace', draft.name ?? { name: post.name ?? 'this post', source: draft.source });
      replaced.set(post.id, draft);
    }
    return [replaceWood(draft, named, { target: post?.id, stretch })];
  });
  return {
    remedies,
    posts: posts.map((post): Post => {
      const wood = replaced.get(post.id);
      const remedied: Post['remedied'] = effects.has(post.id, 'remove')
        ? { how: 'removed' }
        : wood && { how: 'replaced', size: wood.words.size };
      return {
        ...post,
        ...(remedied ? { remedied } : {}),
        ...(effects.has(post.id, 'shore') ? { shored: true } : {}),
        ...(effects.has(post.id, 'pad') ? { newPad: true } : {}),
      };
    }),
  };
}

// ---- one remedy

type Verb = TreatmentDraft['verb'];
type Treatable = {
  readonly what: 'obstruction' | 'opening' | 'defect' | 'found-anchor' | 'sill' | 'post';
  readonly thing: { readonly id: ThingId; readonly name: string | undefined; readonly kind?: string | undefined };
};

const takes: Readonly<Record<Verb, ReadonlySet<Treatable['what']>>> = {
  remove: new Set(['obstruction', 'found-anchor', 'post']),
  grout: new Set(['found-anchor']),
  relocate: new Set(['obstruction']),
  repair: new Set(['obstruction', 'opening', 'defect', 'found-anchor', 'sill', 'post']),
  washer: new Set(['found-anchor']),
  shore: new Set(['sill', 'post']),
  pad: new Set(['post']),
};
const takesInWords: Readonly<Record<Verb, string>> = {
  remove: 'takes out an old anchor, a thing in the way or a post',
  grout: 'fills the hole of an old anchor that is given up',
  relocate: 'moves a thing in the way',
  repair: 'mends what was found',
  washer: 'puts a plate washer on an old anchor',
  shore: 'holds up a post or a sill board while work goes on',
  pad: 'gives a post a new footing',
};
const whatInWords: Readonly<Record<Treatable['what'], string>> = {
  obstruction: 'a thing in the way',
  opening: 'an opening',
  defect: 'a defect',
  'found-anchor': 'an old anchor',
  sill: 'a sill board',
  post: 'a post',
};

function treat(
  draft: TreatmentDraft,
  inSight: Sight,
  place: 'wall' | 'girder',
  site: Site,
  effects: Effects,
  named: ThingNamer,
): TreatThing {
  const { verb, on } = draft;
  const connector = connectorOf(draft.connector, { inputs: site, say: site.say });
  const hits = inSight.called(on, site.owner);
  const fitting = hits.filter((hit) => takes[verb].has(hit.what));
  const [target] = fitting.length > 0 ? fitting : hits;
  if (!target) sayNothingCalled(draft, inSight, place, site);
  else if (hits.length > 1 && hits.every((hit) => hit.thing.name === undefined)) {
    site.say({
      code: 'unresolved-name',
      layer: 'design',
      message: `${hits.length} things on ${place} ${site.owner} are a ${on.name}; give the one that you mean a name and write it here.`,
      span: on.source,
    });
  } else if (fitting.length === 0) sayDoesNotSuit(draft, target, site);
  else if (verb === 'washer' && connector && connector.kind !== 'plate-washer') {
    site.say({
      code: 'wrong-kind',
      layer: 'design',
      message: `${connector.name} is a ${connector.kind.replaceAll('-', ' ')}, no plate washer; ${on.name} stays as found.`,
      span: draft.connector?.source ?? draft.source,
    });
  } else {
    for (const { thing } of fitting) effects.note(thing.id, verb, on, connector);
  }
  const known = target && isLicensedWork(target) && (verb === 'remove' || verb === 'relocate');
  return {
    ...named(verb, { name: { ...on, name: target?.thing.name ?? on.name }, source: draft.source, tags: draft.tags }),
    verb,
    on,
    target: target?.thing.id,
    connectorName: draft.connector?.name,
    connector,
    ...(known ? { byLicensedTrade: true } : {}),
  };
}

interface Sight {
  /** By name, `X4` or `F.X4`; a defect without a name also by its kind. */
  called(on: NameReference, owner: string): readonly Treatable[];
  /** A name that was most likely meant, of a thing that the verb can be done to. */
  nearest(draft: TreatmentDraft): ReturnType<typeof nearestName>;
}

/** More near misses than this are told without a guess: each guess looks through every name. */
const MOST_GUESSES = 20;

function createSight(things: readonly Treatable[]): Sight {
  const byName = new Map<string, Treatable[]>();
  const byKind = new Map<string, Treatable[]>();
  for (const each of things) {
    const { name, kind } = each.thing;
    const [index, key] = name === undefined && each.what === 'defect' ? [byKind, kind] : [byName, name?.toLowerCase()];
    if (key === undefined) continue;
    const others = index.get(key);
    if (others) others.push(each);
    else index.set(key, [each]);
  }
  let guesses = 0;
  return {
    called(on, owner) {
      const typed = on.name.toLowerCase();
      const prefix = `${owner.toLowerCase()}.`;
      const name = typed.startsWith(prefix) ? typed.slice(prefix.length) : typed;
      return byName.get(name) ?? byKind.get(name) ?? [];
    },
    nearest({ on, verb }) {
      guesses += 1;
      if (guesses > MOST_GUESSES) return [];
      const suited = things.filter(({ what }) => takes[verb].has(what));
      return nearestName(
        on,
        suited.flatMap(({ thing }) => thing.name ?? []),
      );
    },
  };
}

function sayNothingCalled(draft: TreatmentDraft, inSight: Sight, place: string, site: Site): void {
  site.say({
    code: 'unresolved-name',
    layer: 'design',
    message: `Nothing called \`${draft.on.name}\` was found on ${place} ${site.owner}, so \`${draft.verb}\` does nothing.`,
    span: draft.on.source,
    replacements: inSight.nearest(draft),
  });
}

function sayDoesNotSuit({ verb, on }: TreatmentDraft, { what }: Treatable, site: Site): void {
  const message =
    what === 'opening'
      ? `${on.name} is an opening: what would fill it was not surveyed, so it goes on barring anchors. Say in a \`note\` what is built there.`
      : `\`${verb}\` ${takesInWords[verb]}; ${on.name} is ${whatInWords[what]}, and stays as found.${advice(verb, what, on.name)}`;
  const severity = what === 'opening' ? 'warning' : 'error';
  site.say({ code: 'wrong-kind', severity, layer: 'design', message, span: on.source });
}

function advice(verb: Verb, what: Treatable['what'], name: string): string {
  if (what === 'sill' && verb === 'remove') return ` Write \`replace sill ${name}\`.`;
  if (what === 'post' && verb === 'relocate') return ` Write \`replace post ${name}\`.`;
  return what === 'defect' ? ` Write \`repair ${name}\`.` : '';
}

/** Gas and power, and appliances that burn gas unless somebody looked: by the licensed trade or the utility. */
const LICENSED: ReadonlySet<string> = new Set<Obstruction['kind']>([
  'gas-pipe',
  'conduit',
  'electrical-panel',
  'meter',
  'water-heater',
  'furnace',
]);
const isLicensedWork = ({ what, thing }: Treatable): boolean =>
  what === 'obstruction' && thing.kind !== undefined && LICENSED.has(thing.kind);

function replaceFraming(
  draft: ReplacementDraft,
  found: readonly (IrregularJoist | IrregularStud)[],
  { finder, say }: Site,
  named: ThingNamer,
): ReplaceWood {
  if (draft.name || !draft.where) {
    say({
      code: 'missing-part',
      layer: 'design',
      message: `A ${draft.what} has no name; write where it stands: \`${draft.verb} ${draft.what} at 4'-0"\`.`,
      span: draft.name?.source ?? draft.source,
    });
  }
  const stretch = draft.where && finder.places(draft.where)[0]?.stretch;
  const there = stretch ? found.filter((each) => covers(stretch, each.station)) : [];
  return replaceWood(draft, named, { target: there.length === 1 ? there[0]?.id : undefined, stretch });
}

function replaceWood(
  { verb, what, name, words, tags, source }: ReplacementDraft,
  named: ThingNamer,
  place: Pick<ReplaceWood, 'target' | 'stretch'>,
): ReplaceWood {
  return {
    ...named(`${verb}-${what}`, { name, source, tags }),
    verb,
    what,
    ...place,
    size: words.size,
    ...(words.treated === undefined ? {} : { treated: words.treated }),
    ...(words.species === undefined ? {} : { species: words.species }),
  };
}

function sayNoPost(draft: ReplacementDraft, posts: readonly Post[], { owner, say }: Site): void {
  say({
    code: draft.name || draft.where ? 'unresolved-name' : 'missing-part',
    layer: 'design',
    message: draft.name
      ? `No post \`${draft.name.name}\` on girder ${owner} to ${draft.verb}.`
      : draft.where
        ? `No post of girder ${owner} stands there; write its name.`
        : `Say which post of girder ${owner}: \`${draft.verb} post P1\`.`,
    span: draft.name?.source ?? draft.source,
    replacements: draft.name
      ? nearestName(
          draft.name,
          posts.flatMap((post) => post.name ?? []),
        )
      : [],
  });
}

function sayMisplaced({ source }: ReplacementDraft, words: string, say: Say): void {
  say({
    code: 'wrong-kind',
    layer: 'design',
    message: `${words}; this line is left out. Move it to the \`work on\` where it belongs.`,
    span: source,
  });
}

// ---- effects

interface Effects {
  note(id: ThingId, verb: Verb | 'replace', on: NameReference, washer?: Connector): void;
  has(id: ThingId, verb: Verb): boolean;
  washer(id: ThingId): Connector | undefined;
}

/** Verbs that cannot both be done to one thing. */
const groupOf = (verb: Verb | 'replace'): string =>
  verb === 'remove' || verb === 'relocate' || verb === 'replace' ? 'away' : verb;

function createEffects(say: Say): Effects {
  const done = new Map<ThingId, Set<string>>();
  const washers = new Map<ThingId, Connector>();
  const first = new Map<string, SourceSpan>();
  return {
    note(id, verb, on, washer) {
      const key = `${groupOf(verb)} ${id}`;
      const earlier = first.get(key);
      if (earlier && earlier !== on.source) {
        say({
          code: 'repeated-word',
          severity: 'warning',
          layer: 'design',
          message: `Another line speaks of ${on.name} already; the first one counts. Delete one of the two.`,
          span: on.source,
          related: [{ span: earlier, message: 'the first one' }],
        });
        return;
      }
      first.set(key, on.source);
      if (washer) washers.set(id, washer);
      const verbs = done.get(id);
      if (verbs) verbs.add(verb);
      else done.set(id, new Set([verb]));
    },
    has: (id, verb) => done.get(id)?.has(verb) ?? false,
    washer: (id) => washers.get(id),
  };
}

// ---- helpers

function inTextOrder(works: readonly WorkDraft[]): readonly (ReplacementDraft | TreatmentDraft)[] {
  return works.flatMap((work) =>
    [...work.replacements, ...work.treatments].sort((a, b) => a.source.start - b.source.start),
  );
}

const isReplacement = (draft: ReplacementDraft | TreatmentDraft): draft is ReplacementDraft => 'what' in draft;

/** Remedies are named after what they treat; two of one kind on one thing are told as such, not as one name given twice. */
const quietNamer = (owner: string): ThingNamer => createThingNamer(owner, () => undefined);

const isCalled = (thing: { readonly name: string | undefined }, name: NameReference | undefined): boolean =>
  name !== undefined && thing.name?.toLowerCase() === name.name.toLowerCase();

/** Two readings of one place differ by what a tape shows. */
const covers = (stretch: Stretch, station: number): boolean =>
  stretch.from - sixteenth <= station && station <= stretch.to + sixteenth;
