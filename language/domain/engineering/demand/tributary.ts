import type { Point } from '../../model/layout.ts';
import type { Area } from '../../units/area.ts';
import { squareMetres } from '../../units/area.ts';
import type { Force } from '../../units/force.ts';
import type { Length } from '../../units/length.ts';
import { zero } from '../../units/length.ts';
import { formula } from '../formula.ts';
import { section } from '../publications.ts';
import type { Input, Refused, Trace, Traced } from '../trace.ts';
import { asInput, computed, given, refused } from '../trace.ts';
import { degree, foot, pound, squareFoot } from '../trace-units.ts';
import type { Outline } from './tributary-strips.ts';
import { stripAreas, stripPlan } from './tributary-strips.ts';

export interface LineWall {
  readonly name: string;
  readonly length: Length;
  /** Between the wall and its line, degrees: a wall at an angle counts by the cosine. */
  readonly angleFromLine: number;
}
export interface TributaryLine {
  readonly name: string;
  /** Any point of the line. */
  readonly through: Point;
  /** Its ends, where it takes only what lies beside it; absent: a drag strut brings it force from the whole width. */
  readonly ends?: { readonly from: Point; readonly to: Point };
  readonly walls: readonly LineWall[];
}
export interface TributaryLevel {
  readonly name: string;
  readonly force: Input<Force>;
  /** Of this storey alone, so that a one-storey part loads its lines with one storey. */
  readonly outlines: readonly Outline[];
}
export interface TributaryCase {
  /** Along the lines and the force, degrees from the x axis (east). */
  readonly direction: number;
  readonly lines: readonly TributaryLine[];
  readonly levels: readonly TributaryLevel[];
}

export interface LineDemand {
  readonly name: string;
  readonly demand: Traced<Force>;
  /** Tributary area by level, in the order of the levels. */
  readonly areas: readonly Area[];
  /** Σ L cos of its walls. */
  readonly resistingLength: Traced<Length>;
}
export interface TributaryDemand {
  readonly lines: readonly LineDemand[];
  /** What the lines add up to: the sum of the level forces. */
  readonly total: Traced<Force>;
}

/**
 * Level forces to the lines of one direction by tributary area: each line takes the strip that reaches halfway to its
 * neighbours, cut by the outline of each storey; the outer strips reach to the edge. Lines at the same place share by
 * resisting length. A line with ends takes its strip beside itself only; where no line stands, all of them do. Flexible-diaphragm practice, ASCE 7-16 12.3.1.1 and 12.8.4 (from memory).
 * Refused: no lines, or a level that carries a force and encloses no area.
 */
export function tributaryDemand(trib: TributaryCase): TributaryDemand | Refused {
  if (trib.lines.length === 0) return refused('no line of resistance in this direction: nothing carries the force');
  const plan = stripPlan(
    trib.direction,
    trib.lines.map((line) => ({ ...line, weight: foot.from(resistingLength(line.walls).value) })),
  );
  const levels: { readonly level: TributaryLevel; readonly total: number; readonly areas: readonly number[] }[] = [];
  for (const level of trib.levels) {
    const areas = stripAreas(plan, level.outlines);
    if (!(areas.total > 0)) return refused(`the outline of ${level.name} encloses no area`);
    levels.push({ level, total: areas.total, areas: areas.byLine });
  }
  const practice = section('ASCE 7-16', '12.3.1.1, 12.8.4', 'from-memory');
  const lines = trib.lines.map((line, lineIndex): LineDemand => {
    const inputs: Trace[] = [];
    const terms: string[] = [];
    levels.forEach(({ level, total, areas }, index) => {
      const n = index + 1;
      inputs.push(
        asInput(`F_${n}`, `force at ${level.name}`, pound, level.force),
        given(
          `A_${n}`,
          `tributary area of ${line.name} at ${level.name}`,
          squareFoot,
          squareMetres(areas[lineIndex] ?? 0),
        ),
        given(`A_t${n}`, `area of ${level.name}`, squareFoot, squareMetres(total)),
      );
      terms.push(`F_${n} * A_${n} / A_t${n}`);
    });
    const demand = computed(
      'V_line',
      `force on ${line.name}`,
      pound,
      formula(terms.join(' + ') || '0'),
      inputs,
      practice,
    );
    return {
      name: line.name,
      demand,
      areas: levels.map(({ areas }) => squareMetres(areas[lineIndex] ?? 0)),
      resistingLength: resistingLength(line.walls),
    };
  });
  const forces = levels.map(({ level }, index) =>
    asInput(`F_${index + 1}`, `force at ${level.name}`, pound, level.force),
  );
  const sum = formula(forces.map((force) => force.symbol).join(' + ') || '0');
  return {
    lines,
    total: computed('V', 'force in this direction', pound, sum, forces, section('statics', '', 'published')),
  };
}

/** Σ L |cos φ| of the walls of a line, ft. */
export function resistingLength(walls: readonly LineWall[]): Traced<Length> {
  const inputs: Trace[] = [];
  const terms = walls.map((wall, index) => {
    const n = index + 1;
    inputs.push(
      given(`L_${n}`, `length of ${wall.name}`, foot, wall.length),
      given(`phi_${n}`, `${wall.name} from its line`, degree, wall.angleFromLine),
    );
    return `L_${n} * abs(cos(phi_${n}))`;
  });
  return computed(
    'L_r',
    'resisting length of the line',
    foot,
    formula(terms.join(' + ') || '0'),
    inputs,
    section('statics', '', 'published'),
  );
}

/** A line's force along each of its walls, lb: by resisting length, along the wall itself. Refused for a line without any. */
export function wallForces(lineForce: Input<Force>, walls: readonly LineWall[]): readonly Traced<Force>[] | Refused {
  const whole = resistingLength(walls);
  if (whole.value <= zero) return refused('the walls of this line have no length along it');
  return walls.map((wall) => {
    const inputs = [
      asInput('V_line', 'force on the line', pound, lineForce),
      given('L', `length of ${wall.name}`, foot, wall.length),
      whole,
    ];
    return computed(
      'V_w',
      `force along ${wall.name}`,
      pound,
      formula('V_line * L / L_r'),
      inputs,
      section('statics', '', 'published'),
    );
  });
}
