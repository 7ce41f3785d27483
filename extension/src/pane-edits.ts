import type { BaseLanguageClient } from 'vscode-languageclient';
import type { EditAnswer, MovesAnswer } from '../../language/protocol/moves.ts';
import type { PaneUnits } from '../../language/protocol/pane-choices.ts';
import type { AnswerMessage, FixesAnswer, ViewMessage } from '../../language/protocol/preview.ts';
import {
  type FixesParams,
  fixesRequest,
  type MendParams,
  type MoveParams,
  type MovesParams,
  mendRequest,
  moveRequest,
  movesRequest,
} from '../../language/protocol/requests.ts';

/** What a person does to the layout in its pane: asked for by the view, answered by the server. */
export type EditMessage = Extract<ViewMessage, { readonly type: 'moves' | 'move' | 'fixes' | 'mend' }>;

/** `undefined` where there is nothing to tell the view; it then asks again with the next text. */
export async function answerEdit(
  client: BaseLanguageClient,
  { uri, units }: { readonly uri: string; readonly units: PaneUnits },
  message: EditMessage,
): Promise<AnswerMessage | undefined> {
  switch (message.type) {
    case 'moves': {
      const { thing } = message;
      const params: MovesParams = { uri, thing, units };
      const found = await asked<MovesAnswer | null>(client, movesRequest, params, null);
      const answer = found ?? {
        kind: 'fixed',
        revision: -1,
        reason: 'the layout cannot be read just now',
        moves: null,
      };
      return { type: 'moves', thing, answer };
    }
    case 'move': {
      const { thing, station, revision } = message;
      const params: MoveParams = { uri, thing, station, revision };
      return { type: 'moved', thing, answer: await asked<EditAnswer>(client, moveRequest, params, noServer) };
    }
    case 'fixes': {
      const { revision, findings } = message;
      const params: FixesParams = { uri, revision, findings };
      const answer = await asked<FixesAnswer | null>(client, fixesRequest, params, null);
      return answer ? { type: 'fixes', answer } : undefined;
    }
    case 'mend': {
      const { revision, finding, fix } = message;
      const params: MendParams = { uri, revision, finding, fix };
      return { type: 'mended', answer: await asked<EditAnswer>(client, mendRequest, params, noServer) };
    }
  }
}

const noServer: EditAnswer = { kind: 'refused', reason: 'the language server does not answer' };

async function asked<Answer>(
  client: BaseLanguageClient,
  request: string,
  params: unknown,
  otherwise: Answer,
): Promise<Answer> {
  try {
    return await client.sendRequest<Answer>(request, params);
  } catch {
    return otherwise;
  }
}
