import { type PaneChoices, readChoices } from '../../language/protocol/pane-choices.ts';
import { readSight, type Sight } from './sight.ts';

/** What the editor keeps of a pane while it is out of sight and over a reload. */
export interface KeptState {
  readonly uri: string;
  readonly choices: PaneChoices;
  readonly plan?: Sight | undefined;
  /** Of which wall or girder. */
  readonly wall?: string | undefined;
  readonly elevation?: Sight | undefined;
  /** How far the page is scrolled, in pixels. */
  readonly page?: number | undefined;
  /** Where the connector under the cursor may stand is shown without pointing at it. */
  readonly windows?: boolean | undefined;
}

/**
 * Where a pane begins: as it was, else as the file was looked at last.
 *
 * @param kept what the editor gives back; anything.
 * @param chosen the choices kept with the file, as JSON text.
 */
export function readKept(kept: unknown, uri: string, chosen: string | undefined): KeptState {
  if (typeof kept !== 'object' || kept === null || !('uri' in kept) || kept.uri !== uri || !('choices' in kept)) {
    return { uri, choices: readChoices(fromJson(chosen)) };
  }
  const { choices, plan, wall, elevation, page, windows } = kept as Partial<Record<keyof KeptState, unknown>>;
  return {
    uri,
    choices: readChoices(choices),
    plan: readSight(plan),
    wall: typeof wall === 'string' ? wall : undefined,
    elevation: readSight(elevation),
    page: typeof page === 'number' && Number.isFinite(page) ? page : undefined,
    windows: windows === true,
  };
}

function fromJson(text: string | undefined): unknown {
  try {
    return JSON.parse(text ?? '');
  } catch {
    return undefined;
  }
}
