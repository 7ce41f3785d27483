import { mkdirSync, mkdtempSync } from 'node:fs';
import { join } from 'node:path';

export const root = join(import.meta.dirname, '..', '..');
export const examples = join(root, 'examples');

/** A new empty folder inside the clone. */
export function freshFolder(name: string): string {
  const parent = join(root, 'out', 'tests');
  mkdirSync(parent, { recursive: true });
  return mkdtempSync(join(parent, `${name}-`));
}
