import { describe, expect, it } from 'vitest';
import { findingsOf, idsOf, lackingOf, mended, titlesOf, wallText } from '../clearance/wall-text.ts';

describe('material/washer-small', () => {
  const rule = 'material/washer-small';
  const ownBolt = (body: string): readonly string[] => [
    '',
    'connector own-bolt through-bolt',
    '  demo',
    ...(body === '' ? [] : [`  body ${body}`]),
    '  into concrete 1 adhesive-rod size 1/2" x 8-1/2" hole 5/8" hole-depth 4" edge 1-3/4"',
  ];
  const bolts = (body: string, more = ''): string =>
    wallText({
      work: [`anchor F-1 own-bolt at 5'-0"${more}`, `anchor F-2 own-bolt at 9'-0"  // beside the post`],
      after: ownBolt(body),
    });

  // 3 x 3 x 0.229 in: existing-building appendix A304.3.1 (from memory); the International Residential Code, R602.11.1.
  it.each([
    ['3" wide 3" tall 0.229" thick', []],
    ['2-15/16" wide 3" tall 0.229" thick', [rule]],
    ['3" wide 2-15/16" tall 0.229" thick', [rule]],
    ['3" wide 3" tall 0.228" thick', [rule]],
    ['3-1/16" wide 3-1/16" tall 1/4" thick', []],
    ['76.2 mm wide 76.2 mm tall 5.8166 mm thick', []],
    ['76 mm wide 76.2 mm tall 5.8166 mm thick', [rule]],
  ])('of %s', (body, expected) => {
    expect(idsOf(bolts(body), rule)).toEqual(expected);
  });

  it('is said once for a kind of bolt, with what is asked and who asks it', () => {
    expect(findingsOf(bolts('2" wide 2" tall 3/16" thick'), rule).map((each) => each.message)).toEqual([
      `The washer of F-1 and 1 more (own-bolt) is 2" x 2" x 3/16": at least 3" x 3" x 0.229" (A304.3.1). Set it with a plate washer of that size.`,
    ]);
    expect(findingsOf(bolts('3" wide 3" tall 0.22" thick'), rule)[0]?.message).toMatch(/is 3" x 3" x 0\.22": at least/);
  });

  it('looks at the plate washer that is set with the bolt', () => {
    const small = ['', 'connector washer-2 plate-washer', '  demo', '  body 2" wide 2" tall 3/16" thick'];
    const with_ = (washer: string): string =>
      wallText({ work: [`anchor F-1 bolt-half at 5'-0" with ${washer}`], after: small });
    expect(idsOf(with_('washer-3'), rule)).toEqual([]);
    expect(idsOf(with_('washer-2'), rule)).toEqual([rule]);
  });

  it('sets all of them with a plate washer that is large enough', () => {
    const after = mended(bolts('2" wide 2" tall 3/16" thick'), rule, /^Set F-1 and 1 more with washer-3/);
    expect(after).toMatch(/F-1 +own-bolt +at 5'-0" +with washer-3\n/);
    expect(after).toMatch(/F-2 +own-bolt +at 9'-0" +with washer-3 +\/\/ beside the post\n/);
    expect(idsOf(after, rule)).toEqual([]);
  });

  it('asks for a thickness or a body that nobody wrote down', () => {
    expect(lackingOf(bolts('3" wide 3" tall'), rule)).toEqual(['thickness of the washer of connector own-bolt']);
    expect(lackingOf(bolts(''), rule)).toEqual(['washer of connector own-bolt']);
  });

  it('asks for a plate washer on an old bolt that is counted, and on no other', () => {
    const old = (words: string, work: readonly string[] = []): string =>
      wallText({ found: [`anchor X1 1/2" at 5'-0" sound nut tight ${words}`], work });
    expect(idsOf(old('washer cut credit full'), rule)).toEqual([rule]);
    expect(idsOf(old('washer none credit half'), rule)).toEqual([rule]);
    expect(idsOf(old('washer cut'), rule)).toEqual([]);
    expect(lackingOf(old('washer square credit full'), rule)).toEqual([`washer of X1 at 5'-0" on wall F`]);
    expect(idsOf(old('washer cut credit full', ['washer X1 washer-3']), rule)).toEqual([]);
  });
});

describe('material/anchor-not-in-report', () => {
  const rule = 'material/anchor-not-in-report';
  const set = (words: string, after: readonly string[] = []): string =>
    wallText({ work: [`anchor F-1 stepped-plate-s at 5'-0"${words}  // sprayed`], after });

  it('tells of an anchor that the connector does not list', () => {
    expect(idsOf(set(''), rule)).toEqual([]);
    expect(idsOf(set(' with concrete-screw-anchor'), rule)).toEqual([]);
    expect(findingsOf(set(' with wedge-anchor'), rule).map((each) => [each.severity, each.message])).toEqual([
      [
        'error',
        'F-1: stepped-plate-s lists concrete screw anchor into the concrete, not wedge anchor (demo values of stepped-plate-s). Use what it lists, or a connector that lists this one.',
      ],
    ]);
  });

  it('does not take a washer for an anchor', () => {
    expect(idsOf(set(' with washer-3'), rule)).toEqual([]);
  });

  it('takes the word out, or takes a connector that lists the anchor', () => {
    expect(mended(set(' with wedge-anchor'), rule, /own anchors$/)).toMatch(
      /anchor F-1 stepped-plate-s at 5'-0" +\/\/ sprayed\n/,
    );
    const other = [
      '',
      'connector wedge-plate stepped-side-plate',
      '  demo',
      '  fits set-back 1/2" to 1-1/2"',
      '  body 8" wide 9" tall 5/16" thick',
      '  into concrete 2 wedge-anchor size 1/2" x 4-1/2" hole 1/2" hole-depth 4-3/4" apart 4" edge 3"',
      '  into sill 5 lag-screw size 5/16" x 2-1/2" edge 3/4"',
      '  holes in concrete (-2", -2-1/2"), (2", -2-1/2")',
    ];
    expect(mended(set(' with wedge-anchor', other), rule, /^Use wedge-plate/)).toContain(
      `anchor F-1 wedge-plate at 5'-0" with wedge-anchor`,
    );
  });

  it('asks for the anchors of a connector that lists none', () => {
    const bare = ['', 'connector bare side-plate', '  demo', '  body 8" wide 9" tall 5/16" thick'];
    const text = set(' with wedge-anchor', bare).replace('stepped-plate-s', 'bare');
    expect(lackingOf(text, rule)).toEqual(['anchors into concrete of connector bare']);
  });

  it('offers nothing for what is installed', () => {
    const built = `${set(' with wedge-anchor')}\nrecord 2026-06-10\n  installed F-1 as planned\n`;
    expect(idsOf(built, rule)).toEqual([rule]);
    expect(titlesOf(built, rule)).toEqual([]);
  });
});
