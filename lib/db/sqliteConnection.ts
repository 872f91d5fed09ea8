import type Database from "better-sqlite3";

/** A shop asks the same few dozen questions again and again; what an import asks once must not push them out. */
const MOST_KEPT = 100;
const LONGEST_KEPT = 4_000;

/**
 * What stands between Prisma's adapter and a better-sqlite3 connection. The adapter prepares each statement anew, which
 * costs more than most of them take to run, and it takes a trigger's refusal for a broken foreign key, losing its sentence.
 * Here statements stay prepared and the sentence is kept. A writer's BEGIN does nothing: who begins its transaction takes the
 * write lock then, and may have to wait for it (clients.ts).
 */
export class SqliteConnection {
  readonly #kept = new Map<string, ReadyStatement>();

  constructor(
    private readonly file: Database.Database,
    private readonly writes: boolean,
    /** Told of every failure of a statement, before it goes on. */
    private readonly failed: (cause: unknown) => void = () => {},
    private readonly mostKept = MOST_KEPT,
  ) {}

  prepare(sql: string): Prepared | ReadyStatement {
    if (this.writes && sql === "BEGIN") return alone(() => NOTHING);
    if (sql === "COMMIT") return alone(() => this.commit());
    return this.ready(sql);
  }

  exec(script: string): void {
    this.file.exec(script);
  }

  close(): void {
    this.#kept.clear();
    this.file.close();
  }

  private ready(sql: string): ReadyStatement {
    const kept = this.#kept.get(sql);
    const ready = kept ?? this.made(sql);
    if (sql.length > LONGEST_KEPT) return ready;
    // Deleting and setting again keeps the map in order of use.
    if (kept) this.#kept.delete(sql);
    this.#kept.set(sql, ready);
    if (this.#kept.size > this.mostKept) this.#kept.delete(this.#kept.keys().next().value as string);
    return ready;
  }

  private made(sql: string): ReadyStatement {
    const say = <T>(run: () => T) => saying(run, this.failed);
    return new ReadyStatement(
      say(() => this.file.prepare(sql)),
      say,
    );
  }

  /** Nobody rolls back after a COMMIT that failed, and the connection would stay inside that transaction for good. */
  private commit(): Database.RunResult {
    try {
      return this.ready("COMMIT").run();
    } catch (cause) {
      if (this.file.inTransaction) this.ready("ROLLBACK").run();
      throw cause;
    }
  }
}

const NOTHING: Database.RunResult = { changes: 0, lastInsertRowid: 0 };

/** A statement without values or rows. The adapter binds some of them all the same. */
interface Prepared {
  readonly reader: false;
  run(): Database.RunResult;
  bind(): Prepared;
}

function alone(run: () => Database.RunResult): Prepared {
  const statement: Prepared = { reader: false, run, bind: () => statement };
  return statement;
}

/** A prepared statement in the shape the adapter uses: bound with other values each time, rows as arrays. */
class ReadyStatement {
  readonly reader: boolean;
  #columns: Database.ColumnDefinition[] | undefined;

  constructor(
    private readonly statement: Database.Statement<unknown[]>,
    private readonly say: <T>(run: () => T) => T,
  ) {
    this.reader = statement.reader;
    if (this.reader) statement.raw(true);
  }

  run(): Database.RunResult {
    return this.bind([]).run();
  }

  bind(args: unknown[]) {
    const { statement, say } = this;
    const columns = () => {
      this.#columns ??= statement.columns();
      return this.#columns;
    };
    const all = () => say(() => statement.all(args));
    return {
      reader: this.reader,
      columns,
      run: () => say(() => statement.run(args)),
      raw: () => ({ all }),
    };
  }
}

/** Runs a statement; a trigger's RAISE comes out as a plain constraint error, whose message the adapter passes on. */
function saying<T>(run: () => T, failed: (cause: unknown) => void): T {
  try {
    return run();
  } catch (cause) {
    failed(cause);
    if (!(cause instanceof Error && "code" in cause && cause.code === "SQLITE_CONSTRAINT_TRIGGER"))
      throw cause;
    throw Object.assign(new Error(cause.message, { cause }), { code: "SQLITE_CONSTRAINT" });
  }
}
