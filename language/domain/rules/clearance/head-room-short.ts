import { footprintOf } from '../../fit/footprint.ts';
import type { NewAnchor } from '../../model/layout.ts';
import { knownValue, profileAt } from '../../model/reading.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import type { Fix } from '../finding.ts';
import { askedBy, drillOf, inTheWay, placedAnchor, sayLacking, waysOut } from './anchor-fit.ts';

const lowCrawl = 'size 2x6 set-back 3/4" headroom 11-1/8"';
const onePlateLess = ['stepped-plate-s', 'stepped-plate-s', 'bolt-half'];

export const headRoomShort = defineRule({
  id: 'clearance/head-room-short',
  severity: 'error',
  on: 'anchor',
  summary: 'The free height above the sill is less than the drill and its bit want.',
  why: 'The hole comes out slanted, or cannot be drilled at all, and nobody finds out before the crew lies under the floor.',
  remedy: 'Use a right-angle drill where that is enough, or a connector that is drilled from the side.',
  subjects: { 'headroom-bolt': 'length' },
  examples: [
    {
      failing: demo({ anchors: sound, sill: lowCrawl, connectors: onePlateLess }),
      passing: demo({ anchors: sound, sill: lowCrawl }),
    },
  ],
  check({ wall, anchor, connector }, context) {
    const placed = placedAnchor(context.layout, wall, anchor, connector);
    const piece = placed?.piece;
    // What is in the wall was drilled.
    if (!placed || !piece || anchor.state === 'installed') return;
    sayLacking(placed, ['headroom'], context);
    if (inTheWay(placed, ['headroom']).length === 0) return;
    const wanted = footprintOf(placed.fitCase).headroom;
    const free = piece.headroom && knownValue(profileAt(piece.headroom, placed.station));
    if (wanted === undefined || free === undefined) return;
    const query = drillOf(anchor);
    const answer = context.limit('headroom-bolt', query);
    const limit = answer.kind === 'limit' ? answer.limit : undefined;
    const { show, showStation } = context;
    const drill = anchor.rightAngleDrill ? 'a right-angle drill' : 'a straight drill';
    const other = anchor.rightAngleDrill ? '' : 'a right-angle drill, or ';
    context.report({
      message:
        `${anchor.name} (${connector.name}) at ${showStation(placed.station)} has ${show(free)} of free height above sill ${piece.name}; ` +
        `${drill} wants ${show(wanted)} (${askedBy(limit, wanted, connector)}). Use ${other}a plate from the side.`,
      span: anchor.connectorSource ?? anchor.source,
      related: [{ span: piece.source, message: `headroom of sill ${piece.name}` }],
      citation: limit?.citation,
      fixes: (now) => [...turnTheDrill(anchor), ...waysOut(now, wall, piece, anchor)],
    });
  },
});

function turnTheDrill(anchor: NewAnchor): readonly Fix[] {
  if (anchor.rightAngleDrill || anchor.state !== 'planned') return [];
  return [
    {
      title: `Drill ${anchor.name} with a right-angle drill`,
      trust: 'review',
      edits: [{ kind: 'set-right-angle-drill', anchor: anchor.id }],
    },
  ];
}
