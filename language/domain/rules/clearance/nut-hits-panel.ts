import { nutBehindPanel } from '../../fit/nut-and-panel.ts';
import { tapeStep } from '../../fixes/tape-step.ts';
import type { Layout, NewAnchor, Wall } from '../../model/layout.ts';
import { formatExact } from '../../units/format-length.ts';
import { roundUpTo } from '../../units/length.ts';
import { defineRule } from '../define.ts';
import { panelDemo } from '../example-texts.ts';
import type { Fix } from '../finding.ts';
import { placedAnchor } from './anchor-fit.ts';

export const nutHitsPanel = defineRule({
  id: 'clearance/nut-hits-panel',
  severity: 'error',
  on: 'anchor',
  summary:
    'The washer of a bolt stands in the way of a bracing panel: its middle is nearer to the back of the panel than half of it.',
  why: 'The panel does not lie against the studs, or the washer is cut. Both are found out when the sheet is already on.',
  remedy: 'Set the bolt further back on the sill, so that the washer clears the face of the studs.',
  subjects: {},
  examples: [
    {
      failing: panelDemo({ panels: [`F-P1 0'-0" to 8'-0"`], offsets: ['3-1/2"', '3-7/16"'] }),
      passing: panelDemo({ panels: [`F-P1 0'-0" to 8'-0"`], offsets: ['3-1/2"', '3-1/2"'] }),
    },
  ],
  check({ wall, anchor, connector }, context) {
    const placed = placedAnchor(context.layout, wall, anchor, connector);
    if (!placed) return;
    const nut = nutBehindPanel(wall, anchor, placed.fitCase, placed.station);
    if (nut.kind === 'lacking') {
      context.lacks({ wants: nut.wants, at: nut.span, thing: nut.thing });
      return;
    }
    if (nut.kind === 'clear') return;
    const { show, showStation } = context;
    const middle = anchor.offset ? '' : ' in the middle,';
    const next =
      anchor.state === 'installed' ? 'It is in: fur the panel out, or end it beside the bolt.' : 'Move it back.';
    context.report({
      message:
        `The washer of ${anchor.name} at ${showStation(placed.station)} runs into the back of panel ${nut.panel.name}: the bolt stands${middle} ` +
        `${show(nut.offset)} from the inner edge of the sill; ledge ${show(nut.ledge)} and half a washer are ${show(nut.wanted)}. ${next}`,
      span: anchor.offset?.source ?? anchor.stationSource ?? anchor.source,
      related: [{ span: nut.panel.stretchSource, message: `panel ${nut.panel.name}` }],
      fixes: (now) => movesBack(now, wall, anchor, nut.panel.name),
    });
  },
});

/** This bolt alone, or with it every other one that runs into the same panel. */
function movesBack(layout: Layout, wall: Wall, anchor: NewAnchor, panel: string): readonly Fix[] {
  if (anchor.state !== 'planned') return [];
  const { units } = layout.title;
  const hits = wall.anchors.flatMap((each) => {
    const placed = each.connector && each.state === 'planned' && placedAnchor(layout, wall, each, each.connector);
    const nut = placed ? nutBehindPanel(wall, each, placed.fitCase, placed.station) : undefined;
    if (nut?.kind !== 'hits' || nut.panel.name !== panel) return [];
    return [{ anchor: each, offset: roundUpTo(nut.wanted, tapeStep(units)) }];
  });
  const own = hits.filter((each) => each.anchor.id === anchor.id);
  const fix = (title: string, moved: typeof hits): Fix => ({
    title,
    trust: 'review',
    edits: moved.map((each) => ({ kind: 'set-offset', anchor: each.anchor.id, offset: each.offset })),
  });
  return [
    ...own.map((each) => fix(`Set ${anchor.name} at offset ${formatExact(each.offset, units)}`, own)),
    ...(hits.length > 1
      ? [fix(`Set back ${hits.length === 2 ? 'both' : `all ${hits.length}`} bolts behind panel ${panel}`, hits)]
      : []),
  ];
}
