/**
 * Words that cannot be a bare name; every other keyword can (`wall basement`, `vent window`, `anchor R`).
 *
 * Two kinds: words that may follow a name which may be left out (a test computes them from the grammar), and small
 * words reserved so that a line whose name is still missing is read as such: `anchor at 3'` has no name yet.
 */
export const reservedWords: readonly string[] = [
  ...['as', 'at', 'because', 'both-sides', 'butt', 'by', 'corner', 'cracked', 'crumbling', 'damp', 'dated', 'double'],
  ...['embed', 'flush', 'for', 'from', 'gap', 'half-lap', 'headroom', 'leaning', 'long', 'note', 'of', 'offset', 'on'],
  ...['assume', 'at-least', 'at-most', 'end', 'is', 'otherwise', 'over', 'start', 'to', 'told', 'under', 'unknown'],
  ...[
    'photo',
    'proposed',
    'right-angle-drill',
    'rotten',
    'runs-through',
    'scaled',
    'scarf',
    'set-back',
    'shim',
    'size',
  ],
  ...['soft', 'sound', 'source', 'species', 'split', 'step', 'treated', 'undermined', 'untreated', 'wide', 'with'],
];
