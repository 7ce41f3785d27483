import { type Uri, window } from 'vscode';

/** The layout that commands without an argument are about: in the editor, else in the pane in front. */
export type LayoutInFront = () => Uri | undefined;

export function layoutInFront(inPane: LayoutInFront): LayoutInFront {
  return () => {
    const document = window.activeTextEditor?.document;
    return document?.languageId === 'sillwright' ? document.uri : inPane();
  };
}

export function nameOf(uri: Uri): string {
  return decodeURIComponent(uri.path.split('/').pop() ?? uri.path);
}

/** Says why nothing was done. */
export function refuse(reason: string): undefined {
  void window.showErrorMessage(reason);
  return undefined;
}
