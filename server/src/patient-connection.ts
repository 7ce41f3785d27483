import type { CancellationToken, Connection, ResponseError } from 'vscode-languageserver';
import type { FileId } from '../../language/domain/model/source.ts';

/** A request as far as this file looks into it. */
export interface AskedOf {
  readonly file: FileId;
  /** Whether it speaks of a place in the text, which an edit may move. */
  readonly ofPlace: boolean;
}

/** What ends a wait: nothing, and the request is answered; or what is said instead. */
export type Wait = Promise<ResponseError<void> | undefined>;

/**
 * The same connection, with requests about a layout answered once its analysis is made: until then other messages come through,
 * among them the one that takes the request back. What needs no analysis, such as folding, is answered at once as ever.
 * @param until `undefined` where there is nothing to wait for
 */
export function patientConnection(
  connection: Connection,
  until: (asked: AskedOf, token: CancellationToken) => Wait | undefined,
): Connection {
  const patiently =
    (answer: Handler): Handler =>
    (params, token, ...rest) => {
      const asked = askedOf(params);
      const wait = asked && until(asked, token);
      return wait ? wait.then((instead) => instead ?? answer(params, token, ...rest)) : answer(params, token, ...rest);
    };
  const { languages } = connection;
  const { inlayHint, semanticTokens } = languages;
  return overlaid(connection, {
    ...withPatience(connection, requestsOfLayouts, patiently),
    languages: overlaid(languages, {
      inlayHint: { ...inlayHint, ...withPatience(inlayHint, ['on'], patiently) },
      semanticTokens: { ...semanticTokens, ...withPatience(semanticTokens, ['on', 'onRange'], patiently) },
    }),
  });
}

/** The library builds its parts of classes, whose getters a plain copy would lose. */
function overlaid<Whole extends object>(whole: Whole, own: Partial<Whole>): Whole {
  return Object.create(whole, Object.getOwnPropertyDescriptors(own)) as Whole;
}

const requestsOfLayouts = [
  ...(['onRequest', 'onHover', 'onCompletion', 'onCodeAction', 'onCodeLens', 'onDocumentSymbol'] as const),
  ...(['onDefinition', 'onReferences', 'onDocumentHighlight', 'onPrepareRename', 'onRenameRequest'] as const),
] as const satisfies readonly (keyof Connection)[];

type Handler = (params: unknown, token: CancellationToken, ...rest: unknown[]) => unknown;

/** Ways to register a handler, each with the handler made patient. */
function withPatience<Registry extends object, Name extends keyof Registry>(
  registry: Registry,
  names: readonly Name[],
  patiently: (answer: Handler) => Handler,
): Pick<Registry, Name> {
  const made: Partial<Record<Name, unknown>> = {};
  for (const name of names) {
    const register = registry[name] as (...given: unknown[]) => unknown;
    made[name] = (...given: unknown[]): unknown =>
      register(...given.map((each) => (typeof each === 'function' ? patiently(each as Handler) : each)));
  }
  return made as Pick<Registry, Name>;
}

function askedOf(params: unknown): AskedOf | undefined {
  if (typeof params !== 'object' || params === null) return undefined;
  const ofPlace = 'position' in params || 'range' in params;
  if ('uri' in params && typeof params.uri === 'string') return { file: params.uri, ofPlace };
  const document = 'textDocument' in params ? params.textDocument : undefined;
  if (typeof document !== 'object' || document === null || !('uri' in document)) return undefined;
  return typeof document.uri === 'string' ? { file: document.uri, ofPlace } : undefined;
}
