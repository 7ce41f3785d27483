/**
 * The same work, whose results are kept by the text that it was done on: a layout says the same few hundred lengths on thousands of lines,
 * and a key asks for those of its wall again. Only the latest are kept, for results that nobody changes.
 */
export function rememberingTexts<Value>(work: (text: string) => Value): (text: string) => Value {
  let newer = new Map<string, Value>();
  let older = new Map<string, Value>();
  return (text) => {
    if (text.length > longest) return work(text);
    const known = newer.get(text);
    if (known !== undefined || newer.has(text)) return known as Value;
    const value = older.has(text) ? (older.get(text) as Value) : work(text);
    if (newer.size >= mostNewer) {
      older = newer;
      newer = new Map();
    }
    newer.set(text, value);
    return value;
  };
}

const mostNewer = 512;
/** A longer part of a text may hold on to the whole of it. Few lengths are. */
const longest = 12;
