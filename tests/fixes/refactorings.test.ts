import { describe, expect, it } from 'vitest';
import type { Analysis } from '../../language/analysis.ts';
import { writeEdits } from '../../language/analysis.ts';
import {
  anchorJoint,
  flipStations,
  jointsOf,
  spellOutBreaks,
  splitSillAt,
} from '../../language/domain/fixes/refactorings.ts';
import type { Wall } from '../../language/domain/model/layout.ts';
import type { Fix } from '../../language/domain/rules/finding.ts';
import { feet } from '../../language/domain/units/length.ts';
import { applyChanges } from '../../language/syntax/write-edit.ts';
import { wallText } from '../rules/support.ts';
import { analyse } from '../support/analyse.ts';
import { commentsOf } from '../support/comments.ts';

const wallOf = ({ layout }: Analysis): Wall => {
  const [wall] = layout.walls;
  if (!wall) throw new Error('no wall');
  return wall;
};
function written(text: string, make: (analysis: Analysis, wall: Wall) => readonly Fix[]): string {
  const analysis = analyse(text);
  const [fix] = make(analysis, wallOf(analysis));
  if (!fix) throw new Error('nothing is offered');
  const result = writeEdits(analysis, fix.edits);
  if (result.kind === 'refused') throw new Error(result.reason);
  return applyChanges(text, result.changes);
}
const boards = (text: string) =>
  wallOf(analyse(text)).pieces.map(({ name, from, to, joint, setBack, headroom }) => ({
    name,
    from,
    to,
    joint,
    setBack: setBack?.points[0]?.value.kind === 'known' ? setBack.points[0].value.value : undefined,
    headroom: headroom?.points[0]?.value.kind === 'known' ? headroom.points[0].value.value : undefined,
  }));

describe('boards that `break` cuts', () => {
  const broken = wallText({ found: [`break at 8'-0" half-lap 4"  // seen from below`, `break at 14'-0"`] });

  it('are the same boards as lines of their own, comments kept', () => {
    const after = written(broken, (_analysis, wall) => spellOutBreaks(wall));
    expect(after).not.toContain('break at');
    expect(after.match(/^ {2}sill /gm)).toHaveLength(3);
    expect(boards(after)).toEqual(boards(broken));
    expect(commentsOf(after)).toEqual(commentsOf(broken));
    expect(analyse(after).findings.filter((each) => each.rule.startsWith('language/'))).toEqual([]);
  });

  it('that slope are left to a person, and a wall without breaks offers nothing', () => {
    const sloping = broken.replace('set-back 3/4"', 'set-back 3/4" to 1"');
    expect(() => written(sloping, (_analysis, wall) => spellOutBreaks(wall))).toThrow('slopes');
    expect(spellOutBreaks(wallOf(analyse(wallText({}))))).toEqual([]);
  });
});

describe('other changes of a wall', () => {
  it('reading a list from the other end twice gives what it was', () => {
    const text = wallText({
      anchors: [`1'-0"`, `4'-7"`],
      found: [`vent V1 2'-0" to 3'-4"`, `stack S1 at 10'-0" wide 8"`, `anchor X1 1/2" at 7'-0"`],
    });
    for (const list of ['old-anchors', 'things', 'new-work'] as const) {
      const flip = (before: string) => written(before, ({ layout }, wall) => flipStations(layout, wall, list));
      expect(flip(text)).not.toBe(text);
      expect(flip(flip(text))).toBe(text);
    }
  });

  it('nothing that is drilled is read from the other end', () => {
    const text = `${wallText({ anchors: [`1'-0"`, `4'-7"`] })}record 2026-05-04 by "crew"\n  installed F-1 as planned\n`;
    const analysis = analyse(text);
    expect(flipStations(analysis.layout, wallOf(analysis), 'new-work')).toEqual([]);
  });

  it('a board is cut where it lies, and its joint gets two anchors', () => {
    const cut = written(wallText({}), ({ layout }, wall) => splitSillAt(layout, wall, feet(10), 'butt'));
    expect(boards(cut).map(({ from, to }) => [from, to])).toEqual([
      [0, feet(10)],
      [feet(10), feet(20)],
    ]);
    const two = wallText({ sills: [`F1 to 10'-0"`, 'F2 to end'], anchors: [`1'-0"`, `5'-0"`, `15'-0"`, `19'-0"`] });
    const after = written(two, ({ layout }, wall) => {
      const [joint] = jointsOf(wall);
      return joint ? anchorJoint(layout, wall, joint.left, joint.right) : [];
    });
    expect(wallOf(analyse(after)).anchors).toHaveLength(6);
  });
});
