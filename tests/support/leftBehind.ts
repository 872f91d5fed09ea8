import { reconfigure } from "@/lib/configuration/configuration";
import { closeDirectory } from "@/lib/db/directory";
import { closePool } from "@/lib/db/pools";
import { forgetServers } from "@/lib/db/serverFaults";
import { closeShops } from "@/lib/db/shop";
import { forgetFaults } from "@/lib/db/shopFaults";
import { closeWorkers } from "@/lib/workers/pool";
import { removeShopFolder } from "./shops";

/** What the process keeps between requests, and would keep between test files. */
const ANSWERS = ["throttlewrightReady", "throttlewrightReports", "throttlewrightTellFault"];

/** Remembers the settings; what it gives back closes all that is open and puts them back. */
export function rememberProcess(): () => Promise<void> {
  const before = { ...process.env };
  return async () => {
    await closeShops();
    await closeDirectory();
    await closePool();
    await closeWorkers();
    forgetFaults();
    forgetServers();
    for (const name of ANSWERS) Reflect.deleteProperty(globalThis, name);
    const unset = Object.keys(process.env).map((name) => [name, undefined] as const);
    reconfigure({ ...Object.fromEntries(unset), ...before });
    removeShopFolder();
  };
}
