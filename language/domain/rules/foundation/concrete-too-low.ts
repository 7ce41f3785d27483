import { rangeThatFits } from '../../fit/footprint.ts';
import { knownValue, profileAt } from '../../model/reading.ts';
import { inTheWay, placedAnchor, sayLacking, waysOut } from '../clearance/anchor-fit.ts';
import { defineRule } from '../define.ts';
import { demo } from '../example-texts.ts';
import { reportWords } from './report-words.ts';

const onePlate = { anchors: [`1'-0"`], length: `2'-0"` } as const;

export const concreteTooLow = defineRule({
  id: 'foundation/concrete-too-low',
  severity: 'error',
  on: 'anchor',
  summary: 'Less concrete shows than the connector needs.',
  why: 'A side plate reaches down the face of the foundation. Where too little of it shows, its lower holes end up in the soil or at the bottom edge of the concrete.',
  remedy: 'Bolt through the sill, take a shorter plate, or dig the soil away and measure again.',
  subjects: {},
  examples: [
    {
      failing: demo({ ...onePlate, foundation: `thick 8" showing 8-7/8" top 0"` }),
      passing: demo({ ...onePlate, foundation: `thick 8" showing 9" top 0"` }),
    },
  ],
  check({ wall, anchor, connector }, context) {
    const placed = placedAnchor(context.layout, wall, anchor, connector);
    if (!placed) return;
    sayLacking(placed, ['concrete-low'], context);
    const [first] = inTheWay(placed, ['concrete-low']);
    if (!first) return;
    const { show, showStation } = context;
    const range = rangeThatFits(connector, 'showing');
    const stretch = wall.foundation.find((each) => each.id === first.thing);
    const has = stretch?.showing && knownValue(profileAt(stretch.showing, placed.station));
    const least = range?.least;
    const wanted = least === undefined ? '' : `: at least ${show(least)}`;
    context.report({
      message:
        `${has === undefined ? first.words : `${show(has)} of concrete shows`} at ${anchor.name} (${connector.name}), ${showStation(placed.station)} on wall ` +
        `${wall.name}${wanted} (${reportWords(connector)}). Bolt through the sill, or dig the soil away and measure again.`,
      span: anchor.stationSource ?? anchor.source,
      related: [
        ...(first.span ? [{ span: first.span, message: first.words }] : []),
        { span: connector.source, message: `what ${connector.name} fits` },
      ],
      fixes: (now) => waysOut(now, wall, placed.piece, anchor),
    });
  },
});
