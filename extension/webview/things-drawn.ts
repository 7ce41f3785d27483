import type { ThingName } from '../../language/protocol/preview.ts';

/** The groups of a drawing by the things that they show; found once for each drawing, not once for each question. */
export interface ThingsDrawn {
  readonly drawing?: SVGSVGElement;
  readonly all: readonly SVGGElement[];
  of(thing: ThingName): readonly SVGGElement[];
  /** In drawing order, each once. */
  readonly names: readonly ThingName[];
}

export function thingsDrawn(drawing: SVGSVGElement): ThingsDrawn {
  const all = [...drawing.querySelectorAll<SVGGElement>('g[data-thing]')];
  const byName = new Map<ThingName, SVGGElement[]>();
  for (const group of all) {
    const name = nameOf(group);
    const groups = byName.get(name);
    if (groups) groups.push(group);
    else byName.set(name, [group]);
  }
  return { drawing, all, of: (thing) => byName.get(thing) ?? [], names: [...byName.keys()] };
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
