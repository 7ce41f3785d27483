import { INCH } from '../../support/houses/facts.ts';
import { result } from './anchor-edits.ts';
import type { Defect, Injected, LegalHouse } from './defect.ts';
import { firstOf, lengthIn, shuffled } from './defect.ts';
import { addBlock, addLine, changeBlocks, changeLine, dropLine, surveyOf, workOn } from './house-text.ts';
import { boardsOf, isLong } from './spots.ts';

const title = /^layout /;
const house = /^house$/m;

/** Mistakes about the house as a whole, the rules that it goes by, and its papers. */
export const papers: readonly Defect[] = [
  {
    id: 'no rule set is chosen',
    rule: 'load-path/rules-unset',
    inject: (legal) => result(legal, [{}], dropLine(title, /^ {2}rules /)),
  },
  {
    id: 'the storeys are not written down',
    rule: 'load-path/rules-unset',
    inject: (legal) => (storeysOfALine(legal) ? undefined : result(legal, [{}], dropLine(house, /^ {2}storeys /))),
  },
  {
    id: 'two limits of the town speak of one case',
    rule: 'load-path/limits-disagree',
    inject: (legal) =>
      result(
        legal,
        [{}],
        changeLine(title, /^ {2}rules /, (line) => `${line}, our-town`),
        addBlock([
          'ruleset our-town "Our town"',
          '  source "Town sheet 4" published',
          `    limit end-distance at-least 8" at-most 13" for storeys ${legal.facts.storeys}`,
          '    limit end-distance at-least 9" at-most 12" for bolt 1/2"',
        ]),
      ),
  },
  {
    id: 'the house has a storey more than its anchors are tabled for',
    rule: 'load-path/no-limit',
    companions: {
      'screening/cripple-too-tall': 'under three storeys a cripple wall may be 14 in high',
      'anchorage/short-piece-count': 'under three storeys short boards want more anchors',
    },
    inject: (legal) =>
      storeysOfALine(legal) || !boardsOf(legal.facts).some(({ piece }) => isLong(piece))
        ? undefined
        : inHouse(legal, /^ {2}storeys /, '  storeys 3', {}),
  },
  {
    id: 'the house has four storeys',
    rule: 'screening/storeys-beyond',
    inject: (legal) =>
      storeysOfALine(legal) ? undefined : inHouse(legal, /^ {2}storeys /, '  storeys 4', { severity: 'stop' }),
  },
  {
    id: 'the house has five dwellings',
    rule: 'screening/dwellings-beyond',
    inject: (legal) => inHouse(legal, /^ {2}dwellings /, '  dwellings 5', { severity: 'stop' }),
  },
  {
    id: 'the house stands on posts and pads',
    rule: 'screening/foundation-not-continuous',
    inject: (legal) => inHouse(legal, /^ {2}foundation /, '  foundation post-and-pad', { severity: 'stop' }),
  },
  {
    id: 'the house block says brick, and no wall says where',
    rule: 'screening/masonry-base',
    inject: (legal) => inHouse(legal, /^ {2}foundation /, '  foundation continuous brick', { severity: 'stop' }),
  },
  {
    id: 'the house block says weak concrete, and no wall says where',
    rule: 'screening/concrete-soft',
    inject: (legal) => inHouse(legal, /^ {2}foundation /, '  foundation continuous weak', { severity: 'stop' }),
  },
  {
    id: 'the house block says cables, and no wall says where',
    rule: 'screening/post-tension',
    inject: (legal) => inHouse(legal, /^ {2}foundation /, '  foundation continuous cables', { severity: 'stop' }),
  },
  {
    id: 'a part of the house stands on a slab',
    rule: 'screening/slab-part',
    inject: (legal) => result(legal, [{ severity: 'stop' }], addBlock(['space den slab'])),
  },
  {
    id: 'the site lies in a liquefaction zone',
    rule: 'screening/hazard-zone',
    inject: (legal) =>
      /\n {2}soil /.test(legal.text)
        ? inHouse(legal, /^ {2}soil /, '  soil liquefaction', {})
        : result(legal, [{}], addLine(house, 'soil liquefaction')),
  },
  {
    id: 'rooms stand over a garage',
    rule: 'screening/plan-irregular',
    inject: (legal) => result(legal, [{}], addBlock(['space car garage'])),
  },
  {
    id: 'a wall of the house has no foundation',
    rule: 'screening/foundation-partial',
    inject: (legal) =>
      firstOf(shuffled(legal.random, legal.facts.walls), (wall) => {
        // The house then says that its foundation is continuous, and the wall that there is none.
        if (wall.length < 130 * INCH) return undefined;
        return result(
          legal,
          [{ wall: wall.name }],
          changeBlocks((block) => {
            if (workOn(wall).test(block)) return undefined;
            if (!surveyOf(wall).test(block)) return block;
            const kept = block.split('\n').filter((line) => !ON_CONCRETE.test(line));
            return [...kept, '  no foundation', '  no sill'].join('\n');
          }),
          // The record may speak of its marks.
          (text) => (new RegExp(`\\b${wall.name}-\\d`).test(text) ? undefined : text),
        );
      }),
  },
  {
    id: 'a cripple wall is taller than the tables cover',
    rule: 'screening/cripple-too-tall',
    companions: { 'geometry/level-chain-broken': 'the same number is a link of the chain of levels' },
    inject: (legal) =>
      firstOf(shuffled(legal.random, legal.facts.walls), (wall) => {
        const [run] = wall.runs;
        if (wall.runs.length !== 1 || !run?.cripple) return undefined;
        return result(
          legal,
          [{ wall: wall.name, station: run.from }],
          changeLine(surveyOf(wall), /^ {2}cripple /, (line) =>
            line.replace(/ height .*? stud-height /, ` height ${lengthIn(legal, 54 * INCH)} stud-height `),
          ),
        );
      }),
  },
  {
    id: 'a finding is accepted that is not there',
    rule: 'document/accept-unused',
    inject: (legal) =>
      firstOf(shuffled(legal.random, legal.facts.walls), (wall) =>
        result(legal, [{}], addLine(workOn(wall), 'accept anchorage/end-too-far because "seen on site"')),
      ),
  },
];

/** Lines of a wall about what stands on concrete. */
const ON_CONCRETE = /^ {2}(?:foundation|sill|set-back|headroom|cripple|rot|split|insects|crack|notch|spall|anchor) /;

/** A line that says its storeys itself. */
const storeysOfALine = ({ text }: LegalHouse): boolean => text.includes('\nline front ');

function inHouse(
  legal: LegalHouse,
  line: RegExp,
  now: string,
  place: Injected['expected'][number],
): Injected | undefined {
  return result(
    legal,
    [place],
    changeLine(house, line, () => now),
  );
}
