import { sillTop } from '../../fit/height-zone.ts';
import type { CrippleStretch, FoundationStretch, SillPiece, Stretch, Wall } from '../../model/layout.ts';
import type { Known, Profile, Reading } from '../../model/reading.ts';
import { knownValue, profileAt } from '../../model/reading.ts';
import { mostLength } from '../../rulesets/compare.ts';
import { formatExact } from '../../units/format-length.ts';
import type { Length } from '../../units/length.ts';
import { larger, magnitude, minus, plus, scale, smaller, zero } from '../../units/length.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import type { Fix } from '../finding.ts';
import { limitWords } from '../limit-words.ts';

export const levelChainBroken = defineRule({
  id: 'geometry/level-chain-broken',
  severity: 'error',
  on: 'wall',
  summary:
    'The top of the concrete, with the sill and the cripple wall on it, does not come up to the underside of the floor joists.',
  why: 'The floor is level, so the heights of every wall add up to it. Where they do not, a height or a step was misread, and panels and drill clearances are cut to the wrong height.',
  remedy:
    'Measure the heights of that stretch again: from the top of the concrete to the underside of the joists, and the level of the concrete.',
  subjects: { 'level-error': 'length' },
  examples: [{ failing: withLevels(`1'-10"`), passing: withLevels(`2'-6"`) }],
  check({ wall }, context) {
    const floor = context.layout.house.floorUnderside;
    const answer = context.limit('level-error', {});
    const most = answer.kind === 'limit' ? mostLength(answer.limit) : undefined;
    if (!floor || answer.kind !== 'limit' || !most) return;
    for (const part of partsOf(wall)) {
      for (const chain of chainsOf(wall, part)) {
        if (floor.kind === 'unknown' || chain.kind === 'lacking') {
          const wants = chain.kind === 'lacking' ? chain.wants : 'floor-underside of the house';
          context.lacks({ wants, at: part.source, thing: part.thing });
          continue;
        }
        const off = minus(chain.reaches, floor.value);
        if (magnitude(off) <= most.reach) continue;
        report(wall, part, chain, off, floor, limitWords({ limit: answer.limit, query: {} }, 'most', context), context);
        break;
      }
    }
  },
});

interface Part extends Stretch {
  readonly foundation: FoundationStretch;
  readonly top: Profile;
  readonly cripple: CrippleStretch | undefined;
  readonly piece: SillPiece | undefined;
  readonly source: FoundationStretch['source'];
  readonly thing: string;
}

/** Stretches over which the foundation and the cripple wall are the same, or there is no cripple wall. */
function partsOf(wall: Wall): readonly Part[] {
  const cripples = wall.cripples.toSorted((a, b) => a.from - b.from);
  let at = 0;
  return wall.foundation
    .toSorted((a, b) => a.from - b.from)
    .flatMap((foundation): readonly Part[] => {
      const { top } = foundation;
      if (!top || foundation.from >= foundation.to) return [];
      const parts: Part[] = [];
      const add = (from: Length, to: Length, cripple: CrippleStretch | undefined): void => {
        const middle = plus(from, scale(minus(to, from), 1, 2));
        // A door may stand in the middle.
        const piece =
          wall.pieces.find((each) => each.from <= middle && middle <= each.to) ??
          wall.pieces.find((each) => each.from < to && from < each.to);
        // Without wood on it nothing is said of its height.
        if (from < to && (piece || cripple))
          parts.push({ from, to, foundation, top, cripple, piece, source: foundation.source, thing: foundation.id });
      };
      let reached = foundation.from;
      while (cripples[at] && (cripples[at]?.to ?? zero) <= foundation.from) at += 1;
      for (let index = at; index < cripples.length; index += 1) {
        const cripple = cripples[index];
        if (!cripple || cripple.from >= foundation.to) break;
        add(reached, smaller(cripple.from, foundation.to), undefined);
        add(larger(cripple.from, foundation.from), smaller(cripple.to, foundation.to), cripple);
        reached = larger(reached, cripple.to);
      }
      add(reached, foundation.to, undefined);
      return parts;
    });
}

type Chain =
  | { readonly kind: 'lacking'; readonly wants: string }
  | {
      readonly kind: 'chain';
      /** Above the datum. */
      readonly reaches: Length;
      readonly at: Length;
      readonly words: string;
      /** The readings that it hangs on. */
      readonly top: Known<Length>;
      readonly height: { readonly reading: Known<Length>; readonly name: string } | undefined;
    };

/** The sums that the heights of a part allow, at both of its ends: over all, and stud by stud. */
function chainsOf(wall: Wall, part: Part): readonly Chain[] {
  const chains: Chain[] = [];
  const { cripple, piece } = part;
  for (const at of [part.from, part.to]) {
    const top = profileAt(part.top, at);
    if (top.kind === 'unknown') {
      chains.push({ kind: 'lacking', wants: `top of the concrete of wall ${wall.name}` });
      continue;
    }
    const sum = (
      words: string,
      parts: readonly (Length | undefined)[],
      wants: string,
      height?: { readonly reading: Reading<Length>; readonly name: string },
    ): void => {
      if (parts.some((each) => each === undefined)) chains.push({ kind: 'lacking', wants });
      else {
        const reaches = parts.reduce<Length>((all, each) => plus(all, each ?? zero), top.value);
        const reading = height?.reading.kind === 'known' ? { reading: height.reading, name: height.name } : undefined;
        chains.push({ kind: 'chain', reaches, at, words, top, height: reading });
      }
    };
    if (!cripple) {
      sum('the sill', [sillTop(piece)], `thickness of sill ${piece?.name}`);
      continue;
    }
    if (cripple.height) {
      const height = profileAt(cripple.height, at);
      sum('the cripple wall', [knownValue(height)], `height of the cripple wall on wall ${wall.name}`, {
        reading: height,
        name: 'height',
      });
    }
    if (cripple.studHeight && cripple.plates && cripple.studSize && piece) {
      const plate = knownValue(cripple.studSize.thick);
      const height = profileAt(cripple.studHeight, at);
      sum(
        'sill, studs and plates',
        [
          sillTop(piece),
          knownValue(height),
          plate === undefined ? undefined : scale(plate, cripple.plates === 'double' ? 2 : 1),
        ],
        `stud height, sill and plates of the cripple wall on wall ${wall.name}`,
        { reading: height, name: 'stud-height' },
      );
    }
  }
  return chains;
}

function report(
  wall: Wall,
  part: Part,
  chain: Extract<Chain, { kind: 'chain' }>,
  off: Length,
  floor: Known<Length>,
  limit: string,
  context: RuleContext,
): void {
  const { show, showStation } = context;
  const way = off > 0 ? 'above' : 'below';
  context.lacks({
    wants: `the heights of wall ${wall.name} at ${showStation(chain.at)}, measured again`,
    at: part.source,
    thing: part.thing,
  });
  context.report({
    message:
      `At ${showStation(chain.at)} the top of the concrete (${show(chain.top.value)}) with ${chain.words} comes to ${show(chain.reaches)}, ` +
      `${show(magnitude(off))} ${way} the floor underside (${show(floor.value)}): ${limit}. Measure the heights again.`,
    about: `${part.thing} ${part.cripple?.id ?? ''} ${part.from}`,
    thing: part.thing,
    station: part.from,
    stationTo: part.to,
    span: part.source,
    related: [
      { span: floor.source, message: 'underside of the floor joists' },
      ...(part.cripple ? [{ span: part.cripple.source, message: 'the cripple wall' }] : []),
    ],
    fixes: (now) => solved(chain, off, (length) => formatExact(length, now.title.units)),
  });
}

/** One value taken so that the heights add up; which of them was misread, a tape must say. */
function solved(
  { top, height }: Extract<Chain, { kind: 'chain' }>,
  off: Length,
  write: (length: Length) => string,
): readonly Fix[] {
  const take = (name: string, reading: Known<Length>): Fix => {
    const text = `assume ${write(minus(reading.value, off))}`;
    return {
      title: `Take ${name} as ${write(minus(reading.value, off))} until it is measured again`,
      trust: 'by-hand',
      edits: [{ kind: 'replace-text', span: reading.source, text }],
    };
  };
  return [...(height ? [take(height.name, height.reading)] : []), take('top', top)];
}

function withLevels(height: string): string {
  return demo({
    anchors: sound,
    foundation: `thick 8" showing 18" top -2'-4"`,
    found: [`cripple height ${height} studs size 2x4 spaced 16" trimmers none`],
  }).replace('  storeys 2\n', '  storeys 2\n  floor-underside 2"\n');
}
