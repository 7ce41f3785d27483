/**
 * Of two states of a thing made of plain data, the one before with every list and member that says the same as before being the object of
 * before: what was worked out of a part stays with it. An edit of the new work on a wall leaves most of what was found on it.
 */
export function partsAsTheyWere<Whole extends object>(before: Whole, now: Whole): Whole {
  const parts: { [Name in keyof Whole]?: unknown } = { ...now };
  for (const name in now) parts[name] = asItWas(before[name], now[name]);
  return parts as Whole;
}

function asItWas(before: unknown, now: unknown): unknown {
  if (!Array.isArray(now) || !Array.isArray(before)) return isSame(before, now) ? before : now;
  const members = now.map((member, at) => {
    // Where one was put in or taken out, those behind it are counted from the end.
    const fromEnd = at + before.length - now.length;
    const was = [before[at], before[fromEnd]].find((each) => isSame(each, member));
    return was ?? member;
  });
  return members.length === before.length && members.every((member, at) => member === before[at]) ? before : members;
}

/** Never looked into: a block of text, which is another one when it was edited, and a connector, whose many parts stay together. */
const wholes: ReadonlySet<string> = new Set(['block', 'connector']);

function isSame(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a)) {
    return Array.isArray(b) && a.length === b.length && a.every((each, at) => isSame(each, b[at]));
  }
  if (a instanceof Set) return b instanceof Set && a.size === b.size && [...a].every((each) => b.has(each));
  if (Object.getPrototypeOf(a) !== Object.prototype || Object.getPrototypeOf(b) !== Object.prototype) return false;
  for (const name in a) {
    const [one, other] = [a[name as keyof typeof a], b[name as keyof typeof b]];
    if (!Object.is(one, other) && (wholes.has(name) || !isSame(one, other))) return false;
  }
  for (const name in b) if (!(name in a)) return false;
  return true;
}
