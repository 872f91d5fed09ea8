import { createHash } from "node:crypto";
import { statSync } from "node:fs";
import type { Readable } from "node:stream";
import { type Entry, openPromise, type ZipFile } from "yauzl";
import { Refusal } from "@/lib/domain/refusal";
import { MANIFEST_NAME, ManifestSchema, type ShopManifest } from "./archive";

/** What an archive may hold. Names outside these are refused, so none can lead out of a folder. */
const NAMES =
  /^(README\.txt|manifest\.json|shop\.sqlite|csv\/[A-Za-z][A-Za-z0-9]{0,60}\.csv|json\/[A-Za-z][A-Za-z0-9]{0,60}\.ndjson|photos\/[a-z0-9]{8,64}(-[a-z]{1,16})?\.[a-z]{2,4})$/;

const MOST_ENTRIES = 500_000;
const MOST_MANIFEST = 128 * 1024 * 1024;
const MOST_BYTES = 256 * 1024 ** 3;
/** Text of rows is pressed to a tenth or so, DEFLATE ends at about a thousandth. Small archives may be anything. */
const MOST_PRESSED = 100;
const SMALL = 16 * 1024 * 1024;

const NOTHING = "Nothing was opened or changed.";

export interface OpenArchive {
  readonly manifest: ShopManifest;
  has(name: string): boolean;
  /** The pieces of a file in it; fails at its end unless it is what the manifest says. */
  read(name: string): AsyncGenerator<Buffer, void, undefined>;
  close(): void;
}

/** Opens an archive of a shop and reads what it says of itself. Refuses what no export of ours looks like. */
export async function openArchive(file: string): Promise<OpenArchive> {
  const zip = await openPromise(file, { lazyEntries: true, autoClose: false, strictFileNames: true }).catch(
    (cause: Error) => {
      throw strange(file, cause.message);
    },
  );
  try {
    const entries = await entriesOf(zip, file);
    const manifest = await manifestOf(zip, entries, file);
    demandSame(entries, manifest, file);
    const known = new Map(manifest.files.map((one) => [one.name, one]));
    return {
      manifest,
      has: (name) => known.has(name),
      read: (name) => checked(zip, entries.get(name), known.get(name), file),
      close: () => zip.close(),
    };
  } catch (cause) {
    zip.close();
    throw cause;
  }
}

async function entriesOf(zip: ZipFile, file: string): Promise<Map<string, Entry>> {
  if (zip.entryCount > MOST_ENTRIES) throw strange(file, `it holds ${zip.entryCount} files`);
  const entries = new Map<string, Entry>();
  let bytes = 0;
  try {
    for await (const entry of zip.eachEntry()) {
      const name = entry.fileName;
      if (!NAMES.test(name))
        throw strange(file, `it holds a file named ${JSON.stringify(name.slice(0, 80))}`);
      if (entries.has(name)) throw strange(file, `it holds ${name} twice`);
      if (entry.isEncrypted() || ![0, 8].includes(entry.compressionMethod))
        throw strange(file, `${name} is encrypted, or pressed in a way that is not read here`);
      entries.set(name, entry);
      bytes += entry.uncompressedSize;
    }
  } catch (cause) {
    throw cause instanceof Refusal ? cause : strange(file, (cause as Error).message);
  }
  const most = Math.min(MOST_BYTES, Math.max(SMALL, MOST_PRESSED * statSync(file).size));
  if (bytes > most) throw strange(file, `it would be ${bytes} bytes when unpacked`);
  return entries;
}

async function manifestOf(
  zip: ZipFile,
  entries: ReadonlyMap<string, Entry>,
  file: string,
): Promise<ShopManifest> {
  const entry = entries.get(MANIFEST_NAME);
  if (!entry) throw strange(file, `it has no ${MANIFEST_NAME}`);
  if (entry.uncompressedSize > MOST_MANIFEST) throw strange(file, `its ${MANIFEST_NAME} is too long`);
  const pieces: Buffer[] = [];
  for await (const piece of unpacked(zip, entry, file)) pieces.push(piece);
  let read: unknown;
  try {
    read = JSON.parse(Buffer.concat(pieces).toString("utf8"));
  } catch {
    throw strange(file, `its ${MANIFEST_NAME} is no JSON`);
  }
  const parsed = ManifestSchema.safeParse(read);
  if (parsed.success) return parsed.data;
  const issue = parsed.error.issues[0];
  throw strange(file, `in its ${MANIFEST_NAME}, ${issue?.path.join(".") || "the whole"}: ${issue?.message}`);
}

/** Every file is told of and every file that is told of is there, with its size. */
function demandSame(entries: ReadonlyMap<string, Entry>, manifest: ShopManifest, file: string): void {
  const told = new Set([MANIFEST_NAME]);
  for (const { name, bytes } of manifest.files) {
    if (told.has(name)) throw strange(file, `its ${MANIFEST_NAME} tells of ${name} twice`);
    told.add(name);
    const entry = entries.get(name);
    if (!entry) throw strange(file, `${name} is missing`);
    if (entry.uncompressedSize !== bytes) throw strange(file, `${name} is not as long as it was`);
  }
  for (const name of entries.keys())
    if (!told.has(name)) throw strange(file, `its ${MANIFEST_NAME} does not tell of ${name}`);
}

async function* checked(
  zip: ZipFile,
  entry: Entry | undefined,
  told: { readonly sha256: string } | undefined,
  file: string,
): AsyncGenerator<Buffer, void, undefined> {
  if (!entry || !told) throw strange(file, "a file that its rows need is missing");
  const hash = createHash("sha256");
  for await (const piece of unpacked(zip, entry, file)) {
    hash.update(piece);
    yield piece;
  }
  if (hash.digest("hex") !== told.sha256)
    throw strange(file, `${entry.fileName} has been changed since it was made`);
}

/** yauzl ends with an error where there is more or less than the entry says. */
async function* unpacked(zip: ZipFile, entry: Entry, file: string): AsyncGenerator<Buffer, void, undefined> {
  let stream: Readable | undefined;
  try {
    stream = await zip.openReadStreamPromise(entry);
    for await (const piece of stream) yield piece as Buffer;
  } catch (cause) {
    throw strange(file, `${entry.fileName}: ${(cause as Error).message}`);
  } finally {
    stream?.destroy();
  }
}

const strange = (file: string, why: string) =>
  new Refusal(
    `${file} is no whole export of a shop: ${why}.`,
    `Take the file that was downloaded, or export it once more. ${NOTHING}`,
  );
