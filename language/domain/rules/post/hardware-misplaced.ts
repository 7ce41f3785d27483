import { kindsFor, kindWords } from '../../hardware/kinds-for-use.ts';
import { defineRule } from '../define.ts';

export const hardwareMisplaced = defineRule({
  id: 'post/hardware-misplaced',
  severity: 'error',
  on: 'house',
  summary: 'A cap or base line uses a connector of a kind that cannot tie a post.',
  why: 'A post that is only set between girder and pier walks off it when the ground shakes. Hardware of another kind leaves it so, while the drawing shows it as tied.',
  remedy: 'Name a connector that is made for the head or the foot of a post.',
  subjects: {},
  examples: [{ failing: girder('washer-3'), passing: girder('cap-plates') }],
  check({ layout }, context) {
    for (const girder of layout.girders) {
      for (const post of girder.posts) {
        for (const piece of post.hardware) {
          const { connector, role } = piece;
          if (!connector || kindsFor[role].includes(connector.kind)) continue;
          const meant = role === 'cap' ? kindWords['post-cap'] : kindWords['post-base'];
          context.report({
            message: `${piece.name} is \`${piece.connectorName}\`, ${kindWords[connector.kind]}, which ties no post. Use ${meant}.`,
            thing: piece.id,
            layer: 'design',
            wall: girder.name,
            piece: post.name,
            station: post.station,
            span: piece.connectorSource ?? piece.source,
          });
        }
      }
    }
  },
});

function girder(cap: string): string {
  return [
    'layout "Example"',
    '  rules existing-building',
    '',
    'house',
    '  storeys 2',
    '  dwellings 1',
    '',
    `girder G size 5-1/2" x 7-1/2" from (0, 0) to (20'-0", 0) underside -6"`,
    `  post P1 6x6 at 6'-0" height 3'-0"`,
    '',
    'work on G',
    `  cap C1 ${cap} on P1`,
    '',
  ].join('\n');
}
