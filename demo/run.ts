import { generateClients } from "@/lib/db/cli/generate";
import { say } from "@/lib/log/say";

// Builds the demo shops into DATA_DIR where it holds none yet: npx tsx demo/run.ts
generateClients();
const { migrateAll } = await import("@/lib/db/migrate");
const { directory, closeDirectory } = await import("@/lib/db/directory");
const { closeShops } = await import("@/lib/db/shop");
const { buildDemo, demoSignIns } = await import("./build");
const { DEMO_EMAILS } = await import("./signIns");
const { makeDemo } = await import("@/lib/server/demoShops");

await migrateAll(() => undefined);
if (await directory().read.shop.findFirst({ select: { id: true }, orderBy: { id: "asc" } }))
  say("There are shops already: nothing was built.");
else {
  const began = performance.now();
  await makeDemo(buildDemo, new Date(), DEMO_EMAILS);
  say(`Both demo shops built in ${((performance.now() - began) / 1000).toFixed(1)} s.`);
}
say((await demoSignIns()).join("\n"));
await closeShops();
await closeDirectory();
