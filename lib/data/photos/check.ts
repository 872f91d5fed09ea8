import { createHash } from "node:crypto";
import type { ShopHandle } from "@/lib/db/shop";
import { photoFiles } from "@/lib/domain/photos/limits";

/** The part of a file store that checking needs. */
export interface FileReader {
  get(name: string): Promise<Uint8Array | null>;
}

const PAGE = 200;

/** Every photo's pictures are there, and the large one is what its hash was made of: a sentence for each that is not. */
export async function photoProblems(shop: ShopHandle, files: FileReader): Promise<string[]> {
  const problems: string[] = [];
  for (let after = 0; ; ) {
    const rows = await shop.read.photo.findMany({
      where: { id: { gt: after } },
      select: { id: true, noun: true, nounId: true, file: true, hash: true },
      orderBy: { id: "asc" },
      take: PAGE,
    });
    for (const row of rows) {
      const names = photoFiles(row.file);
      const name = `Photo ${row.id} of ${row.noun} ${row.nounId}`;
      const large = await files.get(names.large);
      if (!large) problems.push(`${name}: its picture is missing.`);
      else if (createHash("sha256").update(large).digest("hex") !== row.hash)
        problems.push(`${name}: its picture is not what its hash was made of.`);
      if (!(await files.get(names.small))) problems.push(`${name}: its small picture is missing.`);
    }
    const last = rows.at(-1);
    if (!last || rows.length < PAGE) return problems;
    after = last.id;
  }
}

/** Names of every file that this shop's photos need. */
export async function photoFileNames(shop: ShopHandle): Promise<string[]> {
  const rows = await shop.read.photo.findMany({ select: { file: true }, orderBy: { id: "asc" } });
  return rows.flatMap(({ file }) => Object.values(photoFiles(file)));
}
