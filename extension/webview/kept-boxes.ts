import type { Box } from './boxes.ts';

/**
 * The boxes of groups as they are drawn, each asked for once until something in it is another: to ask has the page laid out, and of the
 * hundred walls of a large plan an edit changes one.
 */
export interface KeptBoxes {
  of(group: SVGGraphicsElement): Box;
  /** @param changed groups in which something is another; of what is around them, each is named too. */
  forget(changed: Iterable<Element>): void;
}

/** @param shownAs names what of a drawing is shown at all: layers, level of detail. */
export function keptBoxes(shownAs: () => string): KeptBoxes {
  let boxes = new WeakMap<Element, Box>();
  let ofState = '';
  return {
    of(group) {
      const state = shownAs();
      if (state !== ofState) boxes = new WeakMap();
      ofState = state;
      const known = boxes.get(group);
      if (known) return known;
      const box = group.getBBox();
      boxes.set(group, box);
      return box;
    },
    forget(changed) {
      for (const each of changed) boxes.delete(each);
    },
  };
}
