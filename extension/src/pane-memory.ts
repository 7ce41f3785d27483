import type { Memento, Uri } from 'vscode';
import { everythingAsWritten, type PaneChoices, readChoices } from '../../language/protocol/pane-choices.ts';

/** Layers and units that a person chose, by file, for as long as the workspace is remembered. */
export interface PaneMemory {
  choicesFor(layout: Uri): PaneChoices;
  keep(layout: Uri, choices: PaneChoices): void;
}

const key = 'sillwright.layout.choices';

export function createPaneMemory(memento: Memento): PaneMemory {
  const all = (): Readonly<Record<string, unknown>> => memento.get<Readonly<Record<string, unknown>>>(key) ?? {};
  return {
    choicesFor: (layout) => readChoices(all()[layout.toString()]),
    keep(layout, choices) {
      const { [layout.toString()]: _, ...others } = all();
      const isUsual = choices.hidden.length === 0 && choices.units === everythingAsWritten.units;
      void memento.update(key, isUsual ? others : { ...others, [layout.toString()]: choices });
    },
  };
}
