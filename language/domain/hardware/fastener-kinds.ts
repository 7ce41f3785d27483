/**
 * Kinds of anchors set into hardened or fresh concrete, by the words that hardware files and `with` lines use. Groups as in ACI 318
 * chapter 17 (expansion, undercut, adhesive, screw and cast-in anchors), from memory; the words are common practice, no source.
 */
export const concreteAnchorKinds: ReadonlySet<string> = new Set([
  'wedge-anchor',
  'sleeve-anchor',
  'expansion-anchor',
  'undercut-anchor',
  'adhesive-anchor',
  'concrete-screw-anchor',
  'cast-in-bolt',
  'J-bolt',
  'threaded-rod',
]);
