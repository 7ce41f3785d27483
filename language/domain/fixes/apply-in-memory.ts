import type { Layout, NewAnchor, Wall } from '../model/layout.ts';
import { noTags } from '../model/layout.ts';
import type { ThingEdit } from './edit.ts';

/**
 * The layout as it would be with the edits made; the text stays as it is. Walls that no edit touches stay the same objects.
 * An edit of a thing that is not there changes nothing, nor does one that only replaces text.
 */
export function withEdits(layout: Layout, edits: readonly ThingEdit[]): Layout {
  const walls = layout.walls.map((wall) => edits.reduce((edited, edit) => withEdit(layout, edited, edit), wall));
  return { ...layout, walls };
}

function withEdit(layout: Layout, wall: Wall, edit: ThingEdit): Wall {
  switch (edit.kind) {
    case 'insert-anchor': {
      if (edit.wall !== wall.id) return wall;
      const connector = layout.connectors.get(edit.connector.toLowerCase());
      const anchor: NewAnchor = {
        id: `${wall.name}/anchor:${edit.mark}`,
        name: edit.mark,
        nameSource: wall.nameSource,
        source: wall.source,
        tags: noTags,
        connectorName: edit.connector,
        connectorSource: undefined,
        connector,
        station: edit.station,
        stationSource: undefined,
        embed: undefined,
        offset: undefined,
        shim: undefined,
        proposed: true,
        rightAngleDrill: false,
        state: 'planned',
      };
      return { ...wall, anchors: inOrder([...wall.anchors, anchor]) };
    }
    case 'set-station':
      return withAnchor(wall, edit.anchor, (anchor) => ({ ...anchor, station: edit.station }));
    case 'set-connector':
      return withAnchor(wall, edit.anchor, (anchor) => ({
        ...anchor,
        connectorName: edit.connector,
        connector: layout.connectors.get(edit.connector.toLowerCase()),
      }));
    case 'replace-text':
      return wall;
  }
}

function withAnchor(wall: Wall, id: string, change: (anchor: NewAnchor) => NewAnchor): Wall {
  if (!wall.anchors.some((anchor) => anchor.id === id)) return wall;
  return { ...wall, anchors: inOrder(wall.anchors.map((anchor) => (anchor.id === id ? change(anchor) : anchor))) };
}

function inOrder(anchors: readonly NewAnchor[]): readonly NewAnchor[] {
  return anchors.toSorted((a, b) => (a.station ?? Number.MAX_SAFE_INTEGER) - (b.station ?? Number.MAX_SAFE_INTEGER));
}
