import fc from 'fast-check';
import type { Severity } from '../../../language/domain/rules/finding.ts';

export interface RandomWall {
  readonly text: string;
  readonly severities: readonly Severity[];
}

const at = (inchCount: number): string => `${Math.floor(inchCount / 12)}'-${inchCount % 12}"`;

/** Walls from a cupboard to a barn, sparse and crowded, with and without a cripple wall. Invented. */
export const randomWall: fc.Arbitrary<RandomWall> = fc
  .record({
    length: fc.integer({ min: 18, max: 720 }),
    pieces: fc.array(fc.integer({ min: 8, max: 240 }), { maxLength: 5 }),
    joint: fc.constantFrom('butt', 'half-lap 4"', 'scarf 6"', 'step'),
    cripple: fc.boolean(),
    joists: fc.constantFrom(
      'joists parallel',
      'joists into spaced 16" first 3"',
      'joists into spaced 16" first unknown',
      '',
    ),
    anchors: fc.array(
      fc.record({
        share: fc.double({ min: 0, max: 1, noNaN: true }),
        kind: fc.constantFrom('stepped-plate-s', 'bolt-half', 'nobody-knows'),
        proposed: fc.boolean(),
      }),
      { maxLength: 30 },
    ),
    vents: fc.array(fc.double({ min: 0, max: 0.9, noNaN: true }), { maxLength: 5 }),
    found: fc.array(
      fc.record({
        share: fc.double({ min: 0, max: 1, noNaN: true }),
        state: fc.constantFrom('sound', 'light-rust', 'heavy-rust nut none', 'bent', 'loose', 'broken'),
      }),
      { maxLength: 8 },
    ),
    services: fc.array(
      fc.record({
        share: fc.double({ min: 0, max: 0.9, noNaN: true }),
        kind: fc.constantFrom('gas-pipe', 'electrical-panel', 'stack', 'water-heater', 'meter'),
      }),
      { maxLength: 3 },
    ),
    severities: fc.array(fc.constantFrom<Severity>('stop', 'error', 'warning', 'info'), { maxLength: 20 }),
    metric: fc.boolean(),
  })
  .map((wall) => {
    const lines = [
      'layout "Random house"',
      `  units ${wall.metric ? 'metric' : 'feet-inches'}`,
      `wall W "somewhere" faces north length ${at(wall.length)}`,
      '  foundation thick 8" showing 20" top -1\'-0" grade 9"',
    ];
    let end = 0;
    wall.pieces.forEach((piece, index) => {
      const from = end;
      end = Math.min(wall.length, from + piece);
      if (end > from)
        lines.push(
          `  sill S${index + 1} ${at(Math.max(0, from - (wall.joint.startsWith('half') ? 4 : 0)))} to ${at(end)} size 1-5/8" x 5-5/8" set-back 1/2" headroom 11" ${wall.joint}`,
        );
    });
    if (wall.cripple)
      lines.push(
        '  cripple height 16" stud-height 11-1/8" studs size 1-5/8" x 3-5/8" spaced 16" first 0" double plate trimmers every-opening',
      );
    if (wall.joists !== '') lines.push(`  ${wall.joists}`);
    wall.vents.forEach((share, index) => {
      const from = Math.floor(share * (wall.length - 6));
      lines.push(`  vent V${index + 1} ${at(from)} to ${at(from + 5)}`);
    });
    wall.services.forEach(({ share, kind }, index) => {
      const from = Math.floor(share * (wall.length - 8));
      lines.push(`  ${kind} K${index + 1} ${at(from)} to ${at(from + 7)} zone 4" to 12" below top`);
    });
    wall.found.forEach(({ share, state }, index) => {
      lines.push(`  anchor X${index + 1} 1/2" at ${at(Math.floor(share * wall.length))} ${state}`);
    });
    lines.push('work on W');
    wall.anchors.forEach(({ share, kind, proposed }, index) => {
      lines.push(
        `  anchor W-${index + 1} ${kind} at ${at(Math.floor(share * wall.length))}${proposed ? ' proposed' : ''}`,
      );
    });
    return { text: `${lines.join('\n')}\n`, severities: wall.severities };
  });
