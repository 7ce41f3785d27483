import type { LengthUnits, Wall } from '../model/layout.ts';
import { formatStation } from '../units/format-length.ts';
import { type Length, zero } from '../units/length.ts';
import { markEnds } from './elevation-new.ts';
import { lettered, plainText, textWidth } from './lettering.ts';
import { group, type SceneNode, type XY } from './scene.ts';
import { frameWidth } from './strings.ts';
import { markFrame } from './symbols.ts';
import { kindWords } from './thing-names.ts';
import type { WallShape } from './wall-shape.ts';

/** What has no place on the wall, with the reason: nothing disappears from a drawing. */
export function trayNodes(
  wall: Wall,
  shape: WallShape,
  units: LengthUnits,
  onWall: (station: Length | undefined) => boolean,
  room: { readonly x: number; readonly y: number; readonly right: number },
): { readonly nodes: readonly SceneNode[]; readonly bottom: number } {
  const why = (station: Length | undefined): string =>
    station === undefined ? 'no station' : `${formatStation(station, units)} is off the wall`;
  const away = (stretch: { readonly from: Length; readonly to: Length } | undefined): boolean =>
    !stretch || stretch.from > shape.length || stretch.to < zero;
  const anchors = wall.anchors.filter((anchor) => !onWall(anchor.station));
  const others = [
    ...wall.foundAnchors
      .filter((anchor) => !onWall(anchor.station))
      .map((anchor) => ({
        id: anchor.id,
        text: `found anchor ${plainText(anchor.name ?? '')}`.trim(),
        why: why(anchor.station),
      })),
    ...[...wall.obstructions, ...wall.defects]
      .filter((thing) => away(thing.stretch))
      .map((thing) => ({
        id: thing.id,
        text: `${kindWords(thing.kind)} ${plainText(thing.name ?? '')}`.trim(),
        why: why(thing.stretch?.from),
      })),
  ];
  if (anchors.length === 0 && others.length === 0) return { nodes: [], bottom: room.y };
  const nodes: SceneNode[] = [];
  let x = room.x;
  let y = room.y + 8.4;
  const advance = (width: number): XY => {
    if (x > room.x && x + width > room.right) {
      x = room.x;
      y += 6.4;
    }
    const at: XY = [x, y];
    x += width + 5;
    return at;
  };
  nodes.push(lettered('CANNOT BE PLACED', [room.x, room.y + 3.4], { size: 'detail', colour: 'ink2' }));
  for (const anchor of anchors) {
    const mark = plainText(anchor.name);
    const reason = why(anchor.station);
    const wide = frameWidth(mark);
    const [left, baseline] = advance(wide + 1.6 + textWidth(reason, 'label'));
    nodes.push(
      group(
        [
          group(
            [
              ...markFrame(
                mark,
                [left + wide / 2, baseline - 1.2],
                { width: wide, height: 4.6 },
                markEnds(anchor.connector),
                anchor,
                'mark',
              ),
            ],
            { role: 'mark' },
          ),
          lettered(reason, [left + wide + 1.6, baseline], { size: 'label' }),
        ],
        { thing: anchor.id, role: 'thing', name: `anchor ${mark}, cannot be placed: ${reason}` },
      ),
    );
  }
  for (const other of others) {
    const text = `${other.text}: ${other.why}`;
    const at = advance(textWidth(text, 'label'));
    nodes.push(
      group([lettered(text, at, { size: 'label' })], {
        thing: other.id,
        role: 'thing',
        name: `${other.text}, cannot be placed: ${other.why}`,
      }),
    );
  }
  return { nodes: [group(nodes, { role: 'tray' })], bottom: y + 4 };
}
