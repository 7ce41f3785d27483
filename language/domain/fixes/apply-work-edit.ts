import type { Panel } from '../model/design.ts';
import type { Layout, NewAnchor, Wall } from '../model/layout.ts';
import type { WorkEdit } from './work-edit.ts';

/** The wall as it would be with the edit made; the same object where the edit is about something else. */
export function withWorkEdit(layout: Layout, wall: Wall, edit: WorkEdit): Wall {
  switch (edit.kind) {
    case 'set-right-angle-drill':
      return withAnchor(wall, edit.anchor, (anchor) => ({ ...anchor, rightAngleDrill: true }));
    case 'set-offset':
      return withAnchor(wall, edit.anchor, (anchor) => ({
        ...anchor,
        offset: { kind: 'known', value: edit.offset, quality: 'measured', typed: '', source: anchor.source },
      }));
    case 'add-hardware':
      return withAnchor(wall, edit.anchor, (anchor) => {
        const connector = layout.connectors.get(edit.hardware.toLowerCase());
        const fastenerKind = connector ? undefined : edit.hardware.toLowerCase();
        const added = { name: edit.hardware, source: anchor.source, connector, fastenerKind };
        return { ...anchor, withHardware: [...(anchor.withHardware ?? []), added] };
      });
    case 'drop-hardware':
      return withAnchor(wall, edit.anchor, (anchor) => ({
        ...anchor,
        withHardware: (anchor.withHardware ?? []).filter((each) => each.name !== edit.hardware),
      }));
    case 'relocate': {
      if (!wall.obstructions.some((each) => each.id === edit.thing)) return wall;
      const obstructions = wall.obstructions.map((each) =>
        each.id === edit.thing ? { ...each, remedied: 'relocated' as const } : each,
      );
      return { ...wall, obstructions };
    }
    case 'set-panel-stretch':
      return withPanel(wall, edit.panel, (panel) => ({ ...panel, stretch: edit.stretch }));
    case 'add-flat-block':
      return withPanel(wall, edit.panel, (panel) => ({ ...panel, flatBlocked: true }));
    case 'insert-panel': {
      const like = wall.panels.find((each) => each.id === edit.like);
      if (!like) return wall;
      const id = `${wall.name}/panel:${edit.mark}`;
      return { ...wall, panels: inOrder([...wall.panels, { ...like, id, name: edit.mark, stretch: edit.stretch }]) };
    }
  }
}

function withAnchor(wall: Wall, id: string, change: (anchor: NewAnchor) => NewAnchor): Wall {
  if (!wall.anchors.some((anchor) => anchor.id === id)) return wall;
  return { ...wall, anchors: wall.anchors.map((anchor) => (anchor.id === id ? change(anchor) : anchor)) };
}

function withPanel(wall: Wall, id: string, change: (panel: Panel) => Panel): Wall {
  if (!wall.panels.some((panel) => panel.id === id)) return wall;
  return { ...wall, panels: inOrder(wall.panels.map((panel) => (panel.id === id ? change(panel) : panel))) };
}

function inOrder(panels: readonly Panel[]): readonly Panel[] {
  const from = ({ stretch }: Panel): number => stretch?.from ?? Number.MAX_SAFE_INTEGER;
  return panels.toSorted((a, b) => from(a) - from(b));
}
