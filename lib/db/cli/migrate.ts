import { Refusal } from "@/lib/domain/refusal";
import { complain, say } from "@/lib/log/say";
import { readSettingsFile } from "../../configuration/configuration";
import { closeDirectory } from "../directory";
import { projectRoot } from "../folders";
import { migrateAll } from "../migrate";
import { closePool } from "../pools";
import { closeShops } from "../shop";
import { shopFaults } from "../shopFaults";

try {
  readSettingsFile(projectRoot);
  await migrateAll((line) => say(line));
  const faults = shopFaults();
  for (const { slug, place, reason } of faults)
    complain(`Shop ${slug} cannot be opened: ${place}. ${reason}`);
  say(faults.length ? "All others are up to date." : "All databases are up to date.");
  if (faults.length) process.exitCode = 1;
} catch (cause) {
  if (!(cause instanceof Refusal)) throw cause;
  complain(`${cause.message} ${cause.remedy}`);
  process.exitCode = 1;
} finally {
  await closeShops();
  await closeDirectory();
  await closePool();
}
