import type { ConnectorKind } from './connector.ts';

/** Which kinds of connector can stand on a line of new work; any other kind there counts for nothing. */
export const kindsFor: Readonly<Record<ConnectorUse, readonly ConnectorKind[]>> = {
  anchor: ['side-plate', 'stepped-side-plate', 'through-bolt'],
  angles: ['framing-angle'],
  'hold-down': ['hold-down'],
  strap: ['strap'],
  washer: ['plate-washer'],
  // Straps and angles are ordinary ways to tie a post, beside what is made for it.
  cap: ['post-cap', 'strap', 'side-plate', 'framing-angle'],
  base: ['post-base', 'strap', 'framing-angle'],
};
export type ConnectorUse = 'anchor' | 'angles' | 'hold-down' | 'strap' | 'washer' | 'cap' | 'base';

/** A kind with its article, as in a sentence. */
export const kindWords: Readonly<Record<ConnectorKind, string>> = {
  'side-plate': 'a side plate',
  'stepped-side-plate': 'a stepped side plate',
  'through-bolt': 'a through-bolt',
  'framing-angle': 'a framing angle',
  'post-cap': 'a post cap',
  'post-base': 'a post base',
  'hold-down': 'a hold-down',
  'plate-washer': 'a plate washer',
  strap: 'a strap',
  shim: 'a shim',
};
