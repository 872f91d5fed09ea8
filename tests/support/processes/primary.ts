import { configuration } from "@/lib/configuration/configuration";
import { leave } from "@/lib/server/leave";
import { startWorkerProcesses } from "@/lib/server/processes/primary";

/**
 * The primary of a server without pages, for tests: two workers that run the named script. Shops are those named "shop-…". It says
 * "serving" once they serve, and in words why it could not.
 */
const [script = ""] = process.argv.slice(2);
const fail = (cause: Error) => {
  process.send?.({ refused: cause.message });
  process.exit(1);
};
try {
  const workers = await startWorkerProcesses({
    count: 2,
    script,
    settings: { SHOPS_OPEN: String((configuration().SHOPS_OPEN ?? 0) / 2) },
    isShop: async (slug) => slug.startsWith("shop-"),
    cutOff: async (slugs) => void process.send?.({ cutOff: slugs }),
    failed: fail,
  });
  process.once("SIGTERM", () => void workers.stop().then(leave));
  process.send?.("serving");
} catch (cause) {
  fail(cause as Error);
}
