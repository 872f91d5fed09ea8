import { reconfigure } from "@/lib/configuration/configuration";
import { closeDirectory } from "@/lib/db/directory";
import { closePool } from "@/lib/db/pools";
import { closeShops } from "@/lib/db/shop";

/** The kinds of database that a shop is moved between. */
export type Kind = "sqlite" | "postgresql";

export const otherKind = (kind: Kind): Kind => (kind === "sqlite" ? "postgresql" : "sqlite");

/** From here on this process works on that kind of database: the data folder, or the server at `url`. */
export async function workOn(kind: Kind, url: string): Promise<void> {
  await closeShops();
  await closeDirectory();
  await closePool();
  reconfigure({ DATABASE_URL: kind === "postgresql" ? url : undefined });
}
