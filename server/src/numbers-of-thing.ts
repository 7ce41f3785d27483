import { anchorsOf, demandsByLine, lineOf, linesOf } from '../../language/domain/documents/calculation-line.ts';
import {
  demandInWords,
  forceInWords,
  shareInWords,
  sourceOf,
} from '../../language/domain/documents/calculation-words.ts';
import { anchorOfWall } from '../../language/domain/engineering/layout-capacity.ts';
import { type LayoutDemand, layoutDemand } from '../../language/domain/engineering/layout-demand.ts';
import { isRefused } from '../../language/domain/engineering/trace.ts';
import type { Layout, Wall } from '../../language/domain/model/layout.ts';
import type { Fact } from './describe.ts';
import { placeFacts } from './place-facts.ts';
import type { PlacedThing } from './things.ts';

/** What a thing is counted on to carry, and what is asked of its line: the short form of the calculation sheet. */
export function numbersOfThing(layout: Layout, placed: PlacedThing): readonly Fact[] {
  switch (placed.kind) {
    case 'anchor': {
      const place = placeFacts(layout, placed.wall, placed.thing);
      const counted = anchorOfWall(placed.wall, placed.thing);
      if (!counted) return place;
      const { capacity } = counted;
      const text = isRefused(capacity)
        ? `none: ${capacity.reason}`
        : `${forceInWords(capacity.value, layout.title.units)} along the wall (${sourceOf(capacity)})`;
      return [...place, { name: 'capacity counted', text }, ...factsOfLine(layout, placed.wall)];
    }
    case 'wall':
      return factsOfLine(layout, placed.wall);
    default:
      return [];
  }
}

function factsOfLine(layout: Layout, wall: Wall): readonly Fact[] {
  const resisting = linesOf(layout).find(({ walls }) => walls.includes(wall));
  if (!resisting) return [];
  const line = lineOf(resisting.name, resisting.walls, demandsByLine(demandOf(layout))(resisting.name));
  // A file that gives neither weight nor hazard does not ask for forces: no line of refusals on every hover.
  if (isRefused(line.demand)) return [];
  const anchors = anchorsOf(line);
  return [
    { name: `line ${line.name}`, text: `demand ${demandInWords(line, layout.title.units)}` },
    ...(anchors ? [{ name: 'its anchors', text: shareInWords(anchors) }] : []),
  ];
}

const demands = new WeakMap<Layout, LayoutDemand>();
function demandOf(layout: Layout): LayoutDemand {
  const known = demands.get(layout);
  if (known) return known;
  const demand = layoutDemand(layout, { existingBuildingShare: false });
  demands.set(layout, demand);
  return demand;
}
