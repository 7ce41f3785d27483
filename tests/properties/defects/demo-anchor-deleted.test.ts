import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../language/domain/rules/finding.ts';
import { analyse } from '../../support/analyse.ts';
import { MAIN } from '../../support/memory-host.ts';

const examples = join(import.meta.dirname, '../../../examples');
const designed = readFileSync(join(examples, 'maple-designed.sill'), 'utf8');
const surveyed = readFileSync(join(examples, 'maple-surveyed.sill'), 'utf8');

const lines = designed.split('\n');
const anchors = lines.flatMap((line, index) => {
  const mark = /^\s+anchor\s+(\S+)/.exec(line)?.[1];
  const heading = lines.slice(0, index).findLast((each) => each.startsWith('work on '));
  return mark === undefined ? [] : [{ mark, wall: heading?.replace('work on ', '').trim() ?? '' }];
});

describe('of the anchors of the designed demo house', () => {
  it('there are some on two walls', () => {
    expect(anchors.length).toBeGreaterThan(20);
    expect([...new Set(anchors.map(({ wall }) => wall))]).toEqual(['A', 'F']);
  });

  // F-4 was omitted on site, so that its board lacks it already: the design has to speak for itself.
  it.each(anchors)('$mark cannot leave the design without a finding on wall $wall', ({ mark, wall }) => {
    const design = designed.replace(/^record [\s\S]*$/m, '');
    const fresh = freshIn(design, without(design, mark)).filter((finding) => finding.wall === wall);
    expect(fresh.map(({ rule }) => rule)).not.toEqual([]);
  });

  it.each(anchors)('$mark cannot be deleted after the first days of building without a finding', ({ mark }) => {
    expect(freshIn(designed, without(designed, mark)).map(({ rule }) => rule)).not.toEqual([]);
  });
});

function without(text: string, mark: string): string {
  const kept = text.split('\n').filter((line) => !new RegExp(`^\\s+anchor\\s+${mark}\\s`).test(line));
  expect(kept.length).toBe(text.split('\n').length - 1);
  return kept.join('\n');
}

function freshIn(before: string, after: string): readonly Finding[] {
  const known = new Set(graveIn(before).map(inWords));
  return graveIn(after).filter((finding) => !known.has(inWords(finding)));
}

const graveIn = (text: string): readonly Finding[] =>
  analyse({ [MAIN]: text, 'maple-surveyed.sill': surveyed }).findings.filter(({ severity }) => severity !== 'info');

const inWords = ({ rule, wall, piece, station, stationTo }: Finding): string =>
  [rule, wall, piece, station, stationTo].map((each) => String(each)).join(' ');
