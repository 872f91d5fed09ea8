import { readSettingsFile } from "@/lib/configuration/configuration";
import { closePool } from "@/lib/db/clients";
import { closeDirectory } from "@/lib/db/directory";
import { projectRoot } from "@/lib/db/places";
import { closeShops } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { complain } from "@/lib/log/say";

/** A command from a terminal or a schedule: settings first, a refusal in plain words, databases closed. `run` answers whether all went well. */
export async function command(run: () => Promise<boolean>): Promise<void> {
  try {
    readSettingsFile(projectRoot);
    if (!(await run())) process.exitCode = 1;
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    complain(`${cause.message}\n${cause.remedy}`);
    process.exitCode = 1;
  } finally {
    await closeShops();
    await closeDirectory();
    await closePool();
  }
}
