import { fitSubjects } from '../../fit/footprint.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { placedHole } from './anchor-fit.ts';
import { reportService, sayServiceLacking } from './service-near-drill.ts';

export const gasNearDrill = defineRule({
  id: 'clearance/gas-near-drill',
  severity: 'error',
  on: 'anchor',
  summary: 'A hole for an anchor comes nearer to a gas pipe or a gas meter than the rules in force allow.',
  why: 'A bit that wanders or breaks through opens the pipe: fire and explosion. What runs behind the wall counts as much as what is seen.',
  remedy:
    'Slide the anchor away, or have the pipe moved by the licensed trade. Locate and expose the pipe on both sides of the wall before any drilling.',
  subjects: { 'gas-clear': fitSubjects['gas-clear'] },
  examples: [
    {
      failing: demo({ anchors: sound, found: [`gas-pipe G1 "riser" at 9'-2" wide 3/4" riser live`] }),
      passing: demo({ anchors: sound, found: [`gas-pipe G1 "riser" at 6'-8" wide 3/4" riser live`] }),
    },
  ],
  check({ wall, anchor, connector }, context) {
    const placed = placedHole(context.layout, wall, anchor, connector);
    if (!placed) return;
    sayServiceLacking(placed, 'gas', context);
    reportService(wall, anchor, placed, 'gas', context);
  },
});
