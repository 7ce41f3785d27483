import type { Girder, Post } from '../../model/layout.ts';
import { knownValue } from '../../model/reading.ts';
import { defineRule } from '../define.ts';
import { girderDemo } from '../example-texts.ts';

export const postCapMissing = defineRule({
  id: 'post/post-cap-missing',
  severity: 'warning',
  on: 'house',
  summary: 'Nothing positive ties a girder down to its post.',
  why: 'Toenails and shims hold a girder while it is pressed down. In an earthquake it lifts and slides, the post falls over, and the floor drops.',
  remedy: 'Add a post cap or a pair of plates that the post and the girder both fit.',
  subjects: {},
  examples: [
    {
      failing: girderDemo('cap toenails', ''),
      passing: girderDemo('cap toenails', '  cap G-C1 cap-plates on P1 both-sides\n'),
    },
  ],
  check({ layout }, context) {
    for (const girder of layout.girders) {
      for (const post of girder.posts) {
        if (post.hardware.some((each) => each.role === 'cap') || post.remedied?.how === 'removed') continue;
        const found = post.found.get('cap');
        const name = post.name ?? 'the post';
        if (!found || found.includes('unknown')) {
          context.lacks({ wants: `cap of post ${name} under girder ${girder.name}`, at: post.source, thing: post.id });
          continue;
        }
        if (!found.every((word) => NO_TIE.has(word))) continue;
        const has = found.includes('none') ? 'nothing' : `only ${found.join(', ').replaceAll('-', ' ')}`;
        context.report({
          message:
            `${has === 'nothing' ? 'Nothing ties' : `${has.charAt(0).toUpperCase()}${has.slice(1)} tie`} girder ${girder.name} to post ${name}${placeWords(post, context.showStation)} ` +
            `(common practice, no source).${widthWords(girder, post, context.show)} Add a cap or a pair of plates.`,
          thing: post.id,
          layer: 'survey',
          wall: girder.name,
          piece: post.name,
          station: post.station,
          span: post.source,
          related: [{ span: girder.source, message: `girder ${girder.name}` }],
        });
      }
    }
  },
});

/** What holds a girder only as long as it is pressed down. */
const NO_TIE: ReadonlySet<string> = new Set(['none', 'toenails', 'shims', 'loose']);

const placeWords = (post: Post, show: (length: NonNullable<Post['station']>) => string): string =>
  post.station === undefined ? '' : ` at ${show(post.station)}`;

/** Where the two differ in width, the cap that one would think of first does not fit. */
function widthWords(girder: Girder, post: Post, show: (length: NonNullable<Post['station']>) => string): string {
  const beam = knownValue(girder.size?.thick);
  const wide = knownValue(post.size?.wide);
  if (beam === undefined || wide === undefined || beam === wide) return '';
  return ` The post is ${show(wide)} wide and the girder ${show(beam)}, so a one-piece cap does not fit.`;
}
