import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { type PhotoNoun, photoFiles } from "@/lib/domain/photos/limits";
import { demandOpen, demandRoom, demandSubject } from "./about";

/** The part of a file store that keeping a photo needs. */
export interface FileKeeper {
  put(name: string, bytes: Uint8Array): Promise<void>;
  remove(name: string): Promise<void>;
}

export interface PreparedPicture {
  readonly large: Uint8Array;
  readonly small: Uint8Array;
  readonly width: number;
  readonly height: number;
  readonly hash: string;
}

export interface KeepInput {
  readonly noun: PhotoNoun;
  readonly nounId: number;
  /** A fresh name for the file store. */
  readonly file: string;
  readonly caption?: string | undefined;
  readonly key?: string | undefined;
}

/**
 * Keeps a photo. Its files are written before its row commits, so that no row is without its files; where the row is
 * refused, or the request had been carried out before, the files just written go again.
 */
export async function keepPhoto(
  shop: ShopHandle,
  files: FileKeeper,
  picture: PreparedPicture,
  input: KeepInput,
): Promise<number> {
  const names = photoFiles(input.file);
  const drop = async () => {
    await files.remove(names.large);
    await files.remove(names.small);
  };
  try {
    await files.put(names.large, picture.large);
    await files.put(names.small, picture.small);
    const { id, file } = await addRow(shop, picture, input);
    if (file !== input.file) await drop();
    return id;
  } catch (cause) {
    // Where it cannot be told whether the row came to be, this throws and the files stay: sweeping finds what is no one's.
    const row = await shop.read.photo.findUnique({ where: { file: input.file }, select: { id: true } });
    // What cannot be dropped is swept later: the first failure is the one to tell.
    if (!row) await drop().catch(() => undefined);
    throw cause;
  }
}

async function addRow(shop: ShopHandle, picture: PreparedPicture, input: KeepInput) {
  return shop.write(async (tx) => {
    // The name of its file is made anew by each try.
    const { file: _, ...asked } = input;
    const id = await once(tx, shop, "kept a photo", { ...asked, hash: picture.hash }, async () => {
      await demandSubject(tx, input.noun, input.nounId);
      await demandOpen(tx, input.noun, input.nounId);
      await demandRoom(tx, input.noun, input.nounId);
      const made = await tx.photo.create({
        data: {
          noun: input.noun,
          nounId: input.nounId,
          file: input.file,
          hash: picture.hash,
          width: picture.width,
          height: picture.height,
          bytes: picture.large.length,
          caption: input.caption ?? "",
          at: shop.now,
          staffId: shop.by.staffId,
        },
        select: { id: true },
      });
      await audit(tx, shop, "added", "photo", made.id, { noun: input.noun, nounId: input.nounId });
      return made.id;
    });
    return tx.photo.findUniqueOrThrow({ where: { id }, select: { id: true, file: true } });
  });
}
