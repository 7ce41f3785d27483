type VSCode = typeof import('vscode');

/** The editor's API, called through the suite that runs inside its extension host. */
export interface Host {
  /** Runs a function inside the extension host. It may use nothing but its parameters; values travel as JSON. */
  call<Result, Args extends readonly unknown[]>(
    run: (vscode: VSCode, ...args: Args) => Result | PromiseLike<Result>,
    ...args: Args
  ): Promise<Result>;
  /** Ends the suite; the mark is what it says as its last word. */
  end(mark: string): Promise<void>;
}

export function connectHost(port: number, token: string): Host {
  async function post(path: string, body: string): Promise<string> {
    const response = await fetch(`http://127.0.0.1:${port}${path}`, {
      method: 'POST',
      headers: { 'x-token': token },
      body,
      signal: AbortSignal.timeout(60_000),
    });
    if (!response.ok) throw new Error(`the suite inside the editor refused: ${response.status}`);
    return response.text();
  }
  return {
    async call<Result, Args extends readonly unknown[]>(
      run: (vscode: VSCode, ...args: Args) => Result | PromiseLike<Result>,
      ...args: Args
    ): Promise<Result> {
      const answer = await post('/call', JSON.stringify({ source: run.toString(), args }));
      const { value, error } = JSON.parse(answer) as { value?: Result; error?: string };
      if (error) throw new Error(`inside the editor: ${error}`);
      return value as Result;
    },
    async end(mark) {
      await post('/end', mark);
    },
  };
}
