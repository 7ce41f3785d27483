import { URI, Utils } from 'vscode-uri';
import type { FileHost, TextOfFile } from '../../language/analysis.ts';
import type { FileId } from '../../language/domain/model/source.ts';
import type { EditedDocument } from './edited-document.ts';

/** Reads a file that is not open in the editor. */
export type ReadFromDisk = (uri: string) => { readonly text: string } | { readonly missing: string };

/** The files that a layout may use: what is open in the editor, else what is on disk, never outside the workspace. */
export interface WorkspaceFiles extends FileHost {
  setFolders(folders: readonly string[]): void;
  /** Runs `work` and names every file that it asked for, found or not. */
  recordingReads<Result>(work: () => Result): { readonly result: Result; readonly asked: ReadonlySet<FileId> };
}

export function createWorkspaceFiles(
  openDocument: (uri: string) => EditedDocument | undefined,
  readFromDisk: ReadFromDisk,
): WorkspaceFiles {
  let folders: readonly string[] = [];
  let asked: Set<FileId> = new Set();

  function read(file: FileId): TextOfFile | { readonly missing: string } {
    asked.add(file);
    const open = openDocument(file);
    return open ? textOf(open) : readFromDisk(file);
  }

  return {
    read,
    resolve(from, path) {
      if (/^([a-z][a-z0-9+.-]*:|[/\\])/i.test(path)) {
        return { refused: 'write the path from this file, as in "hardware.sill"' };
      }
      if (path.includes('\\')) return { refused: 'write / between folders' };
      const folderOfFile = Utils.dirname(URI.parse(from));
      const file = Utils.resolvePath(folderOfFile, path).toString();
      const allowed = folders.length > 0 ? folders : [folderOfFile.toString()];
      if (allowed.some((folder) => isInside(file, folder))) return { file };
      return { refused: 'it lies outside the workspace; copy it in' };
    },
    setFolders(uris) {
      folders = uris.map((uri) => URI.parse(uri).toString());
    },
    recordingReads(work) {
      const outer = asked;
      asked = new Set();
      try {
        return { result: work(), asked };
      } finally {
        asked = outer;
      }
    },
  };
}

/** All in one only for those who ask for that. */
function textOf(open: EditedDocument): TextOfFile {
  return {
    get text() {
      return open.getText();
    },
    inPieces: open.inPieces,
  };
}

function isInside(file: string, folder: string): boolean {
  return file.startsWith(folder.endsWith('/') ? folder : `${folder}/`);
}
