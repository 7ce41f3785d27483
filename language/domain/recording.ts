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
