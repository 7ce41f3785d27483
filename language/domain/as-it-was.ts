/**
 * Of two states of a thing made of plain data, the one before with every list and member that says the same as before being the object of
 * before: what was worked out of a part stays with it. An edit of the new work on a wall leaves most of what was found on it.
 */
export function partsAsTheyWere<Whole extends object>(before: Whole, now: Whole): Whole {
  return partsBy(isSame, before, now);
}

/**
 * The same where only what is said counts, not where it stands in a text: for drawings. Places in the text that are in it may be those of
 * an earlier one.
 */
export function partsThatSayTheSame<Whole extends object>(before: Whole, now: Whole): Whole {
  return partsBy((a, b) => isSame(a, b, isPlace), before, now);
}

type IsSame = (a: unknown, b: unknown) => boolean;

function partsBy<Whole extends object>(isAlike: IsSame, before: Whole, now: Whole): Whole {
  const parts: { [Name in keyof Whole]?: unknown } = { ...now };
  for (const name in now) parts[name] = asItWas(isAlike, before[name], now[name]);
  return parts as Whole;
}

function asItWas(isAlike: IsSame, before: unknown, now: unknown): unknown {
  if (!Array.isArray(now) || !Array.isArray(before)) return isAlike(before, now) ? before : now;
  const members = now.map((member, at) => {
    // Where one was put in or taken out, those behind it are counted from the end.
    const fromEnd = at + before.length - now.length;
    const was = [before[at], before[fromEnd]].find((each) => isAlike(each, member));
    return was ?? member;
  });
  return members.length === before.length && members.every((member, at) => member === before[at]) ? before : members;
}

/** Never looked into: a block of text, which is another one when it was edited, and a connector, whose many parts stay together. */
const wholes: ReadonlySet<string> = new Set(['block', 'connector']);

const isPlace = (value: object): boolean => 'block' in value && 'start' in value && 'end' in value;
const isNone = (): boolean => false;

function isSame(a: unknown, b: unknown, isNoMatter: (value: object) => boolean = isNone): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (isNoMatter(a) && isNoMatter(b)) return true;
  if (Array.isArray(a)) {
    return Array.isArray(b) && a.length === b.length && a.every((each, at) => isSame(each, b[at], isNoMatter));
  }
  if (a instanceof Set) return b instanceof Set && a.size === b.size && [...a].every((each) => b.has(each));
  if (Object.getPrototypeOf(a) !== Object.prototype || Object.getPrototypeOf(b) !== Object.prototype) return false;
  for (const name in a) {
    const [one, other] = [a[name as keyof typeof a], b[name as keyof typeof b]];
    if (!Object.is(one, other) && (wholes.has(name) || !isSame(one, other, isNoMatter))) return false;
  }
  for (const name in b) if (!(name in a)) return false;
  return true;
}
