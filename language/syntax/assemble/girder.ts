import type { Connector } from '../../domain/hardware/connector.ts';
import type { Girder, Post, PostHardware } from '../../domain/model/layout.ts';
import { noTags } from '../../domain/model/layout.ts';
import { distanceBetween } from '../../domain/model/outline.ts';
import type { MarkState } from '../../domain/model/record.ts';
import type { GirderDraft, PostHardwareDraft, WorkDraft } from '../drafts.ts';
import { sayGirderTrouble } from './girder-trouble.ts';
import { remediesOnGirder } from './remedies.ts';
import { createStationFinder } from './stations.ts';
import type { Say, ThingNamer } from './wall.ts';
import { createThingNamer, nearestName, workBlock } from './wall.ts';
import { connectorOf, sayMisplacedOnGirder, withHardwareOf } from './work.ts';

interface GirderInputs {
  readonly draft: GirderDraft;
  /** Of every `work on` this girder. */
  readonly works: readonly WorkDraft[];
  readonly connectors: ReadonlyMap<string, Connector>;
  /** By mark in lower case; a mark without an event is planned. */
  readonly states: ReadonlyMap<string, MarkState>;
  readonly say: Say;
}

/** A girder with its posts placed, its new hardware on them, and what the design does to them. */
export function assembleGirder(inputs: GirderInputs): Girder {
  const { draft, works, connectors } = inputs;
  const say: Say = (problem) => inputs.say({ wall: draft.name, ...problem });
  const length = draft.from && draft.to ? distanceBetween(draft.from, draft.to) : undefined;
  const finder = createStationFinder(
    length,
    () => undefined,
    (trouble) => sayGirderTrouble(draft.name, trouble, say),
  );
  const named = createThingNamer(draft.name, say);
  const hardware = hardwareByPost(works, draft, { ...inputs, say }, named);
  const found = draft.posts.map(
    (post): Post => ({
      ...named('post', post),
      station: finder.station(post.at),
      size: post.size,
      height: post.height,
      found: post.found,
      leans: post.leans,
      ...(post.leansPer ? { leansPer: post.leansPer } : {}),
      gap: post.gap,
      hardware: (post.name && hardware.get(post.name.name.toLowerCase())) ?? [],
    }),
  );
  sayMisplacedOnGirder(works, draft.name, say);
  const { posts, remedies } = remediesOnGirder({
    works,
    owner: draft.name,
    posts: found,
    finder,
    connectors,
    say,
  });
  const noWork = works.find((work) => work.noWork)?.noWork;
  const accepted = [...draft.accepted, ...works.flatMap((work) => work.accepted)].map(({ at, ...rest }) => ({
    ...rest,
    station: at ? finder.station(at) : undefined,
  }));
  return {
    id: `girder:${draft.name}`,
    name: draft.name,
    source: draft.source,
    tags: draft.tags ?? noTags,
    ...(draft.label === undefined ? {} : { label: draft.label }),
    size: draft.size,
    from: draft.from,
    to: draft.to,
    underside: draft.underside,
    posts,
    splices: draft.splices.flatMap((splice) => {
      const station = finder.station(splice.at);
      return station === undefined ? [] : [{ station, words: splice.words, source: splice.source }];
    }),
    ends: draft.ends,
    ...(draft.spans.length > 0 ? { spans: draft.spans } : {}),
    ...(remedies.length > 0 ? { remedies } : {}),
    ...(noWork ? { noWork } : {}),
    ...(accepted.length > 0 ? { accepted } : {}),
    ...(works.length > 0 ? { workBlocks: works.map(workBlock) } : {}),
  };
}

/** Caps and bases by the post that they go on, in small letters; one for a post that is not there is told. */
function hardwareByPost(
  works: readonly WorkDraft[],
  draft: GirderDraft,
  { connectors, states, say }: GirderInputs,
  named: ThingNamer,
): ReadonlyMap<string, readonly PostHardware[]> {
  const names = draft.posts.flatMap((post) => post.name?.name ?? []);
  const known = new Set(names.map((name) => name.toLowerCase()));
  const byPost = new Map<string, PostHardware[]>();
  for (const each of works.flatMap((work) => work.postHardware)) {
    const post = each.on.name.toLowerCase();
    if (!known.has(post)) {
      say({
        code: 'unresolved-name',
        layer: 'design',
        message: `No post \`${each.on.name}\` on girder ${draft.name} for ${each.role} ${each.name.name}.`,
        span: each.on.source,
        replacements: nearestName(each.on, names),
      });
    }
    const piece = postHardware(each);
    const others = byPost.get(post);
    if (others) others.push(piece);
    else byPost.set(post, [piece]);
  }
  return byPost;

  function postHardware(each: PostHardwareDraft): PostHardware {
    const site = { inputs: { connectors }, say };
    return {
      ...named(each.role, each),
      name: each.name.name,
      nameSource: each.name.source,
      role: each.role,
      connectorName: each.connector.name,
      connectorSource: each.connector.source,
      connector: connectorOf(each.connector, site),
      bothSides: each.bothSides,
      shim: each.shim,
      ...(each.proposed ? { proposed: true } : {}),
      ...withHardwareOf(each, site),
      state: states.get(each.name.name.toLowerCase()) ?? 'planned',
    };
  }
}
