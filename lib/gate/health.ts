import { directory } from "@/lib/db/directory";

/** True when the directory database can be read. */
export async function directoryAnswers(): Promise<boolean> {
  try {
    await directory().read.shop.findFirst({ select: { id: true }, orderBy: { id: "asc" } });
    return true;
  } catch (cause) {
    console.error("The directory database does not answer:", cause);
    return false;
  }
}
