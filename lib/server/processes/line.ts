/** What can be asked over a line, by name: what is handed over, and what comes back. */
export type Questions = Readonly<Record<string, readonly [asked: unknown, answer: unknown]>>;

/** What answers at one end. */
export type Answers<Q extends Questions> = {
  readonly [K in keyof Q]: (asked: Q[K][0]) => Q[K][1] | Promise<Q[K][1]>;
};

interface Question {
  readonly question: string;
  readonly id: number;
  readonly asked: unknown;
}

interface Answer {
  readonly to: number;
  readonly answer?: unknown;
  readonly failed?: string;
}

/**
 * One end of the line between two processes of this server: asks the other end, answers what it asks. `Asked` is what this end
 * may ask, `Answered` what it answers. What is still unanswered when the other end goes fails.
 */
export class Line<Asked extends Questions, Answered extends Questions> {
  readonly #waiting = new Map<number, { resolve(answer: unknown): void; reject(cause: Error): void }>();
  #last = 0;
  #gone = false;

  constructor(
    private readonly send: (note: unknown) => void,
    private readonly answers: Answers<Answered>,
  ) {}

  ask<K extends keyof Asked & string>(question: K, asked: Asked[K][0]): Promise<Asked[K][1]> {
    if (this.#gone) return Promise.reject(gone());
    const id = ++this.#last;
    return new Promise<unknown>((resolve, reject) => {
      this.#waiting.set(id, { resolve, reject });
      this.#post({ question, id, asked });
    });
  }

  /** Takes a note that came from the other end. */
  receive(note: unknown): void {
    if (typeof note !== "object" || note === null) return;
    if ("question" in note) void this.#answer(note as Question);
    else if ("to" in note) this.#hear(note as Answer);
  }

  /** The other end is gone. */
  close(): void {
    this.#gone = true;
    for (const { reject } of this.#waiting.values()) reject(gone());
    this.#waiting.clear();
  }

  async #answer({ question, id, asked }: Question): Promise<void> {
    try {
      const answer = this.answers[question];
      if (!answer) throw new Error(`Nobody answers "${question}".`);
      this.#post({ to: id, answer: await answer(asked) });
    } catch (cause) {
      this.#post({ to: id, failed: cause instanceof Error ? cause.message : String(cause) });
    }
  }

  #hear({ to, answer, failed }: Answer): void {
    const waiting = this.#waiting.get(to);
    this.#waiting.delete(to);
    if (failed === undefined) waiting?.resolve(answer);
    else waiting?.reject(new Error(failed));
  }

  /** An end that is going hears nothing any more; its own end is told of by `close`. */
  #post(note: Question | Answer): void {
    if (!this.#gone) this.send(note);
  }
}

function gone(): Error {
  return new Error("The other process is gone.");
}
