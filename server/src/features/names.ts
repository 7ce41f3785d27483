import {
  type DocumentHighlight,
  DocumentHighlightKind,
  ErrorCodes,
  type Location,
  ResponseError,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { printName } from '../../../language/syntax/print/name.ts';
import { type Feature, presentState, rangeOf, type ServerContext } from '../context.ts';
import { forgetNames, type NamePlace, nameAt, rivals, type SharedName, sharedName } from '../name-places.ts';

/** To where a name is declared, to all its uses, and renaming it in every file that says it. */
export const names: Feature = {
  capabilities: {
    definitionProvider: true,
    referencesProvider: true,
    documentHighlightProvider: true,
    renameProvider: { prepareProvider: true },
  },
  register(context) {
    const { connection } = context;
    connection.onDefinition(({ textDocument, position }) =>
      context.guarded<Location | null>('looking for a name', null, () => {
        const shared = sharedNameAt(context, textDocument.uri, position);
        return shared ? (locationOf(context, shared.declaration) ?? null) : null;
      }),
    );
    connection.onReferences(({ textDocument, position, context: { includeDeclaration } }) =>
      context.guarded<Location[]>('looking for uses of a name', [], () => {
        const shared = sharedNameAt(context, textDocument.uri, position);
        if (!shared) return [];
        const places = includeDeclaration ? [shared.declaration, ...shared.references] : shared.references;
        return places.flatMap((place) => locationOf(context, place) ?? []);
      }),
    );
    connection.onDocumentHighlight(({ textDocument, position }) =>
      context.guarded<DocumentHighlight[]>('looking for uses of a name', [], () => {
        const shared = sharedNameAt(context, textDocument.uri, position);
        if (!shared) return [];
        return [shared.declaration, ...shared.references].flatMap((place) => {
          const location = place.file === textDocument.uri ? locationOf(context, place) : undefined;
          const kind = place === shared.declaration ? DocumentHighlightKind.Write : DocumentHighlightKind.Read;
          return location ? [{ range: location.range, kind }] : [];
        });
      }),
    );
    connection.onPrepareRename(({ textDocument, position }) =>
      context.guarded('preparing to rename', null, () => {
        const state = presentState(context, textDocument.uri);
        const place = state && nameAt(context, textDocument.uri, state.document.offsetAt(position));
        if (!state || !place) return null;
        const refusal = whyNotToRename(context, place);
        if (refusal !== undefined) return refused(refusal);
        return { range: rangeOf(state.document, place.start, place.end), placeholder: place.name };
      }),
    );
    connection.onRenameRequest(({ textDocument, position, newName }) =>
      context.guarded<WorkspaceEdit | ResponseError | null>('renaming', null, () => {
        const state = presentState(context, textDocument.uri);
        const place = state && nameAt(context, textDocument.uri, state.document.offsetAt(position));
        const shared = place && sharedName(context, place);
        if (!place || !shared) return refused('There is no name here that this file or the files it uses declare.');
        const name = newName.trim().replace(/^"(.*)"$/, '$1');
        const refusal = whyNotToRename(context, place) ?? whyNotCalled(context, shared, name);
        return refusal === undefined ? renaming(context, shared, name) : refused(refusal);
      }),
    );
    return { closed: forgetNames };
  },
};

function sharedNameAt(
  context: ServerContext,
  uri: string,
  position: { readonly line: number; readonly character: number },
): SharedName | undefined {
  const state = presentState(context, uri);
  const place = state && nameAt(context, uri, state.document.offsetAt(position));
  return place && sharedName(context, place);
}

function locationOf(context: ServerContext, { file, start, end }: NamePlace): Location | undefined {
  const root = context.documents.get(file)
    ? file
    : context.documents.all().find((each) => context.analyses.of(each.uri)?.files.includes(file))?.uri;
  const analysis = root === undefined ? undefined : context.analyses.of(root);
  return analysis && { uri: file, range: rangeOf(context.documentOf(analysis, file), start, end) };
}

/** A mark that was sprayed on the concrete stays what it is. */
function whyNotToRename(context: ServerContext, place: NamePlace): string | undefined {
  const shared = sharedName(context, place);
  if (!shared)
    return `${place.name} is declared neither in this file nor in those it uses: there is nothing to rename.`;
  if (!shared.declaration.kinds.includes('mark')) return undefined;
  const layout = context.analyses.of(place.file)?.layout;
  const mark = place.name.toLowerCase();
  const day = layout?.record.find((each) =>
    each.events.some((event) => 'marks' in event && event.marks.some(({ name }) => name.toLowerCase() === mark)),
  );
  return day && `${place.name} stands in the record of ${day.date}: a mark that is on the wall keeps its name.`;
}

function whyNotCalled(context: ServerContext, shared: SharedName, name: string): string | undefined {
  if (name === '' || /[\r\n]/.test(name)) return 'A name is one word, or several in quotes.';
  if (name.includes('.')) return 'A name has no full stop: `F.X4` means the thing X4 of wall F.';
  const [rival] = rivals(context, shared, name);
  const kind = shared.declaration.kinds[0] ?? 'name';
  return rival && `There is a ${kind} called ${rival.name} already; take another name.`;
}

function renaming(context: ServerContext, { declaration, references }: SharedName, name: string): WorkspaceEdit {
  const edits = new Map<string, TextEdit[]>();
  for (const place of [declaration, ...references]) {
    const location = locationOf(context, place);
    if (!location) continue;
    const inFile = edits.get(location.uri) ?? [];
    edits.set(location.uri, inFile);
    inFile.push({ range: location.range, newText: printName(name) });
  }
  return {
    documentChanges: [...edits].map(([uri, inFile]) => ({
      textDocument: { uri, version: context.documents.get(uri)?.version ?? null },
      edits: inFile,
    })),
  };
}

function refused(reason: string): ResponseError {
  return new ResponseError(ErrorCodes.InvalidRequest, reason);
}
