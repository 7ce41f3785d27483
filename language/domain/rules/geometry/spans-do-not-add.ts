import type { Girder } from '../../model/layout.ts';
import { distanceBetween } from '../../model/outline.ts';
import { knownValue } from '../../model/reading.ts';
import { mostLength } from '../../rulesets/compare.ts';
import type { Limit } from '../../rulesets/rule-set.ts';
import { toleranceOf } from '../../rulesets/tolerance.ts';
import { formatExact } from '../../units/format-length.ts';
import type { Length } from '../../units/length.ts';
import { magnitude, minus, plus, zero } from '../../units/length.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import type { Fix } from '../finding.ts';
import { limitWords } from '../limit-words.ts';

export const spansDoNotAdd = defineRule({
  id: 'geometry/spans-do-not-add',
  severity: 'warning',
  on: 'house',
  summary: 'The spans read along a girder do not add up to its posts, or to its length.',
  why: 'Caps and bases are cut and carried in for a post at a place. Where the spans and the stations disagree, one of them was misread, and every post behind it is off.',
  remedy: 'Tape the spans again from one end, and each post from the named wall.',
  subjects: { 'span-error': 'length', tolerance: 'length' },
  examples: [{ failing: withSpans(`5'-10"`), passing: withSpans(`6'-0"`) }],
  check({ layout }, context) {
    const answer = context.limit('span-error', {});
    const most = answer.kind === 'limit' ? mostLength(answer.limit) : undefined;
    if (answer.kind !== 'limit' || !most) return;
    for (const girder of layout.girders) {
      const places = placesBySpans(girder);
      if (!places) {
        if (girder.spans && girder.spans.length > 0)
          context.lacks({ wants: `a span of girder ${girder.name}`, at: girder.source, thing: girder.id });
        continue;
      }
      const off = places.find(
        (each) => magnitude(minus(each.taped, each.added)) > most.reach + toleranceOf(layout.rules),
      );
      if (off) report(girder, off, places, answer.limit, context);
    }
  },
});

interface Place {
  readonly what: string;
  /** By adding the spans up to it. */
  readonly added: Length;
  /** By its own station, or the length of the girder. */
  readonly taped: Length;
  readonly post: Girder['posts'][number] | undefined;
}

/** What the spans say of each post and of the far end; `undefined` where a span is not known. */
function placesBySpans(girder: Girder): readonly Place[] | undefined {
  const { spans, from, to } = girder;
  if (!spans || spans.length === 0) return undefined;
  const posts = girder.posts
    .filter((post) => post.station !== undefined)
    .toSorted((a, b) => (a.station ?? 0) - (b.station ?? 0));
  const places: Place[] = [];
  let added: Length = zero;
  for (const [index, reading] of spans.entries()) {
    const span = knownValue(reading);
    if (span === undefined) return undefined;
    added = plus(added, span);
    const post = posts[index];
    if (post?.station !== undefined)
      places.push({ what: `post ${post.name ?? index + 1}`, added, taped: post.station, post });
    else if (index === spans.length - 1 && from && to)
      places.push({ what: 'its far end', added, taped: distanceBetween(from, to), post: undefined });
  }
  return places;
}

function report(girder: Girder, off: Place, places: readonly Place[], limit: Limit, context: RuleContext): void {
  const { show, showStation } = context;
  context.report({
    message:
      `By its spans ${off.what} of girder ${girder.name} is at ${showStation(off.added)}, by its own place at ${showStation(off.taped)}: ` +
      `${show(magnitude(minus(off.taped, off.added)))} apart, ${limitWords({ limit, query: {} }, 'most', context)}. Tape both again.`,
    thing: off.post?.id ?? girder.id,
    about: girder.id,
    layer: 'survey',
    wall: girder.name,
    piece: off.post?.name,
    station: off.taped,
    span: off.post?.source ?? girder.source,
    related: [{ span: girder.source, message: `girder ${girder.name}` }],
    citation: limit.citation,
    fixes: (now) => byTheStations(girder, places, (length) => formatExact(length, now.title.units)),
  });
}

/** The spans as the stations have them. */
function byTheStations(girder: Girder, places: readonly Place[], write: (length: Length) => string): readonly Fix[] {
  const { spans = [] } = girder;
  if (places.length !== spans.length) return [];
  const edits = places.flatMap((place, index) => {
    const before = places[index - 1]?.taped ?? zero;
    const reading = spans[index];
    const span = minus(place.taped, before);
    if (reading?.kind !== 'known' || reading.value === span || span <= 0) return [];
    return [{ kind: 'replace-text' as const, span: reading.source, text: write(span) }];
  });
  return edits.length === 0
    ? []
    : [{ title: `Take the spans of girder ${girder.name} from the stations of its posts`, trust: 'by-hand', edits }];
}

function withSpans(second: string): string {
  return [
    demo({ anchors: sound }),
    `girder G size 6x8 from (0", 0") to (18'-0", 0")`,
    `  spans 6'-0", ${second}, 6'-0"`,
    `  post P1 6x6 at 6'-0" cap side-plate`,
    `  post P2 6x6 at 12'-0" cap side-plate`,
    '',
  ].join('\n');
}
