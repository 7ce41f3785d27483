import type { CopiedTable } from './copy-table.ts';

/** Asked by a button: `false` where neither way to the clipboard is open. */
export async function copyTable(table: CopiedTable): Promise<boolean> {
  try {
    const item = new ClipboardItem({
      'text/plain': new Blob([table.plain], { type: 'text/plain' }),
      'text/html': new Blob([table.html], { type: 'text/html' }),
    });
    await navigator.clipboard.write([item]);
    return true;
  } catch {
    return copyByEvent(table);
  }
}

/** The older way, where the editor or a browser keeps the clipboard from its panes. */
function copyByEvent(table: CopiedTable): boolean {
  let isDone = false;
  const fill = (event: ClipboardEvent): void => {
    isDone = fillClipboard(event, table);
  };
  document.addEventListener('copy', fill, { once: true });
  document.execCommand('copy');
  document.removeEventListener('copy', fill);
  return isDone;
}

/** Answers Ctrl+C or Cmd+C. */
export function fillClipboard(event: ClipboardEvent, { plain, html }: CopiedTable): boolean {
  if (!event.clipboardData) return false;
  event.clipboardData.setData('text/plain', plain);
  event.clipboardData.setData('text/html', html);
  event.preventDefault();
  return true;
}
