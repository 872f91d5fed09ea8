import { environmentWith, reconfigure } from "@/lib/configuration/configuration";
import { closeDirectory } from "@/lib/db/directory";
import { closePool } from "@/lib/db/pools";
import { closeShops } from "@/lib/db/shop";

/** The kinds of database that a shop is moved between. */
export type Kind = "sqlite" | "postgresql";

export const otherKind = (kind: Kind): Kind => (kind === "sqlite" ? "postgresql" : "sqlite");

/** What the settings say of PostgreSQL: all of it, or none. */
const OF_POSTGRES = [
  "DATABASE_URL",
  "DIRECT_DATABASE_URL",
  "DATABASE_SERVERS",
  "DIRECT_DATABASE_SERVERS",
  "NEW_SHOPS_ON",
] as const;

type Settings = Partial<Record<(typeof OF_POSTGRES)[number], string | undefined>>;

/** What they said before this process went to the data folder. */
let given: Settings = {};

/** From here on this process works on that kind of database: the data folder, or the server at `url` with those beside it. */
export async function workOn(kind: Kind, url: string): Promise<void> {
  await closeShops();
  await closeDirectory();
  await closePool();
  const now = environmentWith({});
  if (now.DATABASE_URL !== undefined)
    given = Object.fromEntries(OF_POSTGRES.map((name) => [name, now[name]]));
  const none: Settings = Object.fromEntries(OF_POSTGRES.map((name) => [name, undefined]));
  const usual = given.DATABASE_URL === url || given.DIRECT_DATABASE_URL === url;
  if (kind === "sqlite") reconfigure(none);
  else reconfigure(usual ? given : { ...none, DATABASE_URL: url });
}
