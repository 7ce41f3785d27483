import { formatStation } from '../units/format-length.ts';
import { type Length, zero } from '../units/length.ts';
import type { ElevationFrame } from './elevation-frame.ts';
import { markEnds } from './elevation-new.ts';
import { lettered, plainText, textWidth } from './lettering.ts';
import { drawnStation, isIssued } from './placed-mark.ts';
import { group, type SceneNode, type XY } from './scene.ts';
import { frameWidth } from './strings.ts';
import { markFrame } from './symbols.ts';
import { kindWords } from './thing-names.ts';

/** What has no place on the wall, with the reason: nothing disappears from a drawing. */
export function trayNodes(
  { wall, shape, units, layout }: Pick<ElevationFrame, 'wall' | 'shape' | 'units' | 'layout'>,
  onWall: (station: Length | undefined) => boolean,
  room: { readonly x: number; readonly y: number; readonly right: number },
): { readonly nodes: readonly SceneNode[]; readonly bottom: number } {
  const why = (station: Length | undefined): string =>
    station === undefined ? 'no station' : `${formatStation(station, units)} is off the wall`;
  const away = (stretch: { readonly from: Length; readonly to: Length } | undefined): boolean =>
    !stretch || stretch.from > shape.length || stretch.to < zero;
  const anchors = [...wall.anchors, ...wall.ties].filter((anchor) => !onWall(drawnStation(anchor)));
  const others = [
    ...wall.panels
      .filter(({ stretch }) => away(stretch))
      .map((panel) => ({
        id: panel.id,
        text: `panel ${plainText(panel.name)}`,
        why: panel.stretch ? why(panel.stretch.from) : 'no place',
      })),
    ...wall.angles.flatMap((run) => {
      const off = run.stations.filter((station) => !onWall(station)).length;
      const reasons = [...run.lacking.map((wants) => `wants ${wants}`), ...(off > 0 ? [`${off} off the wall`] : [])];
      return reasons.length > 0 || run.stations.length === 0
        ? [{ id: run.id, text: `angles ${plainText(run.name)}`, why: reasons.join(', ') || 'no place' }]
        : [];
    }),
    ...wall.blocking
      .filter((blocking) => blocking.layer === 'design' && !wall.joists.some((run) => run.run === 'into'))
      .map((blocking) => ({ id: blocking.id, text: 'new blocks', why: 'the joists are not recorded' })),
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
    const reason = why(drawnStation(anchor));
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
                { proposed: anchor.proposed, state: anchor.state, issued: isIssued(anchor, layout) },
                'mark',
              ),
            ],
            { role: 'mark' },
          ),
          lettered(reason, [left + wide + 1.6, baseline], { size: 'label' }),
        ],
        {
          thing: anchor.id,
          role: 'thing',
          name: `${'kind' in anchor ? anchor.kind : 'anchor'} ${mark}, cannot be placed: ${reason}`,
        },
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
