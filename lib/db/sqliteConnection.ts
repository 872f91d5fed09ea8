import type Database from "better-sqlite3";

/** A shop asks the same few dozen questions again and again. */
const MOST_KEPT = 100;
/** Letters of all of them: a prepared statement takes about 18 bytes for each. Measured. */
const MOST_TEXT = 120_000;
/** Pages ask long questions, which take a millisecond to prepare; of writes only imports do, each of them once. */
const LONGEST_READ = 16_000;
const LONGEST_WRITE = 4_000;

/**
 * What stands between Prisma's adapter and a better-sqlite3 connection. The adapter prepares each statement anew, which
 * costs more than most of them take to run, and it takes a trigger's refusal for a broken foreign key, losing its sentence.
 * Here statements stay prepared and the sentence is kept. A writer's BEGIN does nothing: who begins its transaction takes the
 * write lock then, and may have to wait for it (clients.ts).
 */
export class SqliteConnection {
  readonly #kept = new Map<string, ReadyStatement>();
  #keptText = 0;

  constructor(
    private readonly file: Database.Database,
    private readonly writes: boolean,
    /** Told of every failure of a statement, before it goes on. */
    private readonly failed: (cause: unknown) => void = () => {},
    /** So many times as many statements are kept as for a shop at work. */
    private readonly times = 1,
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
    this.#keptText = 0;
    this.file.close();
  }

  private ready(sql: string): ReadyStatement {
    const kept = this.#kept.get(sql);
    const ready = kept ?? this.made(sql);
    if (sql.length > (this.writes ? LONGEST_WRITE : LONGEST_READ)) return ready;
    // Deleting and setting again keeps the map in order of use.
    if (kept) this.#kept.delete(sql);
    else this.#keptText += sql.length;
    this.#kept.set(sql, ready);
    this.dropSurplus();
    return ready;
  }

  private dropSurplus(): void {
    for (const sql of this.#kept.keys()) {
      if (this.#kept.size <= MOST_KEPT * this.times && this.#keptText <= MOST_TEXT * this.times) return;
      this.#kept.delete(sql);
      this.#keptText -= sql.length;
    }
  }

  private made(sql: string): ReadyStatement {
    const say = <T>(run: () => T) => saying(run, this.failed);
    return new ReadyStatement(
      say(() => this.file.prepare(planned(sql))),
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

const QUOTED_OR_PLAN = /'[^']*'|"[^"]*"|`[^`]*`|((?:=|\b(?:IS|LIMIT|OFFSET))\s*)\?/gi;

/**
 * A statement whose plan does not hang on its values. SQLite looks whether a value that rows are compared or counted with changes its
 * plan, and so prepares such a statement anew each time it is bound, which costs more than most take to run; behind a `+`, which
 * changes nothing else, it does not look. Source: sqlite3ExprIsInteger and sqlite3_clear_bindings (which better-sqlite3 calls after each
 * run) in SQLite's code.
 */
export function planned(sql: string): string {
  return sql.replace(QUOTED_OR_PLAN, (text: string, before?: string) =>
    before === undefined ? text : `${before}+?`,
  );
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
