import type { ThingName } from '../../language/protocol/preview.ts';

/** The groups of a drawing by the things that they show and by what they are of them; kept up when a few are made or go. */
export interface ThingsDrawn {
  readonly drawing?: SVGSVGElement;
  of(thing: ThingName): Iterable<SVGGElement>;
  ofRole(role: string): Iterable<SVGGElement>;
  all(): Iterable<SVGGElement>;
  /** With all in them. */
  takeIn(made: readonly Element[]): void;
  forget(gone: readonly Element[]): void;
}

export function thingsDrawn(drawing?: SVGSVGElement): ThingsDrawn {
  const byName = groupsBy('data-thing');
  const byRole = groupsBy('data-role');
  const things: ThingsDrawn = {
    ...(drawing && { drawing }),
    of: byName.of,
    ofRole: byRole.of,
    all: byName.all,
    takeIn(made) {
      for (const group of groupsWithin(made)) {
        byName.add(group);
        byRole.add(group);
      }
    },
    forget(gone) {
      for (const group of groupsWithin(gone)) {
        byName.remove(group);
        byRole.remove(group);
      }
    },
  };
  if (drawing) things.takeIn([drawing]);
  return things;
}

function groupsBy(attribute: string) {
  const groups = new Map<string, Set<SVGGElement>>();
  return {
    of: (value: string): Iterable<SVGGElement> => groups.get(value) ?? [],
    *all(): Iterable<SVGGElement> {
      for (const some of groups.values()) yield* some;
    },
    add(group: SVGGElement): void {
      const value = group.getAttribute(attribute);
      if (!value) return;
      const known = groups.get(value);
      if (known) known.add(group);
      else groups.set(value, new Set([group]));
    },
    remove(group: SVGGElement): void {
      const value = group.getAttribute(attribute) ?? '';
      const known = groups.get(value);
      if (known?.delete(group) && known.size === 0) groups.delete(value);
    },
  };
}

function* groupsWithin(elements: readonly Element[]): Iterable<SVGGElement> {
  for (const element of elements) {
    if (element instanceof SVGGElement && element.hasAttribute('data-thing')) yield element;
    yield* element.querySelectorAll<SVGGElement>('g[data-thing]');
  }
}

/** As an attribute: a `dataset` is an object of its own for each of thousands of groups. */
export function nameOf(group: SVGElement): ThingName {
  return group.getAttribute('data-thing') ?? '';
}

export function thingOf(target: EventTarget | null): ThingName | undefined {
  const group = target instanceof Element ? target.closest<SVGElement>('[data-thing]') : null;
  return group ? nameOf(group) : undefined;
}

/** `F/anchor:F-8` is an `anchor`. */
export function kindOf(thing: ThingName): string {
  return thing.split('/').pop()?.split(':')[0] ?? '';
}
