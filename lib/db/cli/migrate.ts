import { Refusal } from "@/lib/domain/refusal";
import { complain, say } from "@/lib/log/say";
import { readSettingsFile } from "../../configuration/configuration";
import { closePool } from "../clients";
import { closeDirectory } from "../directory";
import { migrateAll } from "../migrate";
import { projectRoot } from "../places";
import { closeShops } from "../shop";

try {
  readSettingsFile(projectRoot);
  await migrateAll((line) => say(line));
  say("All databases are up to date.");
} catch (cause) {
  if (!(cause instanceof Refusal)) throw cause;
  complain(`${cause.message} ${cause.remedy}`);
  process.exitCode = 1;
} finally {
  await closeShops();
  await closeDirectory();
  await closePool();
}
