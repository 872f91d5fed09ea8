// A process of its own that goes through all shops, a moment in each, and says when it was where: roundsAtOnce.ts <rounds>.
import { directory } from "@/lib/db/directory";
import { eachShop } from "@/lib/server/eachShop";

await directory().read.shop.findFirst({ orderBy: { id: "asc" } });
process.stdout.write("ready\n");
await new Promise((go) => process.stdin.once("data", go));
for (let round = 0; round < Number(process.argv[2]); round++)
  await eachShop(
    {
      name: "standing",
      wanted: async () => true,
      next: async (shop) => shop.now,
      run: async (shop) => {
        const from = Date.now();
        await new Promise((resume) => setTimeout(resume, 40));
        process.stdout.write(`${JSON.stringify({ shop: shop.slug, from, to: Date.now() })}\n`);
      },
    },
    () => new Date(),
  );
process.exit(0);
