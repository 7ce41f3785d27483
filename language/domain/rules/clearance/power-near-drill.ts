import { fitSubjects } from '../../fit/footprint.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { placedHole } from './anchor-fit.ts';
import { reportService, sayServiceLacking } from './service-near-drill.ts';

export const powerNearDrill = defineRule({
  id: 'clearance/power-near-drill',
  severity: 'error',
  on: 'anchor',
  summary:
    'A hole for an anchor comes too near to an electrical panel, a conduit or a meter, or falls into the working space in front of a panel.',
  why: 'A bit that meets a live wire kills. The space in front of a panel stays clear, so that somebody can work on it and get away.',
  remedy:
    'Slide the anchor away, or have the power turned off and the wiring moved by an electrician. Locate and expose it on both sides of the wall before any drilling.',
  subjects: {
    'power-clear': fitSubjects['power-clear'],
    'working-space-wide': fitSubjects['working-space-wide'],
    'working-space-deep': fitSubjects['working-space-deep'],
  },
  examples: [
    {
      failing: demo({ anchors: sound, found: [`conduit C1 "riser" at 7'-6" wide 2" riser live`] }),
      passing: demo({ anchors: sound, found: [`conduit C1 "riser" at 6'-8" wide 2" riser live`] }),
    },
    {
      failing: demo({
        anchors: sound,
        found: [`electrical-panel EP 9'-0" to 10'-0" zone 40" to 60" below top`],
      }).replace(`at 11'-2"`, `at 11'-8"`),
      passing: demo({ anchors: sound, found: [`electrical-panel EP 6'-2" to 7'-2" zone 40" to 60" below top`] }),
    },
  ],
  check({ wall, anchor, connector }, context) {
    const placed = placedHole(context.layout, wall, anchor, connector);
    if (!placed) return;
    sayServiceLacking(placed, 'power', context);
    reportService(wall, anchor, placed, 'power', context);
  },
});
