import { sillTop } from '../../fit/height-zone.ts';
import { panelHeights } from '../../fit/panel-room.ts';
import { pieceAt } from '../../fit/piece-anchors.ts';
import type { Panel } from '../../model/design.ts';
import type { Layout, Point, Space, Wall } from '../../model/layout.ts';
import { knownValue } from '../../model/reading.ts';
import type { Length } from '../../units/length.ts';
import { feet, inches, larger, midpoint, minus, nanometres, smaller } from '../../units/length.ts';
import { defineRule } from '../define.ts';
import { panelDemo } from '../example-texts.ts';
import type { Fix } from '../finding.ts';

export const panelWontGoIn = defineRule({
  id: 'clearance/panel-wont-go-in',
  severity: 'warning',
  on: 'wall',
  summary: 'A piece of a bracing panel is larger than the smallest opening on its way in.',
  why: 'It gets cut on site, and a joint that nobody planned has no wood behind it to nail to.',
  remedy: 'Plan a joint on a flat block, so that the sheet comes in two pieces, or enlarge the way in.',
  subjects: {},
  examples: [
    {
      failing: panelDemo({ panels: [`F-P1 0'-0" to 8'-0"`], access: '18" x 24"' }),
      passing: panelDemo({ panels: [`F-P1 0'-0" to 8'-0" flat-block 2x4`], access: '18" x 24"' }),
    },
  ],
  check({ wall }, context) {
    const { layout, show } = context;
    for (const panel of wall.panels) {
      if (!panel.stretch || panel.state !== 'planned') continue;
      const space = spaceBehind(layout, wall, panel);
      if (!space) {
        // Without a plan of the spaces nobody says which way the sheets go.
        if (layout.spaces.length > 0)
          context.lacks({
            wants: `space along wall ${wall.name} at panel ${panel.name}`,
            at: panel.source,
            thing: panel.id,
          });
        continue;
      }
      const wide = knownValue(space.access?.wide);
      const tall = knownValue(space.access?.tall);
      if (wide === undefined || tall === undefined) {
        context.lacks({ wants: `size of the way into ${space.name}`, at: space.source, thing: space.id });
        continue;
      }
      const sheet = pieceOf(wall, panel);
      if ('wants' in sheet) {
        context.lacks({ wants: sheet.wants, at: panel.source, thing: panel.id });
        continue;
      }
      // A sheet goes through edge on: its smaller side along the larger side of the opening.
      if (smaller(sheet.long, sheet.high) <= larger(wide, tall)) continue;
      context.report({
        message:
          `A sheet of panel ${panel.name} is ${show(sheet.high)} x ${show(sheet.long)}; the way into ${space.name} is ${show(wide)} x ${show(tall)}, ` +
          'so it does not go in whole. Joint it on a flat block, or enlarge the way in.',
        thing: panel.id,
        about: panel.id,
        layer: 'design',
        station: panel.stretch.from,
        stationTo: panel.stretch.to,
        span: panel.stretchSource,
        related: [{ span: space.source, message: `the way into ${space.name}` }],
        fixes: () => jointed(panel),
      });
    }
  },
});

/** The longest side of a sheet as it is sold (common practice, no source). */
const SHEET_LONG = feet(8);

function pieceOf(
  wall: Wall,
  panel: Panel,
): { readonly long: Length; readonly high: Length } | { readonly wants: string } {
  const { stretch } = panel;
  if (!stretch) return { wants: `place of panel ${panel.name}` };
  const heights = panelHeights(wall, panel);
  if (heights.kind === 'lacking') return heights;
  // Without a height of its own the panel covers the studs and plates, and begins on the sill.
  const foot = panel.height ? 0 : (sillTop(pieceAt(wall, midpoint(stretch.from, stretch.to))) ?? 0);
  const high = nanometres(heights.heights.high - foot);
  const jointed = panel.flatBlock !== undefined || panel.flatBlocked === true;
  return {
    long: smaller(minus(stretch.to, stretch.from), SHEET_LONG),
    high: jointed ? nanometres(Math.ceil(high / 2)) : high,
  };
}

function jointed(panel: Panel): readonly Fix[] {
  return [
    {
      title: `Joint ${panel.name} on a flat block`,
      trust: 'review',
      edits: [{ kind: 'add-flat-block', panel: panel.id }],
    },
  ];
}

/** The outline is taped, and the spaces are drawn along it: they meet within a few inches. */
const NEAR = inches(6);

/** The space on the inside of the wall where the panel stands. */
function spaceBehind(layout: Layout, wall: Wall, { stretch }: Panel): Space | undefined {
  const { plan, length } = wall;
  if (!plan || !length || !stretch) return undefined;
  const share = midpoint(stretch.from, stretch.to) / length;
  const at: Point = {
    x: nanometres(Math.round(plan.from.x + (plan.to.x - plan.from.x) * share)),
    y: nanometres(Math.round(plan.from.y + (plan.to.y - plan.from.y) * share)),
  };
  const within = (value: Length, a: Length, b: Length): boolean =>
    value >= smaller(a, b) - NEAR && value <= larger(a, b) + NEAR;
  return layout.spaces.find(
    ({ from, to, kind }) =>
      (kind === 'crawl' || kind === 'basement') &&
      from &&
      to &&
      within(at.x, from.x, to.x) &&
      within(at.y, from.y, to.y),
  );
}
