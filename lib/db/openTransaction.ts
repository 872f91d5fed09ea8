import type { SqlDriverAdapter, SqlQuery, Transaction } from "@prisma/driver-adapter-utils";

const ENDS = new Set(["COMMIT", "ROLLBACK"]);

/**
 * A connection's transaction, asked past Prisma's client while it lasts. Once it has ended, or was ended for lasting too long, it refuses:
 * SQLite would run the statement by itself.
 */
export class OpenTransaction {
  readonly #query: Transaction["queryRaw"];
  readonly #execute: Transaction["executeRaw"];
  #open = true;

  constructor(transaction: Transaction) {
    const { commit, rollback } = transaction;
    this.#query = transaction.queryRaw.bind(transaction);
    this.#execute = transaction.executeRaw.bind(transaction);
    transaction.executeRaw = (asked) => {
      if (ENDS.has(asked.sql)) this.#open = false;
      return this.#execute(asked);
    };
    transaction.commit = () => {
      this.#open = false;
      return commit.call(transaction);
    };
    transaction.rollback = () => {
      this.#open = false;
      return rollback.call(transaction);
    };
  }

  async rows(asked: SqlQuery): Promise<unknown[][]> {
    this.#demandOpen();
    return (await this.#query(asked)).rows;
  }

  async change(asked: SqlQuery): Promise<number> {
    this.#demandOpen();
    return this.#execute(asked);
  }

  #demandOpen(): void {
    if (!this.#open) throw new Error("This transaction has ended.");
  }
}

/** A connection that tells of the transaction begun on it. */
export function tellingOf(
  connection: SqlDriverAdapter,
  begun: (transaction: OpenTransaction) => void,
): SqlDriverAdapter {
  const startTransaction: SqlDriverAdapter["startTransaction"] = async (level) => {
    const transaction = await connection.startTransaction(level);
    begun(new OpenTransaction(transaction));
    return transaction;
  };
  return Object.assign(Object.create(connection) as SqlDriverAdapter, { startTransaction });
}
