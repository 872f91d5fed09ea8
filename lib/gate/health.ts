import { directory } from "@/lib/db/directory";
import { log } from "@/lib/log/log";

/** True when the directory database can be read. */
export async function directoryAnswers(): Promise<boolean> {
  try {
    await directory().read.shop.findFirst({ select: { id: true }, orderBy: { id: "asc" } });
    return true;
  } catch (cause) {
    log().error({ err: cause }, "The directory database does not answer.");
    return false;
  }
}
