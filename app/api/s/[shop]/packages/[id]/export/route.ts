import { packageFile, packageFileSchema } from "@/lib/data/packages/file";
import { askedId } from "@/lib/gate/ids";
import { file, shopFile } from "@/lib/gate/route";
import { idOf, missing } from "../../../paper";

/** A package as JSON: the newest revision, or `?revision=`; `?schema` answers the file's JSON Schema. */
export const GET = shopFile("package.read", async (shop, params, request) => {
  const query = request.nextUrl.searchParams;
  if (query.has("schema"))
    return file(
      JSON.stringify(packageFileSchema(), null, 2),
      "application/schema+json",
      "package-file.schema.json",
    );
  const asked = query.get("revision");
  const found = await packageFile(shop, idOf(params), askedId(asked));
  if (!found) throw missing();
  return file(
    JSON.stringify(found, null, 2),
    "application/json",
    `package-${found.code}-${found.revision}.json`,
  );
});
