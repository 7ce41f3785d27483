import { thingsOn } from '../../fit/blocked-by-things.ts';
import { fullHeight, heightBetween, heightsOf } from '../../fit/height-zone.ts';
import { intervalIndex } from '../../fit/interval-index.ts';
import type { NewWood } from '../../fit/new-wood.ts';
import { newWoodOn } from '../../fit/new-wood.ts';
import { whatPanelMeets } from '../../fit/panel-room.ts';
import { pieceAt } from '../../fit/piece-anchors.ts';
import { thingWords } from '../../fit/thing-words.ts';
import { panelKeptFrom } from '../../fixes/panel-fixes.ts';
import type { Panel } from '../../model/design.ts';
import type { Obstruction, Stretch, Wall } from '../../model/layout.ts';
import { knownValue } from '../../model/reading.ts';
import { leastLength } from '../../rulesets/compare.ts';
import type { LimitQuery } from '../../rulesets/limit-for.ts';
import type { Limit } from '../../rulesets/rule-set.ts';
import type { Length } from '../../units/length.ts';
import { midpoint, nanometres, zero } from '../../units/length.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { panelDemo } from '../example-texts.ts';
import type { Fix } from '../finding.ts';
import { sourceWords } from '../limit-words.ts';

export const flueTooClose = defineRule({
  id: 'clearance/flue-too-close',
  severity: 'error',
  on: 'wall',
  summary: 'New wood comes nearer to a flue or a chimney than the rules in force allow.',
  why: 'Wood beside a hot pipe dries, chars and one day takes fire.',
  remedy:
    'Cut the wood back, or have the flue shielded or changed to a double-wall one by the trade that it belongs to.',
  subjects: { 'flue-clear': 'length', 'chimney-clear': 'length', 'panel-length': 'length', tolerance: 'length' },
  examples: [
    {
      failing: panelDemo({ panels: [`F-P1 0'-0" to 8'-0"`], found: [`flue FL at 8'-7" wide 4" single-wall`] }),
      passing: panelDemo({ panels: [`F-P1 0'-0" to 7'-11"`], found: [`flue FL at 8'-7" wide 4" single-wall`] }),
    },
  ],
  check({ wall }, context) {
    const hot = thingsOn(wall);
    const { wood, lacking } = newWoodOn(wall);
    if (wood.length === 0 && lacking.length === 0) return;
    const isHot = ({ kind }: Obstruction): boolean => kind === 'flue' || kind === 'chimney';
    const flues = wall.obstructions.filter((each) => isHot(each) && !each.remedied);
    if (flues.length === 0) return;
    for (const each of lacking) context.lacks({ wants: each.wants, at: each.span, thing: each.thing });
    for (const flue of hot.placeless.filter(isHot)) {
      const words = thingWords({ ...flue, stretch: undefined }, context.layout.title.units);
      context.lacks({ wants: `place of ${words} on wall ${wall.name}`, at: flue.source, thing: flue.id });
    }
    const index = intervalIndex(wood);
    const panels = new Map(wall.panels.map((each) => [each.id, each]));
    const onWall = hot.obstructions.overlapping(Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY);
    for (const { thing: flue, from, to } of onWall) {
      if (!isHot(flue)) continue;
      const answer = context.limit(flue.kind === 'chimney' ? 'chimney-clear' : 'flue-clear', queryOf(flue));
      const clear = answer.kind === 'limit' ? leastLength(answer.limit)?.reach : undefined;
      if (answer.kind !== 'limit' || clear === undefined) continue;
      for (const near of index.overlapping(from - clear, to + clear)) {
        const panel = near.kind === 'panel' ? panels.get(near.thing) : undefined;
        lookAt(wall, flue, { from, to }, { wood: near, panel }, { limit: answer.limit, clear }, context);
      }
    }
  },
});

/** Where nobody wrote down which it is, the limit without a condition holds. */
function queryOf({ words }: Obstruction): LimitQuery {
  if (words.has('single-wall')) return { 'single-wall': { kind: 'holds' } };
  return words.has('double-wall') ? { 'double-wall': { kind: 'holds' } } : {};
}

function lookAt(
  wall: Wall,
  flue: Obstruction,
  extent: Stretch,
  { wood, panel }: { readonly wood: NewWood; readonly panel: Panel | undefined },
  { limit, clear }: { readonly limit: Limit; readonly clear: Length },
  context: RuleContext,
): void {
  const { layout, show } = context;
  const found = heightsOf(flue, wall, pieceAt(wall, midpoint(extent.from, extent.to)));
  const off = flue.off === undefined ? zero : knownValue(flue.off);
  const along = Math.max(0, extent.from - wood.to, wood.from - extent.to);
  const up = heightBetween(
    found.kind === 'heights' ? found.heights : fullHeight,
    wood.heights.kind === 'heights' ? wood.heights.heights : fullHeight,
  );
  const out = Math.max(0, (off ?? zero) - wood.out);
  // Straight along one axis this is exact.
  const distance = Math.hypot(along, up, out);
  if (distance >= clear) return;
  const wants = [
    ...(found.kind === 'lacking' ? [found.wants] : []),
    ...(wood.heights.kind === 'lacking' ? [wood.heights.wants] : []),
    ...(off === undefined ? [`how far ${thingWords(flue, layout.title.units)} stands off the wall`] : []),
  ];
  if (wants.length > 0) {
    for (const each of wants) context.lacks({ wants: each, at: flue.source, thing: flue.id });
    return;
  }
  // A panel across it is another mistake, and ending the panel there mends both.
  if (panel && whatPanelMeets(layout, wall, panel).meetings.some((each) => each.thing.id === flue.id)) return;
  const kind = flue.words.has('single-wall') ? 'single-wall ' : flue.words.has('double-wall') ? 'double-wall ' : '';
  const words = thingWords(flue, layout.title.units);
  context.report({
    message:
      `${wood.words.charAt(0).toUpperCase()}${wood.words.slice(1)} comes within ${show(nanometres(Math.round(distance)))} of ${kind}${words}: ` +
      `at least ${show(clear)} (${sourceWords(limit)}). Cut it back, or have the ${flue.kind} shielded or changed by its trade.`,
    thing: wood.thing,
    about: `${wood.thing} ${wood.from} ${flue.id}`,
    layer: 'design',
    station: wood.from,
    stationTo: wood.to,
    span: wood.span,
    related: [{ span: flue.source, message: words }],
    citation: limit.citation,
    fixes: (now): readonly Fix[] => (panel ? panelKeptFrom(now, panel, extent, clear) : []),
  });
}
