import { type Asking, LeftToPrisma } from "./asking";

/** Asks a database in its own words; answers rows of values. */
export type Rows = (sql: string, values: readonly unknown[]) => Promise<readonly (readonly unknown[])[]>;

/** A part of a statement: a subquery with one value, and what that is read as; undefined where the client is to answer. */
export interface Part {
  readonly sql: string;
  /** The most rows that it may answer. */
  readonly rows: number;
  read(answer: string): unknown;
}

interface Asked {
  readonly ask: Asking;
  readonly parts: Part[];
  readonly answers: Promise<readonly (string | number)[]>;
}

/** A statement holds the event loop while it runs: what asks for more is parted. */
const MOST_PARTS = 32;
const MOST_VALUES = 2_000;
const MOST_ROWS = 5_000;

/** Questions that are asked at the same moment, put into one statement. */
export class Together {
  #open: Asked | undefined;

  constructor(
    private readonly rowsOf: Rows,
    private readonly asking: () => Asking,
  ) {}

  /** Asks for a part with all others of this moment; `instead` answers what cannot be one. */
  ask(partOf: (ask: Asking) => Part, instead: () => PromiseLike<unknown>): PromiseLike<unknown> {
    const asked = this.current();
    const before = asked.ask.values.length;
    let part: Part;
    try {
      part = partOf(asked.ask);
    } catch (cause) {
      if (!(cause instanceof LeftToPrisma)) throw cause;
      asked.ask.values.length = before;
      return instead();
    }
    const at = asked.parts.push(part) - 1;
    return asked.answers.then((row) => {
      const answer = part.read(String(row[at]));
      return answer === undefined ? instead() : answer;
    });
  }

  private current(): Asked {
    const open = this.#open;
    if (open && hasRoom(open)) return open;
    const ask = this.asking();
    const parts: Part[] = [];
    const answers = momentOver().then(() => {
      if (this.#open?.ask === ask) this.#open = undefined;
      return parts.length === 0 ? [] : this.answered(ask, parts);
    });
    const made = { ask, parts, answers };
    this.#open = made;
    return made;
  }

  private async answered(ask: Asking, parts: readonly Part[]): Promise<readonly (string | number)[]> {
    const text = ask.schema === undefined ? "" : "::text";
    const sql = `SELECT ${parts.map((part, at) => `${part.sql}${text} AS "p${at}"`).join(", ")}`;
    const [row] = await this.rowsOf(sql, ask.values);
    return parts.map((_, at) => (row?.[at] as string | number | null | undefined) ?? "[]");
  }
}

function hasRoom({ ask, parts }: Asked): boolean {
  const rows = parts.reduce((sum, part) => sum + part.rows, 0);
  return parts.length < MOST_PARTS && ask.values.length < MOST_VALUES && rows < MOST_ROWS;
}

/** After everything that goes on in this turn has asked. */
function momentOver(): Promise<void> {
  return Promise.resolve().then(() => new Promise((resolve) => process.nextTick(resolve)));
}
