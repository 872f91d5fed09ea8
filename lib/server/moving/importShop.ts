import { createShop, type OpenedShop } from "@/lib/data/people/createShop";
import { addStaff } from "@/lib/data/people/members";
import { directory } from "@/lib/db/directory";
import { filesFolder } from "@/lib/db/folders";
import { Refusal } from "@/lib/domain/refusal";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { folderStore } from "@/lib/outside/fileStore";
import { photoName } from "./archive";
import { problemsIn } from "./checked";
import { fillDatabase } from "./fill";
import { openArchive } from "./zipIn";

export interface ImportedShop extends OpenedShop {
  readonly rows: number;
  readonly pictures: number;
  /** Mails that wait to be sent: they go from here too, once rounds run. */
  readonly mailsWaiting: number;
}

const NOTHING = "Nothing was opened.";

/**
 * Opens a new shop from an archive: every row and picture of it, held to the archive's digests, and its books checked, before it
 * enters the directory. The named person is its owner; the rows of its people keep their names, and none of them may come in.
 */
export async function importShop(
  file: string,
  wanted: { readonly slug: string; readonly owner: string },
  now: Date,
): Promise<ImportedShop> {
  const owner = await demandOwner(wanted.owner);
  await demandFreeSlug(wanted.slug);
  const archive = await openArchive(file);
  try {
    const { manifest } = archive;
    let [rows, pictures, mailsWaiting] = [0, 0, 0];
    const prepare = async (database: string) => {
      rows = await fillDatabase(archive, database);
      const store = folderStore(filesFolder(database));
      for (const { name } of manifest.files) {
        if (!name.startsWith("photos/")) continue;
        await store.put(name.slice(photoName("").length), await wholeOf(archive.read(name), name));
        pictures += 1;
      }
      // What is not read into the shop is held to its digest all the same.
      for (const { name } of manifest.files)
        if (/^(csv\/|README|shop\.sqlite)/.test(name)) for await (const _ of archive.read(name));
      const shop = handleFor({ slug: wanted.slug, database }, SYSTEM, now);
      const problems = await problemsIn(shop, store, manifest.missingPhotos.length > 0);
      if (problems.length)
        throw new Refusal(`The books of this shop do not add up: ${problems.slice(0, 5).join(" ")}`, NOTHING);
      mailsWaiting = await shop.read.mail.count({ where: { state: { in: ["waiting", "sending"] } } });
      await addStaff(shop, { ...owner, role: "owner" });
    };
    const made = await createShop(
      { name: manifest.shop.name, slug: wanted.slug, owner: { id: owner.id }, ownDatabase: true, prepare },
      now,
    );
    return { ...made, rows, pictures, mailsWaiting };
  } finally {
    archive.close();
  }
}

async function demandOwner(email: string): Promise<{ id: string; name: string }> {
  const person = await directory().read.person.findUnique({
    where: { email: email.trim().toLowerCase() },
    select: { id: true, name: true },
  });
  if (person) return person;
  throw new Refusal(
    `Nobody here signs in as ${email}.`,
    `Let them sign up first, or be invited to a shop, then import once more. ${NOTHING}`,
  );
}

async function demandFreeSlug(slug: string): Promise<void> {
  if (!/^[a-z0-9]+(-[a-z0-9]+)*$/.test(slug) || slug.length > 40)
    throw new Refusal(
      `“${slug}” cannot stand in an address.`,
      `Use small letters, digits and single hyphens, at most 40. ${NOTHING}`,
    );
  const taken = await directory().read.shop.findUnique({ where: { slug }, select: { id: true } });
  if (taken)
    throw new Refusal(
      `There is a shop “${slug}” already.`,
      `Choose another name for the new one. ${NOTHING}`,
    );
}

/** A picture of ours has at most a few megabytes. */
const MOST_PICTURE = 64 * 1024 * 1024;

async function wholeOf(pieces: AsyncIterable<Buffer>, name: string): Promise<Buffer> {
  const all: Buffer[] = [];
  let bytes = 0;
  for await (const piece of pieces) {
    bytes += piece.length;
    if (bytes > MOST_PICTURE) throw new Refusal(`${name} is too large to be a picture of ours.`, NOTHING);
    all.push(piece);
  }
  return Buffer.concat(all);
}
