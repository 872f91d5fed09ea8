import { configuration } from "../configuration/configuration";
import { OWN_SERVER } from "../configuration/databaseServers";
import { Refusal } from "../domain/refusal";

/** Where a shop's database is. */
export interface DatabasePlace {
  /** The name of its file, or of its schema on PostgreSQL: what a raw query is qualified with. */
  readonly database: string;
  /** As DATABASE_SERVERS names it; empty for DATABASE_URL's own server, and for SQLite. */
  readonly server: string;
}

/** A shop as the directory places it. */
export interface ShopPlace extends DatabasePlace {
  readonly slug: string;
}

interface ServerAddress {
  /** Where requests reach it: may be a pooler that gives a session for a transaction only. */
  readonly pooled: string;
  /** The server itself: for what needs a session. */
  readonly direct: string;
  readonly behindPooler: boolean;
}

/** The addresses of a server; null where the settings do not name it, or there is no PostgreSQL at all. */
export function addressOf(server: string): ServerAddress | null {
  const { DATABASE_URL, DIRECT_DATABASE_URL, DATABASE_SERVERS, DIRECT_DATABASE_SERVERS } = configuration();
  const own = server === "";
  const pooled = own ? DATABASE_URL : DATABASE_SERVERS?.get(server);
  if (pooled === undefined) return null;
  const direct = own ? DIRECT_DATABASE_URL : DIRECT_DATABASE_SERVERS?.get(server);
  return { pooled, direct: direct ?? pooled, behindPooler: direct !== undefined };
}

/** The addresses of a server that has to be in the settings. */
export function demandAddress(server: string): ServerAddress {
  const address = addressOf(server);
  if (address) return address;
  throw new Refusal(
    server === ""
      ? "This needs a PostgreSQL server."
      : `The settings name no database server "${server}" (DATABASE_SERVERS).`,
    "Name it there, then do it again. Nothing was changed.",
  );
}

/** Past any pooler, where a shop's or the directory's schema is; undefined where SQLite files are used. */
export function directUrl(server: string): string | undefined {
  return server === "" ? addressOf(server)?.direct : demandAddress(server).direct;
}

/** All servers that the settings name, DATABASE_URL's own first; none where SQLite files are used. */
export function serverNames(): readonly string[] {
  const { DATABASE_URL, DATABASE_SERVERS } = configuration();
  return DATABASE_URL === undefined ? [] : ["", ...(DATABASE_SERVERS?.keys() ?? [])];
}

/** The server that a new shop's schema is made on. */
export const newShopsOn = (): string => serverTyped(configuration().NEW_SHOPS_ON);

/** What a server is called when it is spoken of. */
export const serverSaid = (server: string): string => (server === "" ? OWN_SERVER : server);

/** Which server a person means by a word. */
export const serverTyped = (word: string): string => (word === OWN_SERVER ? "" : word);

/** A schema as it is spoken of. */
export const schemaSaid = ({ database, server }: DatabasePlace): string =>
  server === "" ? `schema ${database}` : `schema ${database} on ${server}`;

/** The setting that an address stands in, for whoever has to mend it. */
export function settingOf(url: string): string {
  const { DIRECT_DATABASE_URL, DATABASE_SERVERS, DIRECT_DATABASE_SERVERS } = configuration();
  if (url === DIRECT_DATABASE_URL) return "DIRECT_DATABASE_URL";
  for (const [setting, servers] of Object.entries({ DATABASE_SERVERS, DIRECT_DATABASE_SERVERS }))
    for (const [name, address] of servers ?? []) if (address === url) return `${setting} (${name})`;
  return "DATABASE_URL";
}
