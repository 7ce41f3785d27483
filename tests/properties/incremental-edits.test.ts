import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Analysis, FileHost } from '../../language/analysis.ts';
import { createAnalyser } from '../../language/analysis.ts';
import { isSameList } from '../../language/domain/list-in-runs.ts';
import type { SourceSpan } from '../../language/domain/model/source.ts';
import { finish } from '../../language/domain/steps.ts';
import type { TextInPieces } from '../../language/syntax/text-in-pieces.ts';
import { sharedEnds, textInPieces, withPart } from '../../language/syntax/text-in-pieces.ts';
import { houseOf } from '../support/houses/house.ts';
import { longHouseOf } from '../support/houses/long-house.ts';
import { patience } from '../support/houses/many-houses.ts';
import { exampleHost } from '../support/read-layout.ts';

/** Of each sequence of edits, every one is held against an analysis by somebody who never saw the text before. */
const EDITS_EACH = 12;
const SEQUENCES = process.env.SILLWRIGHT_LONG ? 834 : 25;
const SEQUENCES_IN_STEPS = process.env.SILLWRIGHT_LONG ? 200 : 5;

const EXAMPLES = ['maple-designed.sill', 'maple-surveyed.sill'];

describe('an analysis that keeps what an edit did not touch', () => {
  it(
    'says after any edits what a fresh one says',
    () => {
      fc.assert(
        fc.property(
          start,
          fc.array(edit, { minLength: EDITS_EACH, maxLength: EDITS_EACH }),
          ({ main, texts }, edits) => {
            const now = new Map(texts);
            const history = [new Map(now)];
            const host = { ...exampleHost, read: (file: string) => textIn(now, file) };
            const analyser = createAnalyser({ ...host, read: asEdited(host.read) });
            analyser.analyse(main);
            for (const each of edits) {
              const files = [...now.keys()];
              const file = files[each.file % files.length] ?? main;
              const before = now.get(file) ?? '';
              now.set(file, each.undo ? (history[each.undo % history.length]?.get(file) ?? before) : each.make(before));
              history.push(new Map(now));
              expectSame(analyser.analyse(main), createAnalyser(host).analyse(main));
            }
          },
        ),
        { numRuns: SEQUENCES },
      );
    },
    patience,
  );

  it(
    'says the same when it was made in steps, left and begun anew between edits, with another house between the steps',
    () => {
      const left = fc.record({ edit, steps: fc.nat({ max: 60 }), goesOn: fc.boolean() });
      fc.assert(
        fc.property(start, start, fc.array(left, { minLength: 6, maxLength: 6 }), (one, two, edits) => {
          const now = new Map([...two.texts, ...one.texts]);
          const second = `beside ${two.main}`;
          now.set(second, two.texts.get(two.main) ?? '');
          const host = { ...exampleHost, read: (file: string) => textIn(now, file) };
          const analyser = createAnalyser(host);
          const beside = analyser.analyseInSteps(second);
          for (const { edit: each, steps, goesOn } of edits) {
            now.set(one.main, each.make(now.get(one.main) ?? ''));
            const running = analyser.analyseInSteps(one.main);
            let step = running.next();
            for (let count = 0; count < steps && step.done !== true; count += 1) {
              beside.next();
              step = running.next();
            }
            if (goesOn)
              expectSame(step.done === true ? step.value : finish(running), createAnalyser(host).analyse(one.main));
          }
          expectSame(analyser.analyse(one.main), createAnalyser(host).analyse(one.main));
          expectSame(analyser.analyse(second), createAnalyser(host).analyse(second));
        }),
        { numRuns: SEQUENCES_IN_STEPS },
      );
    },
    patience,
  );

  it('says the same of many walls that are made anew, the work on them read from its text again', () => {
    let text = longHouseOf(600);
    const host = { ...exampleHost, read: () => ({ text }) };
    const analyser = createAnalyser(host);
    const before = analyser.analyse('house.sill');
    expect(before.layout.walls.length).toBeGreaterThan(20);
    text = text.replace('sill size 41 mm x 143 mm', 'sill size 38 mm x 140 mm');
    const after = analyser.analyse('house.sill');
    expect(after.layout.walls.some((wall) => before.layout.walls.includes(wall))).toBe(false);
    // What is found of other walls rests on these very objects.
    const seenOf = ({ layout }: Analysis) => layout.walls.flatMap(({ nameSource, taped }) => [nameSource, taped]);
    expect(isSameList(seenOf(after), seenOf(before))).toBe(true);
    expectSame(after, createAnalyser(host).analyse('house.sill'));
  });
});

function expectSame(kept: Analysis, fresh: Analysis): void {
  const [one, other] = [seen(kept), seen(fresh)];
  // Texts compare fast; the parts are compared only to show where they differ.
  if (JSON.stringify(one) !== JSON.stringify(other)) expect(one).toEqual(other);
}

function textIn(texts: ReadonlyMap<string, string>, file: string): ReturnType<typeof exampleHost.read> {
  const text = texts.get(file);
  return text === undefined ? exampleHost.read(file) : { text };
}

/** Texts as an open editor has them: in pieces, of which an edit leaves most as they are. */
function asEdited(read: FileHost['read']): FileHost['read'] {
  const last = new Map<string, TextInPieces>();
  return (file) => {
    const answer = read(file);
    if ('missing' in answer) return answer;
    const { text } = answer;
    const before = last.get(file) ?? textInPieces(text);
    const { start, end } = sharedEnds(before.toString(), text);
    const same = Math.min(end, before.length - start, text.length - start);
    const inPieces = withPart(before, start, before.length - same, text.slice(start, text.length - same));
    last.set(file, inPieces);
    return { text, inPieces };
  };
}

// ---- what is compared

/** Everything that a reader of an analysis gets, with every place as an absolute one. */
function seen(analysis: Analysis): unknown {
  const { layout, checked, basis } = analysis;
  const { rules, connectors, sourceMap: _map, ...rest } = layout;
  const isOwn = ({ source }: { readonly source: SourceSpan }): boolean => analysis.locate(source) !== undefined;
  return {
    findings: plain(checked.findings, analysis),
    notChecked: plain(checked.notChecked, analysis),
    basis,
    layout: plain(rest, analysis),
    ruleSets: rules.chosen.map((each) => each.name),
    limits: rules.limits.length,
    connectors: plain([...connectors.values()].filter(isOwn), analysis),
  };
}

function plain(value: unknown, analysis: Analysis): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (value instanceof Map) return [...value].map(([key, each]) => [key, plain(each, analysis)]);
  if (value instanceof Set) return [...value];
  if (Array.isArray(value)) return value.map((each) => plain(each, analysis));
  if ('block' in value && 'start' in value && 'end' in value) return analysis.locate(value as SourceSpan) ?? 'built in';
  // What ships with the tool is the same for all: its name stands for it.
  if ('fasteners' in value && 'capacities' in value && 'name' in value) return value.name;
  if ('limit' in value && 'query' in value) return plain(value.query, analysis);
  return Object.fromEntries(
    Object.entries(Object.getOwnPropertyDescriptors(value))
      // Fixes are worked out when somebody reads them.
      .filter(([key, descriptor]) => descriptor.get === undefined && key !== 'fixes' && key !== 'citation')
      .map(([key, { value: each }]) => [key, plain(each, analysis)]),
  );
}

// ---- edits

const start = fc.oneof(
  { weight: 4, arbitrary: fc.nat({ max: 5_000 }).map((seed) => generated(seed)) },
  {
    weight: 1,
    arbitrary: fc
      .constantFrom(...EXAMPLES)
      .map((main) => ({ main, texts: new Map(EXAMPLES.map((file) => [file, textOf(file)])) })),
  },
);

function generated(seed: number): { readonly main: string; readonly texts: ReadonlyMap<string, string> } {
  const { text } = houseOf(seed, { design: seed % 3 !== 0, untidy: seed % 4 === 0 });
  return { main: 'main.sill', texts: new Map([['main.sill', text]]) };
}

function textOf(file: string): string {
  const answer = exampleHost.read(file);
  if ('missing' in answer) throw new Error(answer.missing);
  return answer.text;
}

interface Edit {
  readonly file: number;
  /** Not 0: back to the text of an earlier moment. */
  readonly undo: number;
  readonly make: (text: string) => string;
  readonly toString: () => string;
}

const SNIPPETS = [
  ...['', ' ', '\n', '\r\n', '//', '"', "'", '1', '9', '-', ' unknown', ' proposed', 'wall', 'work on ', '\n\n'],
  ...[
    "  anchor Z-1 flat-plate at 3'\n",
    "\nwall Z length 9'\n",
    'typical\n  sill set-back 3"\n',
    '\nrules demo\n',
    '\nuse "x.sill"\n',
  ],
  ...[
    '  accept anchorage/gap-too-wide because "seen"\n',
    '\nline back walls A, B, C storeys 2\n',
    '  no work because "porch"\n',
  ],
  ...[
    '\nrecord 2026-07-01 by "crew"\n  installed A-1, A-2 as planned\n  tested XA1 passed\n',
    '\nhouse\n  storeys 3\n',
    '  metric\n',
  ],
  ...[
    '  electrical-panel EP1 0 mm to 400 mm off 0 mm\n',
    '  obstruction O9 at 2 ft movable\n',
    '  panel Z-P1 start to end plywood 15/32"\n',
  ],
];

const what = fc.oneof(
  fc.record({ kind: fc.constant('replace' as const), length: fc.nat({ max: 12 }), text: fc.constantFrom(...SNIPPETS) }),
  fc.record({ kind: fc.constant('digit' as const), digit: fc.nat({ max: 9 }) }),
  fc.record({ kind: fc.constantFrom('delete-line', 'double-line', 'join-lines', 'break-line', 'lift-line' as const) }),
  fc.record({ kind: fc.constantFrom('delete-block', 'double-block', 'lift-block' as const) }),
  fc.record({ kind: fc.constant('rename' as const), to: fc.constantFrom('Q', 'A', 'B', 'Q-7', 'A-1') }),
  fc.record({
    kind: fc.constant('paste' as const),
    seed: fc.nat({ max: 300 }),
    blocks: fc.integer({ min: 1, max: 40 }),
  }),
);
type What = typeof what extends fc.Arbitrary<infer Value> ? Value : never;

const edit = fc
  .record({
    file: fc.nat(),
    undo: fc.oneof({ weight: 9, arbitrary: fc.constant(0) }, { weight: 1, arbitrary: fc.nat() }),
    at: fc.nat(),
    what,
  })
  .map(
    ({ file, undo, at, what: one }): Edit => ({
      file,
      undo,
      make: (text) => edited(text, at, one),
      toString: () => JSON.stringify({ file, undo, at, ...one }),
    }),
  );

function edited(text: string, at: number, change: What): string {
  const place = at % (text.length + 1);
  const lines = text.split(/(?<=\n)/);
  const line = at % Math.max(1, lines.length);
  const blocks = text.split(/(?<=\n)(?=\S)/);
  const block = at % Math.max(1, blocks.length);
  switch (change.kind) {
    case 'replace':
      return text.slice(0, place) + change.text + text.slice(place + change.length);
    case 'digit': {
      const digit = text.slice(place).search(/\d/);
      return digit < 0 ? text : text.slice(0, place + digit) + change.digit + text.slice(place + digit + 1);
    }
    case 'delete-line':
      return lines.toSpliced(line, 1).join('');
    case 'double-line':
      return lines.toSpliced(line, 0, lines[line] ?? '').join('');
    case 'join-lines':
      return [...lines.slice(0, line), (lines[line] ?? '').replace(/\r?\n$/, ''), ...lines.slice(line + 1)].join('');
    case 'break-line':
      return `${text.slice(0, place)}\n${text.slice(place)}`;
    case 'lift-line':
      return [...lines.slice(line, line + 1), ...lines.toSpliced(line, 1)].join('');
    case 'delete-block':
      return blocks.toSpliced(block, 1).join('');
    case 'double-block':
      return blocks.toSpliced(block, 0, blocks[block] ?? '').join('');
    case 'lift-block':
      return [...blocks.slice(block, block + 1), ...blocks.toSpliced(block, 1)].join('');
    case 'rename': {
      const names = [...text.matchAll(/\b[A-Z]{1,2}(?:-[A-Z]?\d+)?\b/g)];
      const name = names[at % Math.max(1, names.length)];
      return name ? text.slice(0, name.index) + change.to + text.slice(name.index + name[0].length) : text;
    }
    case 'paste': {
      const other = houseOf(change.seed, { design: true }).text.split(/(?<=\n)(?=\S)/);
      return text.slice(0, place) + other.slice(0, change.blocks).join('') + text.slice(place);
    }
  }
}
