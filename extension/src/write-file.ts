import { FileSystemError, FileType, Uri, window, workspace } from 'vscode';
import { nameOf, refuse } from './layout-in-front.ts';

/** Writing what was asked for into files that a person chose: nothing is lost without a question, nothing fails in silence. */

/** One question for all that is there already. A dialog that names a file has asked by itself. */
export async function mayReplace(targets: readonly Uri[], title: string): Promise<boolean> {
  const there: string[] = [];
  for (const target of targets) {
    const type = await typeOf(target);
    if (type === FileType.Directory) {
      refuse(`${nameOf(target)} is a folder: give the name of a file.`);
      return false;
    }
    if (type !== undefined) there.push(nameOf(target));
  }
  const [only, ...others] = there;
  if (only === undefined) return true;
  const isOne = others.length === 0;
  const keep = { label: isOne ? 'Keep it' : 'Keep them', detail: 'Nothing is written.' };
  const replace = {
    label: isOne ? 'Replace it' : 'Replace them',
    detail: isOne ? 'What it holds now is lost.' : there.join(', '),
  };
  const placeHolder = isOne
    ? `${only} is there already. Replace it?`
    : `${there.length} of these files are there already. Replace them?`;
  return (await window.showQuickPick([keep, replace], { title, placeHolder, ignoreFocusOut: true })) === replace;
}

/** True where it was written; else the reason has been said. */
export async function writeFile(target: Uri, content: string | Uint8Array): Promise<boolean> {
  const isOpen = workspace.textDocuments.some(
    (document) => document.isDirty && document.uri.toString() === target.toString(),
  );
  if (isOpen) {
    refuse(`${nameOf(target)} is open with changes that are not saved: save or close it first.`);
    return false;
  }
  try {
    await workspace.fs.writeFile(target, typeof content === 'string' ? new TextEncoder().encode(content) : content);
    return true;
  } catch (error) {
    refuse(`${nameOf(target)} was not written: ${reasonOf(error)}.`);
    return false;
  }
}

/** A name beside the layout, or in the workspace where the layout lies on no disk. */
export function besideLayout(layout: Uri, suffix: string): Uri {
  const file = `${stemOf(layout)}-${suffix}`;
  if (isOnDisk(layout)) return Uri.joinPath(layout, '..', file);
  const folder = workspace.workspaceFolders?.find((each) => isOnDisk(each.uri))?.uri;
  return folder ? Uri.joinPath(folder, file) : Uri.file(`/${file}`);
}

export const stemOf = (layout: Uri): string => nameOf(layout).replace(/\.sill$/i, '');

/** Names may hold what a file name may not. */
export const asFileName = (name: string): string => name.replace(/[^\p{L}\p{N}_-]+/gu, '-');

export const isOnDisk = (uri: Uri): boolean => uri.scheme === 'file';

async function typeOf(target: Uri): Promise<FileType | undefined> {
  try {
    return (await workspace.fs.stat(target)).type;
  } catch {
    return undefined;
  }
}

function reasonOf(error: unknown): string {
  if (error instanceof FileSystemError) {
    if (error.code === 'NoPermissions') return 'the folder or the file is read-only';
    if (error.code === 'FileNotFound') return 'there is no such folder';
    if (error.code === 'Unavailable') return 'the folder cannot be reached';
  }
  const text = error instanceof Error ? error.message : String(error);
  return /EROFS|EACCES|EPERM|read-?only/i.test(text) ? 'the folder or the file is read-only' : text.replace(/\.$/, '');
}
