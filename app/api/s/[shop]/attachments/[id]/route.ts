import { getEnclosed } from "@/lib/data/mail/attachments";
import { Refusal } from "@/lib/domain/refusal";
import { mayOpenEnclosed } from "@/lib/gate/enclosed";
import { file, shopFile } from "@/lib/gate/route";
import { inWorker } from "@/lib/workers/pool";
import { idOf, missing } from "../../paper";

/** What goes with a mail of the mail queue, printed from what was frozen. */
export const GET = shopFile("quote.send", async (shop, params, { signal }) => {
  const enclosed = await getEnclosed(shop, idOf(params));
  if (!enclosed) throw missing();
  if (!mayOpenEnclosed(shop, enclosed.document))
    throw new Refusal("Your role may not see what parts cost.", "Ask an owner of the shop.", {}, "forbidden");
  const { content, type, name } = await inWorker(shop, "printEnclosed", enclosed, { signal });
  return file(content, type, name);
});
