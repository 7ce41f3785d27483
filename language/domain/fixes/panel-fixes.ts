import { withoutOpen } from '../fit/intervals.ts';
import { whatPanelMeets } from '../fit/panel-room.ts';
import { stretchWords } from '../fit/thing-words.ts';
import type { Panel } from '../model/design.ts';
import type { Layout, Stretch, Wall } from '../model/layout.ts';
import type { Fix } from '../rules/finding.ts';
import { leastLength } from '../rulesets/compare.ts';
import { limitFor } from '../rulesets/limit-for.ts';
import type { Length } from '../units/length.ts';
import { minus, nanometres, plus, roundDownTo, roundUpTo, zero } from '../units/length.ts';
import { tapeStep } from './tape-step.ts';

/**
 * Ways for a panel past what it meets: ended at the thing, in two parts with the thing between them, or moved past it in one.
 * Parts shorter than a panel may be are not proposed. Nothing that is built is touched.
 */
export function panelsPast(layout: Layout, wall: Wall, panel: Panel): readonly Fix[] {
  const { stretch } = panel;
  if (!stretch || panel.state !== 'planned') return [];
  const step = tapeStep(layout.title.units);
  const met = whatPanelMeets(layout, wall, panel).meetings.map((each) => each.extent);
  const shortest = shortestPanel(layout);
  const parts = withoutOpen(stretch, met)
    .map(
      (each): Stretch => ({
        from: each.from === stretch.from ? each.from : roundUpTo(each.from, step),
        to: each.to === stretch.to ? each.to : roundDownTo(each.to, step),
      }),
    )
    .filter((each) => each.to > each.from && minus(each.to, each.from) >= shortest);
  const { units } = layout.title;
  const [first, second] = parts;
  const fixes: Fix[] = [];
  if (first && second && parts.length === 2) {
    const mark = nextPanel(wall, panel);
    fixes.push({
      title: `Split ${panel.name}: ${stretchWords(first, units)}, and ${mark} ${stretchWords(second, units)}`,
      trust: 'review',
      edits: [
        { kind: 'set-panel-stretch', panel: panel.id, stretch: first },
        { kind: 'insert-panel', wall: wall.id, like: panel.id, mark, stretch: second },
      ],
    });
  }
  const longest = parts.toSorted((a, b) => b.to - b.from - (a.to - a.from))[0];
  if (longest) fixes.push(setStretch(panel, longest, `Cut ${panel.name} back to`, units));
  for (const moved of shiftsPast(wall, panel, stretch, met, step)) {
    fixes.push(setStretch(panel, moved, `Move ${panel.name} to`, units));
  }
  return fixes;
}

/** The panel ended so that it keeps a distance from a stretch of wall, on whichever side leaves more of it. */
export function panelKeptFrom(layout: Layout, panel: Panel, from: Stretch, distance: Length): readonly Fix[] {
  const { stretch } = panel;
  if (!stretch || panel.state !== 'planned') return [];
  const step = tapeStep(layout.title.units);
  const left: Stretch = { from: stretch.from, to: roundDownTo(minus(from.from, distance), step) };
  const right: Stretch = { from: roundUpTo(plus(from.to, distance), step), to: stretch.to };
  return [left, right]
    .filter((each) => each.to > each.from && minus(each.to, each.from) >= shortestPanel(layout))
    .filter((each) => each.to <= stretch.to && each.from >= stretch.from)
    .sort((a, b) => b.to - b.from - (a.to - a.from))
    .map((each) => setStretch(panel, each, `Cut ${panel.name} back to`, layout.title.units));
}

function setStretch(panel: Panel, stretch: Stretch, verb: string, units: Layout['title']['units']): Fix {
  return {
    title: `${verb} ${stretchWords(stretch, units)}`,
    trust: 'review',
    edits: [{ kind: 'set-panel-stretch', panel: panel.id, stretch }],
  };
}

function shortestPanel(layout: Layout): Length {
  const answer = limitFor(layout.rules, 'panel-length', {});
  return (answer.kind === 'limit' ? leastLength(answer.limit)?.reach : undefined) ?? zero;
}

/** As long as it is, ending where the first thing begins or beginning where the last one ends, clear of other panels. */
function shiftsPast(
  wall: Wall,
  panel: Panel,
  stretch: Stretch,
  met: readonly Stretch[],
  step: Length,
): readonly Stretch[] {
  const long = minus(stretch.to, stretch.from);
  const cripple = wall.cripples.find((each) => each.from <= stretch.from && stretch.from < each.to);
  const low = cripple?.from ?? zero;
  const high = cripple?.to ?? wall.length ?? stretch.to;
  const first = roundDownTo(nanometres(Math.min(...met.map((each) => each.from))), step);
  const last = roundUpTo(nanometres(Math.max(...met.map((each) => each.to))), step);
  const others = wall.panels.filter((each) => each.id !== panel.id);
  return [
    { from: minus(first, long), to: first },
    { from: last, to: plus(last, long) },
  ].filter(
    (each) =>
      each.from >= low &&
      each.to <= high &&
      others.every(({ stretch: other }) => !other || other.to <= each.from || other.from >= each.to),
  );
}

/** One above the highest number of the panels that are named alike. */
function nextPanel(wall: Wall, panel: Panel): string {
  const prefix = /^(.*?)\d*$/.exec(panel.name)?.[1] ?? `${panel.name}-`;
  let highest = 0;
  for (const { name } of wall.panels) {
    const rest = name.startsWith(prefix) ? name.slice(prefix.length) : '';
    if (/^\d{1,6}$/.test(rest)) highest = Math.max(highest, Number(rest));
  }
  return `${prefix}${highest + 1}`;
}
