import { libraryFile } from "@/lib/data/library/read";
import { file, shopFile } from "@/lib/gate/route";

/** The shop's library as JSON. */
export const GET = shopFile("package.read", async (shop) =>
  file(JSON.stringify(await libraryFile(shop), null, 2), "application/json", "library.json"),
);
