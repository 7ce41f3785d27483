import { type Stud, studsOf } from '../fit/studs.ts';
import type { Panel } from '../model/design.ts';
import type { Layout, Stretch, Wall } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import { inches, type Length, larger, midpoint, minus, plus, scale, smaller, zero } from '../units/length.ts';
import { plateUnderside, sillTopAt } from './elevation-frame.ts';
import { levelAt, shapeOf, type WallShape } from './wall-shape.ts';

/** What goes behind and through one bracing panel; `undefined` where nobody can count it. */
export interface BehindPanel {
  readonly nailers: number | undefined;
  readonly flatBlocks: number | undefined;
  readonly ventHoles: number | undefined;
  /** Measurements without which there is no count. */
  readonly lacking: readonly string[];
}

/** Narrower than this nobody cuts a block or bores a hole for air. */
const LEAST_BAY = inches(4);
/** Clear wood between a hole for air and the wood above or below it: common practice, no source. */
const HOLE_CLEAR = inches(1);

/** One nailer, one flat block and one pair of vent holes for each clear space between the studs behind the panel. */
export function behindPanel(layout: Layout, wall: Wall, panel: Panel): BehindPanel {
  const asksNailers = panel.nailers !== undefined && panel.nailers !== 'none';
  const asksBlocks = panel.flatBlock !== undefined || panel.flatBlocked === true;
  const asksHoles = panel.ventHoles !== undefined && panel.ventHoles !== 'none';
  const none = {
    nailers: asksNailers ? undefined : 0,
    flatBlocks: asksBlocks ? undefined : 0,
    ventHoles: asksHoles ? undefined : 0,
  };
  if (!asksNailers && !asksBlocks && !asksHoles) return { ...none, lacking: [] };
  const shape = shapeOf(wall, layout);
  const place = panelPlace(shape, panel);
  if (!place) return { ...none, lacking: [`place of panel ${panel.name}`] };
  const { studs, lacking } = studsOf(wall);
  const wants = lacking.filter(({ from, to }) => to >= place.from && from <= place.to).map((each) => each.wants);
  const inPlace = studs.filter(({ centre }) => centre >= place.from && centre <= place.to);
  if (inPlace.length === 0 && wants.length === 0) wants.push(`studs of wall ${wall.name}`);
  if (wants.length > 0) return { ...none, lacking: [...new Set(wants)] };
  const blocked = blockedBays(place, inPlace);
  const diameter = panel.ventHoles && panel.ventHoles !== 'none' ? knownValue(panel.ventHoles.diameter) : undefined;
  return {
    nailers: asksNailers ? blocked.length : 0,
    flatBlocks: asksBlocks ? blocked.length : 0,
    ventHoles:
      asksHoles && diameter !== undefined
        ? blocked.reduce((sum, bay) => sum + ventHoleLevels({ shape, wall }, panel, bay).length, 0)
        : none.ventHoles,
    lacking: asksHoles && diameter === undefined ? [`size of the vent holes of panel ${panel.name}`] : [],
  };
}

/** What of it lies on the wall; `undefined` for one without a place. */
export function panelPlace({ length }: WallShape, { stretch }: Panel): Stretch | undefined {
  if (!stretch) return undefined;
  const from = larger(stretch.from, zero);
  const to = smaller(stretch.to, length);
  return to > from ? { from, to } : undefined;
}

/** Clear spaces between the studs behind a panel, and between the outer studs and its ends. */
export function baysBehind({ from, to }: Stretch, studs: readonly Stud[]): readonly Stretch[] {
  const edges = [
    { from, to: from },
    ...studs.map(({ centre, halfWidth }) => ({ from: minus(centre, halfWidth), to: plus(centre, halfWidth) })),
    { from: to, to },
  ];
  return edges.slice(1).flatMap((right, index): Stretch[] => {
    const start = larger(edges[index]?.to ?? from, from);
    const end = smaller(right.from, to);
    return end > start ? [{ from: start, to: end }] : [];
  });
}

/** Those wide enough for a block. */
export function blockedBays(place: Stretch, studs: readonly Stud[]): readonly Stretch[] {
  return baysBehind(place, studs).filter((bay) => minus(bay.to, bay.from) >= LEAST_BAY);
}

export function nailerThickness({ nailers }: Panel): Length {
  return nailers && nailers !== 'none' ? (knownValue(nailers.size?.thick) ?? inches(1.5)) : zero;
}

/** Centres of the holes for air in one bay, above datum: two, top and bottom, where the wall is high enough for both. */
export function ventHoleLevels(
  on: { readonly shape: WallShape; readonly wall: Wall },
  panel: Panel,
  bay: Stretch,
): readonly Length[] {
  const { ventHoles } = panel;
  const diameter = ventHoles && ventHoles !== 'none' ? knownValue(ventHoles.diameter) : undefined;
  if (!ventHoles || ventHoles === 'none' || diameter === undefined || minus(bay.to, bay.from) < diameter) return [];
  const middle = midpoint(bay.from, bay.to);
  const cripple = on.wall.cripples.find((each) => each.from <= middle && middle <= each.to);
  const upper = cripple ? plateUnderside(on, cripple, middle) : (levelAt(on.shape, 'joistUnderside', middle) ?? zero);
  const lower = plus(sillTopAt(on, middle), nailerThickness(panel));
  const inset = plus(HOLE_CLEAR, scale(diameter, 1, 2));
  const [high, low] = [minus(upper, inset), plus(lower, inset)];
  return ventHoles.pattern === 'one' || minus(high, low) < diameter ? [midpoint(upper, lower)] : [high, low];
}
