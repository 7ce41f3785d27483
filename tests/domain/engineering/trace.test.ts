import { describe, expect, it } from 'vitest';
import { shearBreakout } from '../../../language/domain/engineering/capacity/concrete-anchor.ts';
import { overturning } from '../../../language/domain/engineering/capacity/overturning.ts';
import { panelCapacity } from '../../../language/domain/engineering/capacity/shear-wall.ts';
import { sillBoltCapacity } from '../../../language/domain/engineering/capacity/sill-bolt.ts';
import { responseCoefficient } from '../../../language/domain/engineering/demand/base-shear.ts';
import { evaluate, formula } from '../../../language/domain/engineering/formula.ts';
import { citation } from '../../../language/domain/engineering/publications.ts';
import type { Trace } from '../../../language/domain/engineering/trace.ts';
import {
  computed,
  given,
  leaningsOf,
  leastOf,
  sectionsOf,
  traceRows,
  traceText,
} from '../../../language/domain/engineering/trace.ts';
import { inch, pound, psi } from '../../../language/domain/engineering/trace-units.ts';
import { pounds, poundsPerFoot } from '../../../language/domain/units/force.ts';
import { feet, inches } from '../../../language/domain/units/length.ts';
import { poundsPerSquareInch } from '../../../language/domain/units/stress.ts';
import { done, everyTrace } from './support.ts';

const strength = given("f'_c", 'concrete compressive strength', psi, poundsPerSquareInch(2500), { quality: 'assumed' });
const bolt = done(
  sillBoltCapacity({
    diameter: inches(0.5),
    sillThick: inches(1.5),
    gravity: 0.5,
    embedment: inches(6),
    concrete: strength,
  }),
);

const traces: readonly Trace[] = [
  bolt,
  done(
    panelCapacity({
      panel: { grade: 'sheathing', thickness: '15/32', nail: '8d common', edgeSpacing: 4 },
      edition: '2015',
      load: 'seismic',
      height: feet(8),
      length: feet(3),
      gravity: 0.43,
    }),
  ),
  done(
    overturning({
      shear: pounds(3000),
      height: feet(8),
      length: feet(8),
      arm: feet(7.5),
      deadLoad: poundsPerFoot(120),
      deadFactor: 0.6,
    }),
  ).compression,
  done(
    shearBreakout({
      diameter: inches(0.5),
      embedment: inches(7),
      concrete: poundsPerSquareInch(2500),
      edge: inches(1.75),
      condition: 'cracked-no-bar',
    }),
  ).parallel,
  responseCoefficient({ SDS: 1, SD1: 0.6, S1: 0.7, period: 0.2, longPeriod: 8, R: 6.5, importance: 1 }).Cs,
];

describe('a trace', () => {
  it('shows what was computed: every formula on its own inputs gives the number beside it', () => {
    let worked = 0;
    for (const trace of traces.flatMap(everyTrace)) {
      if (!trace.formula) continue;
      const inputs = new Map(trace.inputs.map((input) => [input.symbol, input.number]));
      expect(evaluate(trace.formula, inputs)).toBeCloseTo(trace.number, 9);
      for (const symbol of trace.formula.symbols)
        expect(inputs.has(symbol), `${trace.symbol} shows ${symbol}`).toBe(true);
      worked += 1;
    }
    expect(worked).toBeGreaterThan(40);
  });

  it('names a section for everything that is not an input', () => {
    for (const trace of traces.flatMap(everyTrace)) {
      if (trace.formula && trace.inputs.length > 1)
        expect(trace.section, `${trace.symbol}: ${trace.meaning}`).toBeDefined();
    }
  });

  it('prints one line a step: symbol, formula, numbers, result, meaning, section', () => {
    const lines = traceText(bolt).split('\n');
    expect(lines[0]).toBe(
      "Z' = Z × C_D = 648 × 1.6 = 1,037 lb   adjusted lateral design value; NDS 2018 Table 11.3.1 (from memory)",
    );
    expect(lines).toContain(
      '    Z_IIIs = k_3 × D × l_s × F_em / ((2 + R_e) × R_d) = 1.231 × 0.5 × 1.5 × 7,500 / ((2 + 1.339) × 3.2) = 648 lb   yield mode IIIs; NDS 2018 Eq. 12.3-5 (from memory)',
    );
    expect(lines).toContain("        f'_c = 2,500 psi   concrete compressive strength; assumed");
    expect(lines.every((line) => line.trim() !== '')).toBe(true);
  });

  it('shows what several steps rest on once', () => {
    const rows = traceRows(bolt);
    const said = rows.map((row) => `${row.symbol.text} ${row.meaning} ${row.result}`);
    expect(new Set(said).size).toBe(said.length);
  });

  it('gives the same rows as TeX for a typesetter, with balanced braces', () => {
    for (const row of traces.flatMap(traceRows)) {
      for (const tex of [row.symbol.tex, row.formula?.tex ?? '', row.substituted?.tex ?? '']) {
        expect(tex.split('{').length).toBe(tex.split('}').length);
        expect(tex).not.toMatch(/[×∞θψφ]/);
      }
    }
  });

  it('lists what it leans on: the values that nobody measured', () => {
    expect(leaningsOf(bolt).map((trace) => [trace.meaning, trace.quality])).toEqual([
      ['concrete compressive strength', 'assumed'],
    ]);
    expect(traceText(bolt)).toContain('concrete compressive strength; assumed');
  });

  it('lists the sections that it rests on, and marks those that were written from memory', () => {
    const citations = sectionsOf(bolt).map(citation);
    expect(citations).toContain('NDS 2018 Table 2.3.2 (from memory)');
    expect(citations).toContain('NDS 2018 Table 12E footnote');
    expect(new Set(citations).size).toBe(citations.length);
  });

  it('of several limits the smallest governs and is named; of equal ones the first', () => {
    const limit = (symbol: string, value: number) => given(symbol, symbol, pound, pounds(value));
    const least = leastOf('Z', 'least', pound, [limit('a', 3), limit('b', 2), limit('c', 2)]);
    expect(least.governing.symbol).toBe('b');
    expect(least.notes).toEqual(['b governs']);
  });

  it('a result without end stops at a length that no wall reaches, and throws nothing', () => {
    const zero = given('v', 'no shear', pound, pounds(0));
    const spacing = computed('s', 'spacing', inch, formula('1 / v'), [zero], undefined);
    expect(spacing.number).toBe(Number.POSITIVE_INFINITY);
    expect(spacing.value).toBe(Number.MAX_SAFE_INTEGER);
  });
});
