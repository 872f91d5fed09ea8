import { rmSync } from "node:fs";
import { join } from "node:path";
import { newestLevel } from "@/lib/db/levels";
import { schemaStamp } from "@/lib/db/schemaStamp";
import { serverFault } from "@/lib/db/serverFaults";
import { demandAddress, type ShopPlace } from "@/lib/db/servers";
import type { ShopHandle } from "@/lib/db/shop";
import { differenceOf, inSnapshot, type Rows, rowsOf } from "@/lib/db/snapshot";
import { Refusal } from "@/lib/domain/refusal";
import { SYSTEM } from "@/lib/gate/handle";
import type { AskedCopy, CopyWay } from "../copyAll";
import { digestOf, sizeOf } from "../copyDatabase";
import { withPhotos } from "../copyPhotos";
import { type Copied, words } from "../copyShop";
import { dumpSchema, rowsIn } from "./dump";

const AT_ONCE = 2;

export const DIRECTORY_DUMP = "directory.dump";

/** The file of a shop's schema, relative to a copy. */
export const shopDump = (database: string) => join("shops", `${database}.dump`);

export interface CopiedDirectory {
  readonly digest: string;
  readonly rows: Rows;
}

/** Copies the directory's schema and reads the copy through; a backup without it is none. */
export async function copyDirectorySchema(url: string, file: string): Promise<CopiedDirectory> {
  try {
    const rows = await inSnapshot("directory", { database: "directory", server: "" }, (read, snapshot) =>
      dumped(url, "directory", read, snapshot, file),
    );
    return { digest: digestOf(file), rows };
  } catch (cause) {
    if (cause instanceof Refusal) throw cause;
    throw new Refusal(`The directory could not be copied: ${words(cause)}`, "Keep the last good backup.");
  }
}

/** Shops that are schemas. Programs beside this one do the most of it, so that no threads are needed for two at once. */
export const schemas: CopyWay = {
  stampOf: (shop) => stampOf(shop).catch(() => null),
  fileOf: shopDump,
  begin: () => ({
    atOnce: AT_ONCE,
    copy: copySchema,
    end: async () => undefined,
  }),
};

/** A shop that was moved to another server has other rows there, whatever their marks. */
async function stampOf({ database, server }: ShopPlace): Promise<string | null> {
  if (await serverFault(server)) return null;
  const stamp = await schemaStamp(demandAddress(server).direct, database);
  return [newestLevel(), stamp, ...(server === "" ? [] : [server])].join(", ");
}

/**
 * Copies one shop's schema and the photos that its rows name, and checks its books and photos, all by one moment of it: what is
 * written meanwhile is in none of them. The copy is read through, and holds as many rows of each table. What fails is told in the answer.
 */
async function copySchema({ shop, folder, before }: AskedCopy): Promise<Copied> {
  const { slug, database, server } = shop;
  const away = await serverFault(server);
  if (away)
    return {
      slug,
      database,
      server,
      there: false,
      bytes: 0,
      problems: [`It could not be copied: ${away.reason}`],
    };
  const file = join(folder, shopDump(database));
  const files = join(folder, "files", database);
  let rows: Rows | undefined;
  try {
    const url = demandAddress(server).direct;
    const photos = await inSnapshot("shop", shop, async (read, snapshot) => {
      rows = await dumped(url, database, read, snapshot, file);
      const write = () => Promise.reject(new Error("A copy is only read."));
      const copy: ShopHandle = { slug, database, server, files, read, write, by: SYSTEM, now: new Date() };
      return withPhotos(copy, database, before ? join(before, "files", database) : null);
    });
    const { problems } = photos;
    const bytes = sizeOf(file) + photos.bytes;
    return {
      slug,
      database,
      server,
      there: true,
      bytes,
      problems,
      digest: digestOf(file),
      ...(rows ? { rows } : {}),
    };
  } catch (cause) {
    if (rows) {
      const problems = [`It could not be checked: ${words(cause)}`];
      return {
        slug,
        database,
        server,
        there: true,
        bytes: sizeOf(file),
        problems,
        digest: digestOf(file),
        rows,
      };
    }
    rmSync(file, { force: true });
    return {
      slug,
      database,
      server,
      there: false,
      bytes: 0,
      problems: [`It could not be copied: ${words(cause)}`],
    };
  }
}

async function dumped(
  url: string,
  schema: string,
  read: Parameters<typeof rowsOf>[0],
  snapshot: string,
  file: string,
): Promise<Rows> {
  await dumpSchema(url, schema, snapshot, file);
  const rows = await rowsIn(file);
  const difference = differenceOf(rows, await rowsOf(read, schema));
  if (difference) throw new Error(difference);
  return rows;
}
