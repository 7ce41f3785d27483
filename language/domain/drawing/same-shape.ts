import type { Group, Shape } from './scene.ts';

/** Whether two shapes look the same. What a shape is made of is listed here, so that a new field is not forgotten. */
export function isSameShape(a: Shape, b: Shape): boolean {
  return a === b || (a.kind === b.kind && isSameIn(fields[a.kind], a, b));
}

/** Whether two groups say the same of themselves, whatever is in them. */
export function isSameGroup(a: Group, b: Group): boolean {
  return isSameIn(fieldsOfGroup, a, b);
}

type FieldsOf<Value> = Readonly<Record<keyof Value, true>>;
type ShapeOf<Kind extends Shape['kind']> = Extract<Shape, { readonly kind: Kind }>;
const listed = {
  line: { kind: true, from: true, to: true, stroke: true },
  polyline: { kind: true, points: true, closed: true, stroke: true, fill: true },
  rect: { kind: true, x: true, y: true, width: true, height: true, rounded: true, stroke: true, fill: true },
  circle: { kind: true, centre: true, radius: true, stroke: true, fill: true },
  path: { kind: true, steps: true, stroke: true, fill: true },
  text: {
    ...{ kind: true, text: true, at: true, anchor: true, size: true, capHeight: true, face: true, colour: true },
    ...{ heavy: true, halo: true, struck: true, turned: true, width: true },
  },
} satisfies { readonly [Kind in Shape['kind']]: FieldsOf<ShapeOf<Kind>> };
const fields = Object.fromEntries(
  Object.entries(listed).map(([kind, names]) => [kind, Object.keys(names)]),
) as unknown as Readonly<Record<Shape['kind'], readonly string[]>>;
const fieldsOfGroup = Object.keys({
  ...{ kind: true, thing: true, role: true, name: true, hidden: true, symbol: true },
} satisfies FieldsOf<Omit<Group, 'nodes'>>);

function isSameIn(names: readonly string[], a: object, b: object): boolean {
  for (let index = 0; index < names.length; index += 1) {
    const name = names[index] as keyof typeof a;
    if (!isSame(a[name], b[name])) return false;
  }
  return true;
}

function isSame(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a)) {
    if (!Array.isArray(b) || a.length !== b.length) return false;
    for (let index = 0; index < a.length; index += 1) {
      const [one, other] = [a[index], b[index]];
      if (one !== other && !isSame(one, other)) return false;
    }
    return true;
  }
  for (const name in a) if (!isSame(a[name as keyof typeof a], b[name as keyof typeof b])) return false;
  for (const name in b) if (!(name in a)) return false;
  return true;
}
