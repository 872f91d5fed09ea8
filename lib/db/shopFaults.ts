import { Refusal } from "@/lib/domain/refusal";
import { log } from "@/lib/log/log";
import { inPostgres } from "./postgres";

/** Why one shop's database cannot be opened, while the others run. */
export interface ShopFault {
  readonly slug: string;
  readonly database: string;
  /** Its file, or its schema on PostgreSQL with its server. */
  readonly place: string;
  readonly reason: string;
  readonly since: Date;
  /** False for what may pass by itself: it is tried again after a while. */
  readonly lasting: boolean;
}

/** A shop that cannot be opened, as its people are told. */
export class ShopShut extends Refusal {
  constructor() {
    super(
      "This shop cannot be opened; the server's owner has been told.",
      "Nothing was saved or changed. Ask whoever runs the server: they can put back the last good copy.",
    );
  }
}

// The server and the bundled pages hold a copy of this module each, and must know the same.
const kept = globalThis as unknown as {
  throttlewrightShopFaults?: Map<string, ShopFault>;
  throttlewrightTellFault?: (fault: ShopFault) => void;
};
kept.throttlewrightShopFaults ??= new Map();
const faults = kept.throttlewrightShopFaults;

const AGAIN_AFTER_MS = 30_000;

/** All shops that cannot be opened now. */
export function shopFaults(): ShopFault[] {
  return [...faults.values()];
}

/** Why this shop cannot be opened; undefined where it can be, or where it is time to try again. */
export function faultOf(database: string): ShopFault | undefined {
  const fault = faults.get(database);
  if (fault && !fault.lasting && Date.now() - fault.since.getTime() > AGAIN_AFTER_MS) {
    faults.delete(database);
    return undefined;
  }
  return fault;
}

export function forgetFaults(): void {
  faults.clear();
}

/** Shuts a shop, and says so in the log with its name, its file and the reason. */
export function shutShop(fault: Omit<ShopFault, "since">): ShopFault {
  const noted = { ...fault, since: new Date() };
  const known = faults.get(fault.database);
  faults.set(fault.database, noted);
  if (known?.reason !== fault.reason) {
    log().error(
      { shop: fault.slug, place: fault.place, reason: fault.reason },
      "A shop cannot be opened. The others run.",
    );
    kept.throttlewrightTellFault?.(noted);
  }
  return noted;
}

/** Shuts a shop as another process of this server found it. */
export function takeFault(fault: ShopFault): void {
  faults.set(fault.database, fault);
}

/** Has the other processes told of each shop that this one shuts. */
export function tellFaultsBy(tell: (fault: ShopFault) => void): void {
  kept.throttlewrightTellFault = tell;
}

interface Sickness {
  readonly reason: string;
  readonly lasting: boolean;
}

/** What a failure says about a database file itself; null where it is about something else. */
export function sicknessOf(cause: unknown): Sickness | null {
  const code = String((cause as { code?: unknown } | null)?.code ?? "");
  const text = `${code} ${cause instanceof Error ? cause.message : String(cause)}`;
  if (/SQLITE_NOTADB|file is not a database/.test(text))
    return { reason: "Its file is no database, or its beginning is damaged.", lasting: true };
  if (/SQLITE_CORRUPT|disk image is malformed|malformed database schema/.test(text))
    return { reason: "Its file is damaged.", lasting: true };
  if (/SQLITE_IOERR|disk I\/O error/.test(text))
    return { reason: "The disk does not give its file back whole.", lasting: false };
  if (/ENOENT/.test(text)) return { reason: "Its file is missing.", lasting: false };
  if (/SQLITE_CANTOPEN|unable to open database file|EACCES|EPERM|EISDIR/.test(text))
    return { reason: "Its file cannot be opened: its rights, or too many open files.", lasting: false };
  return null;
}

/** On PostgreSQL: whether a failure came of the shop's schema not being there. */
export async function schemaIsGone(url: string, schema: string, cause: unknown): Promise<boolean> {
  const text = `${String((cause as { code?: unknown } | null)?.code ?? "")} ${String(cause)}`;
  if (!/P2021|P2010|3F000|42P01|does not exist/.test(text)) return false;
  return inPostgres(url, async (client) => !(await hasTables(client, schema)));
}

/** Whether a schema has been migrated at least once. */
export async function hasTables(
  client: { query(text: string, values: unknown[]): Promise<{ rows: { table: unknown }[] }> },
  schema: string,
): Promise<boolean> {
  const { rows } = await client.query("SELECT to_regclass($1) AS table", [
    `"${schema}"."_prisma_migrations"`,
  ]);
  return Boolean(rows[0]?.table);
}
