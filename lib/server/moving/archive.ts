import { z } from "zod";

/** How an archive is laid out; raised when an older reader could not read it. */
export const ARCHIVE_VERSION = 1;

export const MANIFEST_NAME = "manifest.json";
export const README_NAME = "README.txt";
export const SQLITE_NAME = "shop.sqlite";
export const csvName = (table: string) => `csv/${table}.csv`;
export const rowsName = (table: string) => `json/${table}.ndjson`;
export const photoName = (file: string) => `photos/${file}`;

const Digest = z.string().regex(/^[0-9a-f]{64}$/);
const Count = z.number().int().nonnegative();
const TableName = z.string().regex(/^[A-Za-z][A-Za-z0-9]{0,60}$/);

/** What an archive says of itself: it lies in it last, once all else is known. */
export const ManifestSchema = z.object({
  format: z.literal("throttlewright-shop"),
  version: z.literal(ARCHIVE_VERSION),
  madeAt: z.iso.datetime(),
  shop: z.object({ slug: z.string().min(1).max(100), name: z.string().min(1).max(200) }),
  database: z.enum(["sqlite", "postgresql"]),
  /** The newest migration of the database that the rows are of. */
  level: z.string().regex(/^\d{4}_[a-z0-9_]{1,100}$/),
  /** Rows of each table, and a digest of them that is the same on both kinds of database. */
  tables: z.record(TableName, z.object({ rows: Count, digest: Digest })),
  /** The last id that each table has given out. */
  lastIds: z.record(TableName, Count),
  /** Pictures that are named in the rows and were not in the store. */
  missingPhotos: z.array(z.string().max(100)).max(100_000),
  files: z.array(z.object({ name: z.string().min(1).max(200), bytes: Count, sha256: Digest })).max(500_000),
});

export type ShopManifest = z.output<typeof ManifestSchema>;

export function readmeText(shop: string, madeAt: string, level: string): string {
  return `${shop}: all of its records, as they stood on ${madeAt}.

csv/      One file per table, for spreadsheets and other programs. RFC 4180, UTF-8, comma, the first line
          has the names of the columns. Values stand exactly as they are kept: nothing is escaped against
          formulas, so open a file of which you do not know the contents as text. An empty field is "no value";
          an empty text is written "". Money is in the currency's smallest unit, or in ten-thousandths where a
          column's name ends in E4; quantities ending in Milli are thousandths; instants are UTC.
json/     The same rows, one JSON object to a line, with types. This is what an import reads. Whole numbers
          beyond 2^53 and JSON columns stand as text, bytes as base64.
photos/   The pictures, under the names that the table Photo gives them ("file", with .jpg and -small.jpg).
shop.sqlite   The database itself, where the shop is kept in SQLite: any SQLite program opens it.
manifest.json How many rows each table has, and the size and SHA-256 digest of each file here.

The database is at ${level}. Passwords, sessions and invitations are not in here: they belong to the server.
What customers and people wrote and were told is: keep this file as carefully as the records themselves.

To open a new shop from it, on a server: npm run import-shop -- <this file> <new-name> --owner <address>
`;
}
