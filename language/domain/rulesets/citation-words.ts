import type { Citation } from './rule-set.ts';

/** A source as it is printed beside its number; how far it can be trusted goes with it where that matters. */
export function citationWords(citation: Citation): string {
  switch (citation.trust) {
    case 'published':
    case 'from-memory':
      return citation.text;
    case 'recalled':
      return `${citation.text}, recalled; confirm in your adopted copy`;
    case 'common-practice':
      return citation.text.toLowerCase() === 'common practice'
        ? 'common practice, no source'
        : `${citation.text}, common practice, no source`;
  }
}
