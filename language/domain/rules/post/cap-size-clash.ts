import type { Connector, FitSubject } from '../../hardware/connector.ts';
import type { Girder, Post, PostHardware } from '../../model/layout.ts';
import { knownValue } from '../../model/reading.ts';
import { formatExact } from '../../units/format-length.ts';
import type { Length } from '../../units/length.ts';
import { half, magnitude, minus, plus, scale, zero } from '../../units/length.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { girderDemo } from '../example-texts.ts';
import type { Fix } from '../finding.ts';

export const capSizeClash = defineRule({
  id: 'post/cap-size-clash',
  severity: 'error',
  on: 'house',
  summary: 'The post or the girder is wider or narrower than its new cap takes.',
  why: 'A cap lies against both. Where the post is thinner than the girder it does not touch it, and its screws hold air.',
  remedy: 'Use plates with a shim, a cap in two pieces, or another post.',
  subjects: {},
  examples: [
    {
      failing: girderDemo('cap none', '  cap G-C1 cap-plates on P1 both-sides\n', `size 3" x 3"`),
      passing: girderDemo('cap none', '  cap G-C1 cap-plates on P1 both-sides\n'),
    },
    {
      failing: girderDemo('cap none', '  cap G-C1 cap-plates on P1 both-sides\n', `size 3-5/8" x 3-5/8"`),
      passing: girderDemo('cap none', '  cap G-C1 cap-plates on P1 both-sides shim 15/16"\n', `size 3-5/8" x 3-5/8"`),
    },
  ],
  check({ layout }, context) {
    for (const girder of layout.girders) {
      for (const post of girder.posts) {
        for (const cap of post.hardware) {
          const { connector } = cap;
          if (cap.role === 'cap' && connector) checkCap(girder, post, cap, connector, context);
        }
      }
    }
  },
});

function checkCap(girder: Girder, post: Post, cap: PostHardware, connector: Connector, context: RuleContext): void {
  const { show } = context;
  const name = post.name ?? 'the post';
  const size = post.remedied?.how === 'replaced' ? post.remedied.size : post.size;
  const beam = knownValue(girder.size?.thick);
  const own = knownValue(size?.wide);
  const lack = (wants: string): void => context.lacks({ wants, at: cap.source, thing: post.id });
  if (beam === undefined) lack(`width of girder ${girder.name}`);
  if (own === undefined) lack(`width of post ${name}`);
  if (beam === undefined || own === undefined) return;
  if (cap.shim?.kind === 'unknown') {
    lack(`thickness of the shim at ${cap.name}`);
    return;
  }
  const wrong =
    outOfRange(connector, 'post-width', own, `post ${name}`, show) ??
    outOfRange(connector, 'beam-width', beam, `girder ${girder.name}`, show) ??
    unevenFaces(beam, own, cap, name, girder.name, show);
  if (wrong === undefined) return;
  context.report({
    message: `${cap.name} (${connector.name}) does not fit at post ${name}: ${wrong} (${reportWords(connector)}). Shim it, take another kind, or replace the post.`,
    thing: cap.id,
    layer: 'design',
    wall: girder.name,
    piece: post.name,
    station: post.station,
    span: cap.source,
    related: [
      { span: post.source, message: `post ${name}` },
      { span: girder.source, message: `girder ${girder.name}` },
    ],
    fixes: (now) => shimmed(beam, own, cap, (length) => formatExact(length, now.title.units)),
  });
}

/** A pair of plates takes a shim on either side. */
function shimmed(beam: Length, post: Length, cap: PostHardware, write: (length: Length) => string): readonly Fix[] {
  const gap = magnitude(minus(beam, post));
  if (!cap.bothSides || cap.shim || gap % 2 !== 0) return [];
  const text = `shim ${write(half(gap))}`;
  return [
    { title: `Put a ${text} on each side`, trust: 'review', edits: [{ kind: 'add-words', span: cap.source, text }] },
  ];
}

function outOfRange(
  connector: Connector,
  subject: FitSubject,
  width: Length,
  what: string,
  show: (length: Length) => string,
): string | undefined {
  for (const each of connector.fits) {
    if (each.subject !== subject) continue;
    if (each.least !== undefined && width < each.least)
      return `${what} is ${show(width)} wide, it takes at least ${show(each.least)}`;
    if (each.most !== undefined && width > each.most)
      return `${what} is ${show(width)} wide, it takes at most ${show(each.most)}`;
  }
  return undefined;
}

/** Plates on both faces lie against post and girder at once: shims make up what the post is thinner. */
function unevenFaces(
  beam: Length,
  post: Length,
  cap: PostHardware,
  postName: string,
  girderName: string,
  show: (length: Length) => string,
): string | undefined {
  const shim = knownValue(cap.shim) ?? zero;
  const sides = cap.bothSides ? 2 : 1;
  const packed = plus(post < beam ? post : beam, scale(shim, sides));
  const wide = post < beam ? beam : post;
  // A cap for one face lies level with that of the girder where the post stands flush there.
  if (!cap.bothSides || packed === wide) return undefined;
  const thin = post < beam ? `post ${postName}` : `girder ${girderName}`;
  const gap = minus(wide, packed);
  return gap > 0
    ? `${thin} is ${show(gap)} thinner in all than what the plates lie against`
    : `the shims make ${thin} ${show(minus(packed, wide))} too thick`;
}

function reportWords({ demo, report, name }: Connector): string {
  if (demo) return `demo values of ${name}`;
  return report === undefined ? `no report given for ${name}` : `report ${report}`;
}
