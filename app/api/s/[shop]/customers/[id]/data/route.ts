import { notePersonalDataTaken, personalData } from "@/lib/data/erasing/dataOf";
import { personalCsv, personalJson } from "@/lib/documents/personalFiles";
import { file, shopFile, streamOf } from "@/lib/gate/route";
import { idOf, missing } from "../../../paper";

/** What the shop knows of a customer, for them to have: JSON, or CSV with `?form=csv`. */
export const GET = shopFile("customer.erase", async (shop, params, request) => {
  const id = idOf(params);
  const found = await personalData(shop, id);
  if (!found) throw missing();
  await notePersonalDataTaken(shop, id);
  const { parts, ...head } = found;
  return request.nextUrl.searchParams.get("form") === "csv"
    ? file(streamOf(personalCsv(parts)), "text/csv; charset=utf-8", `customer-${id}.csv`)
    : file(streamOf(personalJson(head, parts)), "application/json", `customer-${id}.json`);
});
