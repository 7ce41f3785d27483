import type { Panel } from '../model/design.ts';
import type { Layout, Obstruction, Stretch, ThingId, Wall } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import type { SourceSpan } from '../model/source.ts';
import { leastLength } from '../rulesets/compare.ts';
import { limitFor } from '../rulesets/limit-for.ts';
import { toleranceOf } from '../rulesets/tolerance.ts';
import type { Length } from '../units/length.ts';
import { midpoint, zero } from '../units/length.ts';
import { thingsOn } from './blocked-by-things.ts';
import type { HeightAnswer, HeightRange } from './height-zone.ts';
import { fullHeight, heightsOf, overlaps, undersideOfJoists } from './height-zone.ts';
import { pieceAt } from './piece-anchors.ts';
import { isOpening } from './studs.ts';
import { thingWords } from './thing-words.ts';

/** Something that stands where a bracing panel goes. */
export interface PanelMeeting {
  readonly thing: Obstruction;
  /** Where it stands along the wall. */
  readonly extent: Stretch;
  /**
   * `crosses`: in the panel's own place. `no-room`: in front of it, nearer than a hammer wants.
   * `hidden`: somebody has to get at it, and the panel would cover it.
   */
  readonly how: 'crosses' | 'no-room' | 'hidden';
  /** How far it stands off the wall. */
  readonly off: Length;
}
export interface PanelMeetings {
  /** In order along the wall. */
  readonly meetings: readonly PanelMeeting[];
  readonly lacking: readonly { readonly wants: string; readonly thing: ThingId; readonly span: SourceSpan }[];
}

/** What a bracing panel on this stretch would meet. Checks and fixes both ask here. Things without a place are not in it. */
export function whatPanelMeets(layout: Layout, wall: Wall, panel: Panel): PanelMeetings {
  const { stretch } = panel;
  if (!stretch) return { meetings: [], lacking: [] };
  const meetings: PanelMeeting[] = [];
  const lacking: PanelMeetings['lacking'][number][] = [];
  const things = thingsOn(wall);
  const { units } = layout.title;
  const lacks = (thing: Obstruction, wants: string): void => {
    lacking.push({ wants, thing: thing.id, span: thing.source });
  };
  const tolerance = toleranceOf(layout.rules);
  const own = panelHeights(wall, panel);
  const thick = knownValue(panel.board?.thick) ?? zero;
  const room = limitFor(layout.rules, 'panel-room', {});
  const hammer = (room.kind === 'limit' ? leastLength(room.limit)?.reach : undefined) ?? zero;
  for (const { thing, from, to } of things.obstructions.overlapping(stretch.from, stretch.to)) {
    if (Math.min(to - stretch.from, stretch.to - from) <= tolerance) continue;
    const found = heightsOf(thing, wall, pieceAt(wall, midpoint(from, to)));
    const theirs = found.kind === 'heights' ? found.heights : fullHeight;
    const reach: HeightRange = own.kind === 'heights' ? own.heights : { low: 0, high: Number.POSITIVE_INFINITY };
    if (!overlaps(reach, theirs)) continue;
    const words = thingWords(thing, units);
    const off = thing.off === undefined || isOpening(thing) ? zero : knownValue(thing.off);
    const far = off !== undefined && off >= hammer && off >= thick && (off > 0 || thick > 0);
    if (far) continue;
    // What goes from below the panel's foot to above it is in the way however high the panel is.
    const certain = theirs.low <= 0 && theirs.high > 0;
    if (off === undefined) lacks(thing, `how far ${words} stands off the wall`);
    else if (found.kind === 'lacking') lacks(thing, found.wants);
    else if (own.kind === 'lacking' && !certain) lacks(thing, own.wants);
    else {
      const crosses = off === 0 || off < thick;
      const how = wantsAccess(thing) ? 'hidden' : crosses ? 'crosses' : 'no-room';
      meetings.push({ thing, extent: { from, to }, how, off });
    }
  }
  return { meetings, lacking };
}

/** From the foot of the sill to the top of the panel, above the top of the concrete. */
export function panelHeights(wall: Wall, panel: Panel): HeightAnswer {
  const height = knownValue(panel.height);
  if (height !== undefined) return { kind: 'heights', heights: { low: 0, high: height } };
  if (panel.height) return { kind: 'lacking', wants: `height of panel ${panel.name}` };
  if (!panel.stretch) return { kind: 'lacking', wants: `place of panel ${panel.name}` };
  const middle = midpoint(panel.stretch.from, panel.stretch.to);
  const joists = undersideOfJoists(wall, pieceAt(wall, middle), panel.stretch);
  return joists.kind === 'lacking' ? joists : { kind: 'heights', heights: { low: 0, high: joists.heights.high } };
}

/** Pipes have no word of their own for what somebody must reach: it stands in their name, label or note. */
const REACHED = /clean-?\s?out|shut-?\s?off|stop-?\s?cock|\bvalve\b|\bmeter\b/i;

function wantsAccess(thing: Obstruction): boolean {
  if (thing.kind === 'meter' || thing.kind === 'hatch') return true;
  if (isOpening(thing)) return false;
  return [thing.label, thing.name, ...thing.tags.notes].some((text) => text !== undefined && REACHED.test(text));
}
