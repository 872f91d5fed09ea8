import {
  ColumnTypeEnum,
  type SqlDriverAdapter,
  type SqlQueryable,
  type Transaction,
} from "@prisma/driver-adapter-utils";
import type { Built, PlainClient } from "./sharedClient";

/**
 * Tries on stand-ins, before the first query of a kind of database, what sharing Prisma's engine relies on: that each client asks
 * its own connection, alone and beside others, in and outside a transaction, and that a query without a connection is refused.
 */
export async function demandAsExpected(
  whole: PlainClient,
  bind: (connect: () => Promise<SqlDriverAdapter>) => PlainClient,
  built: Built,
): Promise<void> {
  const one = bind(async () => standIn("one", built));
  const other = bind(async () => standIn("other", built));
  const ask = async (client: Pick<PlainClient, "$queryRawUnsafe">) => {
    const rows = (await client.$queryRawUnsafe("SELECT 1")) as { says: string }[];
    return rows[0]?.says;
  };
  const askWithin = (client: PlainClient) =>
    client.$transaction((tx: PlainClient) => ask(tx)) as Promise<string | undefined>;
  const said = await Promise.all([ask(one), askWithin(other), ask(other), askWithin(one)]);
  const unbound = await ask(whole).catch(() => "refused");
  const separate = one._requestHandler.dataloader !== other._requestHandler.dataloader;
  await Promise.all([one.$disconnect(), other.$disconnect()]);
  const wanted = "one, other in a transaction, other, one in a transaction, refused";
  if ([...said, unbound].join(", ") !== wanted || !separate)
    throw new Error(
      "Prisma's client does not keep to its connection as this version expects: nothing is opened.",
    );
}

function standIn(name: string, { provider, adapterName }: Built): SqlDriverAdapter {
  const answering = (says: string): SqlQueryable => ({
    provider,
    adapterName,
    queryRaw: async () => ({ columnNames: ["says"], columnTypes: [ColumnTypeEnum.Text], rows: [[says]] }),
    executeRaw: async () => 0,
  });
  const done = async () => undefined;
  const transaction: Transaction = {
    ...answering(`${name} in a transaction`),
    options: { usePhantomQuery: false },
    commit: done,
    rollback: done,
  };
  return {
    ...answering(name),
    executeScript: done,
    startTransaction: async () => transaction,
    dispose: done,
  };
}
