import { describe, expect, it } from 'vitest';
import { type Analysis, writeEdits } from '../../../language/analysis.ts';
import { placementReport } from '../../../language/domain/documents/placement-report.ts';
import { placementToText } from '../../../language/domain/documents/write-placement.ts';
import type { Layout } from '../../../language/domain/model/layout.ts';
import { bestStations } from '../../../language/domain/place/best-stations.ts';
import { holeFailsOf, slideOf } from '../../../language/domain/place/crew-notes.ts';
import { failureInWords } from '../../../language/domain/place/failure-words.ts';
import { type BoardPlacement, placeLayout } from '../../../language/domain/place/place-layout.ts';
import { placementEdits } from '../../../language/domain/place/placement-edits.ts';
import { placementMemory } from '../../../language/domain/placement/memory.ts';
import { formatStation } from '../../../language/domain/units/format-length.ts';
import { inches } from '../../../language/domain/units/length.ts';
import { formatSheet } from '../../../language/syntax/format.ts';
import { applyChanges } from '../../../language/syntax/write-edit.ts';
import { analyse } from '../../support/analyse.ts';
import { MAIN } from '../../support/memory-host.ts';
import { exampleHost } from '../../support/read-layout.ts';

/** One wall of one board, with a rod that fits and a plate that does. */
const house = (say: {
  readonly length?: string;
  readonly sill?: string;
  readonly found?: string;
  readonly work?: string;
  readonly more?: string;
}): string => `layout "Placing"
  rules existing-building

house
  storeys 2

connector rod through-bolt
  demo
  body 3" wide 3" tall
  into concrete 1 adhesive-rod size 1/2" x 8-1/2" hole 5/8" hole-depth 4" edge 1-3/4"

connector plate side-plate
  demo
  fits set-back 0" to 1/8"
  body 8" wide 9" tall 5/16" thick
  into concrete 2 concrete-screw-anchor size 1/2" x 4-1/2" hole 1/2" hole-depth 4-3/4" apart 4" edge 3"

wall W length ${say.length ?? `16'-0"`}
  foundation concrete thick 8" showing 18" top 0" grade 8"
  sill ${say.sill ?? 'W1'} size 1-5/8" x 5-5/8" set-back 0" headroom 30"
${say.found ?? ''}

work on W
${say.work ?? ''}
${say.more ?? ''}`;

const place = (layout: Layout, more: Partial<Parameters<typeof placeLayout>[0]> = {}) =>
  placeLayout({ layouts: [layout], scope: { kind: 'house' }, ...more });
const only = (boards: readonly BoardPlacement[]): BoardPlacement => {
  const [board, other] = boards;
  if (!board || other) throw new Error('one board is expected');
  return board;
};
function placed(board: BoardPlacement): Extract<BoardPlacement, { readonly outcome: 'placed' }> {
  if (board.outcome !== 'placed') throw new Error(`${board.piece.name}: ${board.outcome}`);
  return board;
}
const stationsOf = (board: BoardPlacement): readonly string[] =>
  placed(board).anchors.map(({ station, use }) => `${use.id} ${formatStation(station, 'feet-inches')}`);

/** The text with the placement written into it. */
function written(analysis: Analysis): string {
  const { edits } = placementEdits(analysis.layout, place(analysis.layout));
  const result = writeEdits(analysis, edits);
  if (result.kind !== 'changes') throw new Error(result.reason);
  return applyChanges(
    analysis.text,
    result.changes.filter(({ file }) => file === MAIN),
  );
}

describe('laying out a board', () => {
  it('takes the fewest connectors, of the kind that is thought of first, evenly spread', () => {
    const { layout } = analyse(house({}));
    const { boards, cost, costs } = place(layout);
    // 16 ft at 4 ft, ends within a foot: five. The end windows leave 1-1/2 in of room either side of their middles.
    expect(stationsOf(only(boards))).toEqual([
      `rod 0'-10 1/2"`,
      `rod 4'-5 1/4"`,
      `rod 8'-0"`,
      `rod 11'-6 3/4"`,
      `rod 15'-1 1/2"`,
    ]);
    expect(placed(only(boards)).slack).toBe(inches(1.5));
    expect(costs.unit).toBe('count');
    expect(cost).toBe(5);
    expect(placed(only(boards)).lowerBound).toBe(5);
  });

  it('puts the only connector of a board under 30 in in the middle of its clear stretch', () => {
    const { layout } = analyse(house({ length: `2'-0"` }));
    expect(stationsOf(only(place(layout).boards))).toEqual([`rod 1'-0"`]);
    const beside = analyse(house({ length: `2'-0"`, found: `  split at 0'-6"` }));
    // The split keeps a bolt 6 in and half a washer off, the end seven diameters: clear from 13-1/2 in to 20-1/2 in.
    expect(stationsOf(only(place(beside.layout).boards))).toEqual([`rod 1'-5"`]);
  });

  it('goes by what stands there: found with full credit, set by hand, installed', () => {
    const text = house({
      found: `  anchor X1 1/2" at 4'-6" sound credit full nut tight`,
      work: `  anchor W-1 rod at 0'-10"\n  anchor W-2 plate at 15'-1"`,
    });
    const { layout } = analyse(text);
    const board = placed(only(place(layout).boards));
    expect(board.board.kept.map(({ words }) => words)).toEqual(['W-1', 'X1', 'W-2']);
    expect(board.anchors).toHaveLength(2);
  });

  it('is not proposed again where a hole failed or an anchor was left out', () => {
    const without = stationsOf(only(place(analyse(house({})).layout).boards));
    const text = house({
      work: `  anchor W-1 rod at 8'-0"`,
      more: `\nrecord 2026-06-10 by "crew"\n  omitted W-1 because "hit steel"\n`,
    });
    const board = placed(only(place(analyse(text).layout).boards));
    expect(without).toContain(`rod 8'-0"`);
    for (const { station } of board.anchors) expect(Math.abs(station - inches(96))).toBeGreaterThanOrEqual(inches(1.5));
    expect(board.anchors).toHaveLength(5);
  });

  it('promises slip, and says how far each may slide alone and where to go on when a hole fails', () => {
    const { layout } = analyse(house({}));
    const board = placed(only(place(layout, { slip: inches(0.5) }).boards));
    expect(board.slack).toBe(inches(1));
    expect(only(place(layout, { slip: inches(1.75) }).boards).outcome).toBe('infeasible');
    const after = analyse(written(analyse(house({}))));
    const [wall] = after.layout.walls;
    const [first, second] = wall?.anchors ?? [];
    if (!wall || !first || !second) throw new Error('two anchors are expected');
    expect(slideOf(after.layout, wall, first)).toEqual({ left: inches(1.5), right: inches(1.5) });
    expect(slideOf(after.layout, wall, second)).toEqual({ left: inches(5.25), right: inches(5.25) });
    // Past the dead hole, twice its depth away, as the rule set lets an end anchor pass a thing that fills its window.
    const next = holeFailsOf(after.layout, wall, first);
    expect(next?.kind === 'spots' && next.spots.map(({ station }) => formatStation(station, 'feet-inches'))[0]).toBe(
      `1'-6 1/2"`,
    );
  });

  it('names the next stations for the connector that somebody is typing', () => {
    const { layout } = analyse(house({ work: `  anchor W-1 rod at 0'-10"\n  anchor W-2 rod at 4'-8"` }));
    const [wall] = layout.walls;
    const [piece] = wall?.pieces ?? [];
    const rod = layout.connectors.get('rod');
    const washer = layout.connectors.get('washer-3');
    if (!wall || !piece || !rod || !washer) throw new Error('a board and a rod are expected');
    const next = bestStations(layout, wall, piece, rod).map((at) => formatStation(at, 'feet-inches'));
    expect(next).toHaveLength(3);
    expect(next.at(-1)).toBe(`15'-1 1/2"`);
    expect(bestStations(layout, wall, piece, washer)).toEqual([]);
  });
});

describe('what connectors cost', () => {
  const prices = (rod: string, plate: string, more = ''): string =>
    `\nprices ours dated 2026-04-01\n  demo\n  price rod ${rod} each\n  price plate ${plate} each\n${more}`;

  it('decides between kinds that fit, at the mean of low and high', () => {
    const { layout } = analyse(house({ more: prices('$9.00 to $11.00', '$4.00 to $6.00') }));
    const { boards, costs, cost } = place(layout);
    expect(costs.unit).toBe('money');
    expect(stationsOf(only(boards)).every((each) => each.startsWith('plate'))).toBe(true);
    expect(cost).toBe(5 * 500);
    expect(placed(only(boards)).cheaperAtOtherPrices).toEqual([]);
  });

  it('says where the choice turns over within the ranges of the prices', () => {
    const { layout } = analyse(house({ more: prices('$4.00 to $12.00', '$6.00 to $8.00') }));
    const board = placed(only(place(layout).boards));
    expect(board.cheaperAtOtherPrices.length).toBe(1);
    const text = placementToText(placementReport({ layouts: [layout], scope: { kind: 'house' } }, []));
    expect(text).toMatch(/within\s+their ranges (rod|plate) can be\s+cheaper/);
  });

  it('holds the time of the crew where the list has it', () => {
    const labour = `  labour through-bolt 20 to 40 min\n  labour side-plate 10 to 20 min\n  rate labour $60 to $60 per hour\n`;
    const { layout } = analyse(house({ more: prices('$1.00 to $1.00', '$2.00 to $2.00', labour) }));
    const { costs, cost } = place(layout);
    expect(costs.unit === 'money' && costs.withLabour).toBe(true);
    // Five plates at $2 and 15 minutes at $60 an hour, against rods at $1 and half an hour.
    expect(cost).toBe(5 * (200 + 1500));
  });

  it('counts connectors alike where one of them has no price, and says which', () => {
    const list = `\nprices ours dated 2026-04-01\n  price plate $4.00 to $6.00 each\n`;
    const { costs } = place(analyse(house({ more: list })).layout);
    expect(costs).toEqual({ unit: 'count', because: 'rod has no price' });
  });
});

describe('the edits of a placement', () => {
  const proposed = (lines: readonly string[]) => house({ work: lines.map((line) => `  anchor ${line}`).join('\n') });

  it('keep the marks and lines of proposals that can serve, and every comment', () => {
    const text = proposed([
      `W-3 rod at 1'-0" proposed  // near the corner`,
      `W-7 rod at 5'-0" proposed`,
      `W-9 rod at 9'-0"`,
    ]);
    const analysis = analyse(text);
    const after = written(analysis);
    expect(after).toContain('// near the corner');
    const marks = [...after.matchAll(/anchor +(W-\d+)/g)].map(([, mark]) => mark);
    expect(marks.slice(0, 3)).toEqual(['W-3', 'W-7', 'W-9']);
    expect(marks.slice(3)).toEqual(['W-10', 'W-11']);
    expect(after).toMatch(/W-9 +rod at 9'-0"\n/);
    expect(
      analyse(after)
        .findings.filter(({ rule }) => rule.startsWith('anchorage/'))
        .map(({ severity }) => severity),
    ).not.toContain('error');
  });

  it('take out proposals that are too many, and leave their comments', () => {
    const stations = [10, 30, 50, 70, 90, 110, 130, 150, 182];
    const text = proposed(stations.map((at, index) => `W-${index + 1} rod at ${at}" proposed  // number ${index + 1}`));
    const after = written(analyse(text));
    expect([...after.matchAll(/^ *anchor /gm)]).toHaveLength(5);
    for (const index of stations.keys()) expect(after).toContain(`// number ${index + 1}`);
    expect(analyse(after).findings.filter(({ rule }) => rule.startsWith('language/'))).toEqual([]);
  });

  it('keep the line breaks of the file', () => {
    const stations = [10, 30, 50, 70, 90, 110, 130, 150, 182];
    const text = proposed(stations.map((at, index) => `W-${index + 1} rod at ${at}" proposed note "n${index + 1}"`));
    const after = written(analyse(text.replaceAll('\n', '\r\n')));
    expect(after.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect([...after.matchAll(/^ *anchor /gm)]).toHaveLength(5);
    expect(analyse(after).findings.filter(({ rule }) => rule.startsWith('language/'))).toEqual([]);
  });

  it('leave a text in its canonical form in it, and write a block where the wall has none', () => {
    const bare = formatSheet(house({}).replace('work on W\n', '')).text;
    const after = written(analyse(bare));
    expect(after).toMatch(/work on W\n( {2}anchor .* proposed\n){5}$/);
    expect(formatSheet(after).changes).toEqual([]);
    const again = analyse(after);
    expect(placementEdits(again.layout, place(again.layout)).edits).toEqual([]);
  });

  it('set a shim and a right-angle drill where the connector wants them', () => {
    const low = house({})
      .replace('headroom 30"', 'headroom 16"')
      .replace(/rod through-bolt\n/, 'rod through-bolt\n  fits headroom at-least 24"\n')
      .replace('set-back 0" headroom', 'set-back 1" headroom');
    expect(written(analyse(low))).toMatch(/anchor +W-1 +rod +at 0'-10 1\/2" +right-angle-drill +proposed/);
    const shimmed = house({})
      .replace('set-back 0" headroom 30"', 'set-back 1/4" headroom 9"')
      .replace(/rod through-bolt\n/, 'rod through-bolt\n  fits headroom at-least 24"\n');
    const after = written(analyse(shimmed));
    expect(after).toMatch(/anchor +W-1 +plate +at .* +shim 1\/4" +proposed/);
    expect(
      analyse(after).findings.filter(({ severity, rule }) => severity === 'error' && rule.startsWith('anchorage/')),
    ).toEqual([]);
  });

  it('leave alone what an issue holds, until they are told to', () => {
    const text = `${proposed([`W-1 rod at 1'-0" proposed`])}\nissue 1 2026-05-02 for review by "designer"\n`;
    const { layout } = analyse(text);
    const issued: Layout =
      layout.issues.length > 0
        ? layout
        : {
            ...layout,
            issues: [
              {
                number: 1,
                date: '2026-05-02',
                purpose: 'review',
                by: undefined,
                fingerprint: undefined,
                changed: [],
                source: layout.walls[0]?.source ?? { block: { file: '', key: '' }, start: 0, end: 0 },
              },
            ],
          };
    const held = place(issued);
    expect(held.issued).toEqual(['W-1']);
    expect(placed(only(held.boards)).board.kept.map(({ words }) => words)).toEqual(['W-1']);
    const free = place(issued, { moveIssued: true });
    expect(free.issued).toEqual([]);
    expect(placed(only(free.boards)).board.kept).toEqual([]);
  });
});

describe('an edit of one board', () => {
  it('is one new solve: all other boards are remembered', () => {
    const answer = exampleHost.read('maple-surveyed.sill');
    const text = 'text' in answer ? answer.text : '';
    const memory = placementMemory();
    const boards = place(analyse(text).layout, { memory, unexplained: true }).boards.filter(
      ({ outcome }) => outcome !== 'left-alone',
    );
    const before = memory.chains.size;
    expect(before).toBeGreaterThan(6);
    expect(before).toBeLessThanOrEqual(boards.length);
    place(analyse(text).layout, { memory, unexplained: true });
    expect(memory.chains.size).toBe(before);
    // A pipe in front of F2 and of nothing else.
    const edited = text.replace(`  hatch   H1`, `  pipe P9 at 13'-0" wide 4"\n  hatch   H1`);
    expect(edited).not.toBe(text);
    place(analyse(edited).layout, { memory, unexplained: true });
    expect(memory.chains.size).toBe(before + 1);
  });
});

describe('a board that cannot be laid out', () => {
  const failure = (text: string) => {
    const { layout } = analyse(text);
    const { boards, costs } = place(layout);
    const board = only(boards);
    if (board.outcome !== 'infeasible') throw new Error(board.outcome);
    return failureInWords(layout, board, costs);
  };

  it('says what is in the way and which single change helps, tried by placing again', () => {
    const said = failure(
      house({
        found: `  window N1 6'-0" to 8'-6" reaches-sill\n  gas-pipe G1 "riser" at 9'-0" wide 12" riser\n`,
        sill: 'W1 to end',
      }),
    );
    expect(said.cause).toMatch(
      /^beyond 5'-10 1\/4", the next place to stand is 10'-0", over the 4'-0" allowed between two: /,
    );
    expect(said.blockers.join()).toContain('gas pipe G1');
    expect(said.reliefs[0]?.words).toMatch(/^have gas pipe G1 .* moved by the licensed trade$/);
    expect(said.reliefs[0]?.cost).toBe(5);
  });

  it('says of every connector why it does not fit where none does', () => {
    const text = house({})
      .replace('set-back 0" headroom 30"', 'set-back 3" headroom 9"')
      .replace(/rod through-bolt\n/, 'rod through-bolt\n  fits headroom at-least 24"\n');
    const said = failure(text);
    expect(said.cause).toMatch(
      /^no connector in sight surely fits: rod: 9" headroom over sill W1, 2'-0" wanted; plate: 3" set-back of sill W1$/,
    );
  });

  it('offers to measure what nobody measured', () => {
    const text = house({})
      .replace(
        'set-back 0" headroom 30"',
        'set-back 0" headroom 9"\n  foundation from 0" to 2\'-0" thick 8" showing unknown top 0" grade 8"',
      )
      .replace('connector plate side-plate\n', 'connector plate side-plate\n  fits showing at-least 9"\n')
      .replace(/rod through-bolt\n/, 'rod through-bolt\n  fits headroom at-least 24"\n');
    const { layout } = analyse(text);
    const board = only(place(layout).boards);
    expect(['infeasible', 'placed']).toContain(board.outcome);
    if (board.outcome === 'infeasible') {
      expect(
        failureInWords(layout, board, place(layout).costs)
          .reliefs.map(({ words }) => words)
          .join(),
      ).toMatch(/^measure /);
    }
  });

  it('gives the cut of a new piece of sill, with both of its new ends clear', () => {
    const report = placementReport(
      {
        layouts: [
          analyse(
            house({
              length: `14'-0"`,
              found: `  rot 0'-8" to 1'-6"\n  window N1 4'-6" to 7'-2" reaches-sill\n  window N2 10'-0" to 12'-0" reaches-sill\n`,
            }),
          ).layout,
        ],
        scope: { kind: 'house' },
      },
      [],
    );
    const words = report.boards[0]?.failure?.reliefs.map((each) => each.words).join('\n') ?? '';
    const [, feet, more] = /write `replace sill W1 0'-0" to (\d+)'-(\d+)"` with new wood/.exec(words) ?? [];
    const cut = Number(feet) * 12 + Number(more);
    // A foot past the soft wood at least, and nine to twelve inches either side of it free of both windows.
    expect(cut).toBeGreaterThanOrEqual(30);
    const isFree = (from: number, to: number) => to <= 54 - 1.75 || from >= 86 + 1.75;
    expect(isFree(cut - 12, cut - 9) && isFree(cut + 9, cut + 12)).toBe(true);
  });
});

describe('the demo house', () => {
  const texts = (name: string): Readonly<Record<string, string>> => {
    const read = (file: string): string => {
      const answer = exampleHost.read(file);
      return 'text' in answer ? answer.text : '';
    };
    return { [MAIN]: read(name), 'maple-surveyed.sill': read('maple-surveyed.sill') };
  };

  it.each(['maple-surveyed.sill', 'maple-designed.sill', 'first-wall.sill'])(
    '%s has no error of anchorage left on boards that could be laid out, nor of angles and blocks',
    (name) => {
      const analysis = analyse(texts(name));
      const report = placementReport({ layouts: [analysis.layout], scope: { kind: 'house' } }, []);
      const result = writeEdits(analysis, report.edits);
      if (result.kind !== 'changes') throw new Error(result.reason);
      const after = analyse({
        ...texts(name),
        [MAIN]: applyChanges(analysis.text, result.changes),
      });
      const laidOut = new Set(
        report.boards.flatMap(({ board }) => (board.outcome === 'placed' ? [board.piece.name] : [])),
      );
      const before = new Set(analysis.findings.map(({ rule, message }) => `${rule} ${message}`));
      const errors = after.findings.filter(
        ({ rule, severity, piece, accepted }) =>
          severity === 'error' &&
          accepted === undefined &&
          ((rule.startsWith('anchorage/') && piece !== undefined && laidOut.has(piece)) || rule.startsWith('floor/')),
      );
      expect(
        errors
          .map(({ rule, message }) => `${rule} ${message}`)
          .filter((each) => each.startsWith('anchorage/') || !before.has(each)),
      ).toEqual([]);
      expect(report.boards.some(({ anchors }) => anchors.length > 0) || name === 'first-wall.sill').toBe(true);
    },
  );
});
