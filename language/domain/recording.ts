/** The same object, noting which of its parts are looked at. */
export function recording<Whole extends object>(whole: Whole, read: Map<keyof Whole, unknown>): Whole {
  return new Proxy(whole, {
    get(_, part) {
      const value = whole[part as keyof Whole];
      read.set(part as keyof Whole, value);
      return value;
    },
  });
}

/** The same members, noting by name which of their parts are looked at on any of them. */
export function recordingEach<Member extends object>(
  list: readonly Member[],
  read: Set<PropertyKey>,
): readonly Member[] {
  const handler: ProxyHandler<Member> = {
    get(member, part) {
      read.add(part);
      return member[part as keyof Member];
    },
    has(member, part) {
      read.add(part);
      return part in member;
    },
    // Whoever goes through all parts has looked at all.
    ownKeys(member) {
      for (const part of Reflect.ownKeys(member)) read.add(part);
      return Reflect.ownKeys(member);
    },
  };
  return list.map((member) => new Proxy(member, handler));
}
