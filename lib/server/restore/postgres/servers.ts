import { serverFault } from "@/lib/db/serverFaults";
import { type DatabasePlace, serverNames } from "@/lib/db/servers";
import { Refusal } from "@/lib/domain/refusal";
import { say } from "@/lib/log/say";
import type { ShopRow, Staged } from "../stage";
import { coming } from "./layReady";
import type { Exchange } from "./swap";

/** Refuses to put shops back whose server the settings do not name, or does not answer: before anything is changed. */
export async function demandServers(
  shops: readonly { readonly slug: string; readonly server?: string }[],
): Promise<void> {
  const known = new Set(serverNames());
  // A copy from before there were several says nothing of a server.
  const lost = shops.filter(({ server }) => server !== undefined && !known.has(server));
  if (lost.length)
    throw new Refusal(
      `This copy has shops on database servers that the settings do not name: ${lost.map(({ slug, server }) => `${slug} (${server})`).join(", ")}.`,
      "Name each in DATABASE_SERVERS, under the same name and with the address that it has now. Nothing was changed.",
    );
  for (const server of new Set(shops.map(({ server = "" }) => server))) {
    const fault = await serverFault(server);
    if (fault)
      throw new Refusal(
        `The database server ${server} cannot be used: ${shops
          .filter((shop) => shop.server === server)
          .map(({ slug }) => slug)
          .join(", ")} cannot be put back on it.`,
        "See that it runs and that the settings lead to it, then restore. Nothing was changed.",
      );
  }
}

/**
 * What is to be exchanged on each server as everything is put back, or one shop: the directory's server comes last, and its directory with
 * it. Of the shops that are here what the copy does not know, or has on another server, goes as well; what it holds damaged stays.
 */
export function exchangesOf(
  staged: readonly Staged[],
  ours: readonly DatabasePlace[],
  whole: boolean,
): Exchange[] {
  const fit = staged.filter(({ damage }) => damage === null);
  const stays = new Set(staged.filter(({ damage }) => damage !== null).map(({ database }) => database));
  const comes = new Set(fit.map(({ database, server }) => `${database} ${server}`));
  const goes = ours.filter(
    ({ database, server }) => !(stays.has(database) || comes.has(`${database} ${server}`)),
  );
  const known = new Set(serverNames());
  for (const { database, server } of goes)
    if (!known.has(server))
      say(`Left as it is on the server ${server}, which the settings do not name: ${database}.`);
  const servers = new Set(
    [...fit, ...goes].map(({ server }) => server).filter((server) => known.has(server)),
  );
  return [...[...servers].filter((server) => server !== ""), ""].map((server) => ({
    server,
    comes: [
      ...fit
        .filter((shop) => shop.server === server)
        .map(({ database }) => ({ schema: database, ready: coming(database) })),
      ...(whole && server === "" ? [{ schema: "directory", ready: coming("directory") }] : []),
    ],
    goes: goes.filter((place) => place.server === server).map(({ database }) => database),
  }));
}

/** Damaged shops that stay where they are, which is not where the copy has them. */
export function staysElsewhere(staged: readonly Staged[], ours: readonly ShopRow[]): ShopRow[] {
  return ours.filter(({ database, server }) =>
    staged.some((shop) => shop.damage !== null && shop.database === database && shop.server !== server),
  );
}
