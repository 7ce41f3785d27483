import { describe, expect, it, vi } from 'vitest';
import { gapTooWide } from '../../../language/domain/rules/anchorage/gap-too-wide.ts';
import { checkLayout } from '../../../language/domain/rules/check-layout.ts';
import type { Checked } from '../../../language/domain/rules/checked.ts';
import type { Finding } from '../../../language/domain/rules/finding.ts';
import { readLayout } from '../../support/read-layout.ts';

const head = ['layout "House"', '  rules existing-building', 'house', '  storeys 2'];
/** A wall of one board in two storeys, set up for side plates, and what else is said. */
function text(say: {
  head?: readonly string[];
  wall?: readonly string[];
  work?: readonly string[];
  length?: string;
  after?: readonly string[];
}): string {
  return [
    ...(say.head ?? head),
    `wall F length ${say.length ?? `14'-0"`}`,
    '  foundation thick 8" showing 18" top 0"',
    ...(say.wall ?? ['  sill F1 size 2x6 set-back 3/4" headroom 11-1/8"']).map((line) => `  ${line.trim()}`),
    ...(say.work ? ['work on F', ...say.work.map((line) => `  ${line}`)] : []),
    ...(say.after ?? []),
    '',
  ].join('\n');
}
const anchors = (...stations: readonly string[]): readonly string[] =>
  stations.map((station, index) => `anchor F-${index + 1} stepped-plate-s at ${station}`);
const good = anchors(`0'-10"`, `4'-8"`, `8'-8"`, `11'-2"`, `13'-2"`);

function check(source: string): Checked {
  const { layout, problems } = readLayout(source);
  expect(problems.filter((each) => each.severity === 'error').map((each) => each.message)).toEqual([]);
  return checkLayout(layout);
}
const ids = (source: string): readonly string[] => check(source).findings.map((each) => each.rule);
const only = (source: string): Finding => {
  const { findings } = check(source);
  expect(findings.map((each) => each.rule)).toHaveLength(1);
  const [finding] = findings;
  if (!finding) throw new Error('no finding');
  return finding;
};

describe('a finding', () => {
  it('on a gap names both anchors, the gap, the limit, its source and what to do; both ends are related places', () => {
    const finding = only(text({ work: anchors(`0'-10"`, `4'-8"`, `9'-2"`, `13'-2"`) }));
    expect(finding.message).toBe(
      `4'-6" between F-2 at 4'-8" and F-3 at 9'-2" on sill F1: at most 4'-0" for 1/2" anchors under 2 storeys (Table A304.3.1). Add an anchor between them.`,
    );
    expect([finding.wall, finding.piece, finding.thing, finding.layer, finding.severity]).toEqual([
      'F',
      'F1',
      'F/anchor:F-2',
      'design',
      'error',
    ]);
    expect([finding.station, finding.stationTo]).toEqual([56 * 25_400_000, 110 * 25_400_000]);
    expect(finding.related.map((each) => each.message)).toEqual([
      'left end of the gap, F-2',
      'right end of the gap, F-3',
    ]);
    expect(finding.citation).toEqual({ text: 'Table A304.3.1', trust: 'from-memory' });
  });

  it('that rests on a recalled number says so', () => {
    const finding = only(text({ length: `8'-0"`, work: anchors(`0'-10"`, `4'-0"`, `7'-2"`) }));
    expect(finding.message).toContain('(Table A304.3.2, recalled; confirm in your adopted copy)');
  });

  it('in a metric file speaks in millimetres', () => {
    const metric = [head[0] ?? '', '  units metric', ...head.slice(1)];
    const finding = only(text({ head: metric, work: anchors('254 mm', '1422 mm', '2794 mm', '4013 mm') }));
    expect(finding.message).toBe(
      '1372 mm between F-2 at 1422 mm and F-3 at 2794 mm on sill F1: at most 1219 mm for 13 mm anchors under 2 storeys (Table A304.3.1). Add an anchor between them.',
    );
  });

  it('is at most two lines of 132 characters', () => {
    const wall = [
      `sill F1 to 9'-7" size 2x6 set-back 2" headroom 11-1/8"`,
      `sill F2 to end size 2x6 set-back 3/4" headroom 11-1/8"`,
      `vent V1 3'-0" to 4'-4"`,
      `pipe P1 "4 in cast iron drain" at 10'-6" wide 5"`,
      'anchor X1 1/2" at 1\'-0" credit full',
    ];
    const { findings } = check(text({ length: `20'-0"`, wall, work: anchors(`3'-6"`, `10'-6"`, `19'-11"`) }));
    expect(findings.length).toBeGreaterThan(5);
    for (const finding of findings) {
      expect(finding.message.length, finding.message).toBeLessThanOrEqual(264);
      expect(finding.message).not.toMatch(/\b(safe|compliant|invalid|please)\b/i);
    }
  });
});

describe('one mistake', () => {
  it('on a wall that nobody has begun with is that one', () => {
    expect(ids(text({}))).toEqual(['load-path/wall-line-forgotten']);
    expect(ids(text({ length: `8'-0"` }))).toEqual(['load-path/wall-line-forgotten']);
  });

  it('on a short board with too few is their number, not also the gap or the end that the missing one leaves bare', () => {
    expect(ids(text({ length: `8'-0"`, work: anchors(`0'-10"`, `1'-10"`, `5'-0"`) }))).toEqual([
      'anchorage/short-piece-count',
    ]);
  });

  it('at an opening is the missing concrete, not also the plate across it', () => {
    const wall = [`sill F1 size 2x6 set-back 3/4" headroom 11-1/8"`, `vent V1 8'-0" to 9'-4"`];
    expect(ids(text({ wall, work: good }))).toEqual(['clearance/no-concrete-here']);
  });

  it('of an anchor too near an end is not also that the next one is too far', () => {
    expect(ids(text({ work: anchors(`0'-3"`, `2'-0"`, `5'-10"`, `9'-8"`, `13'-2"`) }))).toEqual([
      'anchorage/end-too-near',
    ]);
  });

  it('on each of two boards is two findings, in order of station', () => {
    const wall = [
      `sill F1 to 14'-0" size 2x6 set-back 3/4" headroom 11-1/8"`,
      `sill F2 to 28'-0" size 2x6 set-back 3/4" headroom 11-1/8"`,
      `sill F3 to end size 2x6 set-back 3/4" headroom 11-1/8"`,
    ];
    const { findings } = check(text({ length: `30'-0"`, wall, work: anchors(`29'-0"`) }));
    expect(findings.map((each) => [each.rule, each.piece])).toEqual([
      ['anchorage/piece-without-anchor', 'F1'],
      ['anchorage/piece-without-anchor', 'F2'],
    ]);
  });
});

describe('gaps and ends', () => {
  it('hold within a board, not across a joint', () => {
    const wall = [
      `sill F1 to 14'-0" size 2x6 set-back 3/4" headroom 11-1/8"`,
      `sill F2 18'-0" to end size 2x6 set-back 3/4" headroom 11-1/8"`,
      `chimney K1 14'-0" to 18'-0"`,
    ];
    const right = [`18'-10"`, `22'-8"`, `26'-6"`, `29'-2"`, `31'-2"`].map(
      (at, index) => `anchor G-${index} stepped-plate-s at ${at}`,
    );
    expect(ids(text({ length: `32'-0"`, wall, work: [...good, ...right] }))).toEqual([]);
  });

  it('beside a bolt of another size keep the stricter spacing', () => {
    const big = [
      'connector bolt-big through-bolt',
      '  demo',
      '  body 3" wide 3" tall',
      '  into concrete 1 adhesive-rod size 5/8" x 8"',
    ];
    const wall = ['sill F1 size 2x6 set-back 3/4" headroom 30"'];
    const at = (stations: readonly string[], kind: readonly string[]) =>
      stations.map((station, index) => `anchor F-${index + 1} ${kind[index] ?? 'bolt-big'} at ${station}`);
    const stations = [`0'-10"`, `6'-6"`, `9'-8"`, `13'-2"`];
    expect(ids(text({ wall, work: at(stations, []), after: big }))).toEqual([]);
    expect(ids(text({ wall, work: at(stations, ['bolt-half']), after: big }))).toEqual(['anchorage/gap-too-wide']);
  });

  it('count found anchors with full credit, and no others', () => {
    const found = (credit: string) => [
      `sill F1 size 2x6 set-back 3/4" headroom 11-1/8"`,
      `anchor X1 1/2" at 4'-8" credit ${credit}`,
    ];
    const rest = anchors(`0'-10"`, `8'-8"`, `11'-2"`, `13'-2"`);
    expect(ids(text({ wall: found('full'), work: rest }))).toEqual(['anchorage/old-anchor-unproven']);
    expect(ids(text({ wall: found('half'), work: rest })).toSorted()).toEqual([
      'anchorage/gap-too-wide',
      'anchorage/old-anchor-unproven',
    ]);
    expect(ids(text({ wall: found('none'), work: rest }))).toEqual(['anchorage/gap-too-wide']);
  });

  it('do not count an anchor that was omitted or failed its test', () => {
    const omitted = ['record 2026-06-10', '  omitted F-2 because "hit a stone"'];
    expect(ids(text({ work: good, after: omitted }))).toEqual(['anchorage/gap-too-wide']);
  });

  it('on a board of less than 30 in ask for one anchor and no end window', () => {
    expect(ids(text({ length: `2'-4"`, work: anchors(`1'-2"`) }))).toEqual([]);
    expect(ids(text({ length: `2'-4"` }))).toEqual(['load-path/wall-line-forgotten']);
  });

  it('keep the only anchor of a short board away from its ends where the rules ask it', () => {
    const own = [
      'ruleset our-town "Our town"',
      '  source "sheet 4" published',
      '    limit lone-anchor-end at-least 3-1/2" for bolt 1/2"',
    ];
    const ours = head.map((line) => line.replace('existing-building', 'existing-building, our-town'));
    // A bolt: the body of a plate would lie over the end first.
    const wall = [`sill F1 size 2x6 set-back 3/4" headroom 25-1/8"`];
    const work = (station: string) => [`anchor F-1 bolt-half at ${station}`];
    const fire = (station: string) => ids(text({ head: ours, length: `2'-4"`, wall, work: work(station), after: own }));
    expect(fire(`0'-3 1/2"`)).toEqual([]);
    expect(fire(`0'-3 3/8"`)).toEqual(['anchorage/end-too-near']);
  });

  it('past an obstruction are right at the nearest clear spot, and say so; further on they are not', () => {
    const wall = [`sill F1 size 2x6 set-back 3/4" headroom 11-1/8"`, `pipe P1 at 0'-10" wide 8"`];
    const at = (first: string) => text({ wall, work: anchors(first, `4'-8"`, `8'-8"`, `11'-2"`, `13'-2"`) });
    const legal = only(at(`1'-6"`));
    expect([legal.rule, legal.severity]).toEqual(['anchorage/end-too-far', 'info']);
    expect(legal.message).toContain(`the nearest clear spot: pipe P1 0'-6" to 1'-2" in the end window`);
    expect(legal.citation?.text).toBe('A304.3.2');
    const beyond = only(at(`1'-8"`));
    expect(beyond.severity).toBe('error');
    expect(beyond.message).toContain(`In the window: pipe P1 0'-6" to 1'-2"`);
    expect(beyond.fixes[0]?.title).toBe(`Slide F-1 from 1'-8" to 1'-6"`);
  });

  it('space side plates as the bolt that the rule set names', () => {
    const thick = [
      'connector plate-big stepped-side-plate',
      '  body 8" wide 9" tall 1/4" thick',
      '  into concrete 2 concrete-screw-anchor size 5/8" x 4" apart 4"',
    ];
    const own = ['ruleset our-town "Our town"', '  source "sheet 4" published', '    limit side-plate-as-bolt is 5/8"'];
    const ours = head.map((line) => line.replace('existing-building', 'existing-building, our-town'));
    const work = [`0'-10"`, `6'-6"`, `9'-8"`, `13'-2"`].map((at, index) => `anchor F-${index + 1} plate-big at ${at}`);
    // The shipped set spaces any side plate as a 1/2 in bolt, whatever its own anchors are.
    expect(ids(text({ work, after: thick }))).toEqual(['anchorage/gap-too-wide']);
    expect(ids(text({ head: ours, work, after: [...thick, ...own] }))).toEqual([]);
  });
});

describe('what is not known', () => {
  it('is said once for each measurement, and never taken for clear', () => {
    const wall = ['sill F1 size 2x6 set-back unknown headroom 11-1/8"'];
    const { findings, notChecked } = check(text({ wall, work: good }));
    expect(findings).toEqual([]);
    expect(
      notChecked.filter((each) => each.wants.startsWith('set-back')).map((each) => [each.rule, each.wants, each.thing]),
    ).toEqual([
      ['foundation/set-back-out-of-range', 'set-back of sill F1', 'F/sill:F1'],
      ['foundation/set-back-varies', 'set-back of sill F1', 'F/sill:F1'],
    ]);
  });

  it('about the storeys leaves the tables unread', () => {
    const unknown = [...head.slice(0, -1), '  storeys unknown'];
    const { findings, notChecked } = check(text({ head: unknown, work: good }));
    expect(findings).toEqual([]);
    const ofStoreys = notChecked.filter((each) => each.wants.includes('storeys'));
    expect(ofStoreys.map((each) => `${each.rule}: ${each.wants}`)).toEqual([
      'screening/storeys-beyond: number of storeys',
      'anchorage/gap-too-wide: storeys above wall F',
    ]);
  });

  it('about the rules is said once for the house, and no limit is guessed', () => {
    const bare = ['layout "House"', 'house', '  storeys 2'];
    const finding = only(text({ head: bare, work: anchors(`3'-0"`, `12'-0"`) }));
    expect([finding.rule, finding.severity]).toEqual(['load-path/rules-unset', 'error']);
    const noStoreys = ['layout "House"', '  rules existing-building'];
    expect(only(text({ head: noStoreys, work: good })).message).toBe(
      'Nobody says how many storeys stand above wall F: write `storeys` in the house block. Until then no limit holds here.',
    );
  });

  it('by the rule set is said once for each case, with the places', () => {
    const three = [...head.slice(0, -1), '  storeys 3'];
    const wall = [
      `sill F1 to 14'-0" size 2x6 set-back 3/4" headroom 11-1/8"`,
      `sill F2 to end size 2x6 set-back 3/4" headroom 11-1/8"`,
    ];
    const right = [`14'-10"`, `18'-8"`, `22'-6"`, `25'-2"`, `27'-2"`].map(
      (at, index) => `anchor G-${index} stepped-plate-s at ${at}`,
    );
    const finding = only(text({ head: three, length: `28'-0"`, wall, work: [...good, ...right] }));
    expect([finding.rule, finding.severity, finding.related.length]).toEqual(['load-path/no-limit', 'warning', 5]);
  });
});

describe('what is not checked on purpose', () => {
  const far = anchors(`1'-3"`, `5'-2"`, `9'-2"`, `13'-2"`);
  it('is a line that is exempt, with its reason', () => {
    const exempt = (what: string) =>
      text({ work: far, after: [`line west walls F`, `  exempt from ${what} because "porch"`] });
    expect(ids(exempt('anchorage'))).toEqual([]);
    expect(ids(exempt('all'))).toEqual([]);
    expect(ids(exempt('bracing'))).toEqual(['anchorage/end-too-far']);
  });

  it('is a wall left alone with a reason, as long as no work is on it', () => {
    expect(ids(text({ work: ['no work because "1948 bolts"'] }))).toEqual([]);
    expect(ids(text({ work: ['no work because "1948 bolts"', ...far] }))).toEqual(['anchorage/end-too-far']);
  });

  it('is never a stop', () => {
    const brick = text({
      work: ['no work because "ask the engineer"'],
      after: ['line west walls F', '  exempt from all because "porch"'],
    }).replace('foundation thick', 'foundation brick thick');
    expect(only(brick).severity).toBe('stop');
  });
});

describe('accepting', () => {
  const far = anchors(`1'-3"`, `5'-2"`, `9'-2"`, `13'-2"`);
  const accepting = (line: string, work = far) =>
    check(text({ work: [...work, line] })).findings.map((each) => [each.rule, each.accepted]);

  it('keeps the finding with the reason', () => {
    expect(accepting('accept anchorage/end-too-far because "seen on site"')).toEqual([
      ['anchorage/end-too-far', 'seen on site'],
    ]);
  });

  it('can be for one thing or one place', () => {
    expect(accepting('accept anchorage/end-too-far on F-1 because "seen"')).toEqual([
      ['anchorage/end-too-far', 'seen'],
    ]);
    expect(accepting(`accept anchorage/end-too-far at 1'-3" because "seen"`)).toEqual([
      ['anchorage/end-too-far', 'seen'],
    ]);
    expect(accepting('accept anchorage/end-too-far on F-4 because "seen"')).toEqual([
      ['document/accept-unused', undefined],
      ['anchorage/end-too-far', undefined],
    ]);
    expect(accepting(`accept anchorage/end-too-far at 13'-2" because "seen"`)).toEqual([
      ['document/accept-unused', undefined],
      ['anchorage/end-too-far', undefined],
    ]);
  });

  it('in the title block holds for the house', () => {
    const title = [
      ...head.slice(0, 2),
      '  accept anchorage/end-too-far because "the official agreed"',
      ...head.slice(2),
    ];
    expect(check(text({ head: title, work: far })).findings.map((each) => each.accepted)).toEqual([
      'the official agreed',
    ]);
  });

  it('never silences a stop', () => {
    const brick = text({ work: [...good, 'accept foundation/masonry-base because "looks fine"'] }).replace(
      'foundation thick',
      'foundation brick thick',
    );
    const { findings } = check(brick);
    expect(findings.map((each) => [each.rule, each.accepted])).toEqual([
      ['document/accept-unused', undefined],
      ['foundation/masonry-base', undefined],
    ]);
    expect(findings[0]?.message).toContain('is a stop');
  });

  it('of a check that this version does not have is said, not praised', () => {
    const { findings } = check(text({ work: [...good, 'accept bracing/not-a-check because "agreed"'] }));
    expect(findings.map((each) => [each.rule, each.severity])).toEqual([['document/accept-unused', 'info']]);
  });
});

describe('a rule that breaks off', () => {
  it('is said to be our mistake, once, and stops no other rule', () => {
    const crash = vi.spyOn(gapTooWide, 'check').mockImplementation(() => {
      throw new Error('out of oil');
    });
    try {
      const wall = [
        `sill F1 to 14'-0" size 2x6 set-back 3/4" headroom 11-1/8"`,
        `sill F2 to end size 2x6 set-back 3/4" headroom 11-1/8"`,
      ];
      const { findings } = check(text({ length: `28'-0"`, wall, work: anchors(`1'-3"`, `5'-2"`, `9'-2"`, `13'-2"`) }));
      expect(findings.map((each) => [each.rule, each.severity])).toEqual([
        ['internal/rule-crashed', 'info'],
        ['anchorage/end-too-far', 'error'],
        ['anchorage/piece-without-anchor', 'error'],
      ]);
      expect(findings[0]?.message).toContain(
        'anchorage/gap-too-wide broke off on wall F (out of oil): our mistake, not yours',
      );
    } finally {
      crash.mockRestore();
    }
  });
});
