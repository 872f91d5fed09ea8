import { type Quietened, quietCopy } from "@/lib/data/mail/quietCopy";
import { createShop, type OpenedShop } from "@/lib/data/people/createShop";
import { addStaff } from "@/lib/data/people/members";
import { directory } from "@/lib/db/directory";
import type { ShopPlace } from "@/lib/db/servers";
import { Refusal } from "@/lib/domain/refusal";
import { type Brought, bringIn } from "./bringIn";
import { openArchive } from "./zipIn";

interface ImportedShop extends OpenedShop {
  readonly rows: number;
  readonly pictures: number;
  readonly quiet: Quietened;
}

const NOTHING = "Nothing was opened.";

/**
 * Opens a new shop from an archive: every row and picture of it, held to the archive's digests, and its books checked, before it
 * enters the directory. The named person is its owner; the rows of its people keep their names, and none of them may come in.
 * It is a copy: it speaks to no customer until its owner wants that.
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
    let brought: Brought | undefined;
    let quiet: Quietened | undefined;
    const prepare = async (place: ShopPlace) => {
      brought = await bringIn(archive, { ...place, slug: wanted.slug }, now);
      quiet = await quietCopy(brought.shop);
      await addStaff(brought.shop, { ...owner, role: "owner" });
    };
    const made = await createShop(
      { name: manifest.shop.name, slug: wanted.slug, owner: { id: owner.id }, ownDatabase: true, prepare },
      now,
    );
    if (!brought || !quiet) throw new Error("The shop was opened before it was filled.");
    const { rows, pictures } = brought;
    return { ...made, rows, pictures, quiet };
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
