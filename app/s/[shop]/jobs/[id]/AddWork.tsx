import { kitsToName } from "@/lib/data/kits/read";
import { gradesToName } from "@/lib/data/packages/supplies";
import type { OpenShop } from "@/lib/gate/open";
import { AddWorkDialog } from "./AddWorkDialog";

/** Puts work and parts on a job that stands on no quote, from its page or its card. */
export async function AddWork({ shop, jobId }: { shop: OpenShop; jobId: number }) {
  const [grades, kits] = await Promise.all([gradesToName(shop), kitsToName(shop)]);
  return (
    <AddWorkDialog
      slug={shop.slug}
      jobId={jobId}
      atDesk={!shop.can("job.work")}
      grades={grades.map(({ code, name }) => ({ code, name }))}
      kits={kits.map(({ id, code, name }) => ({ id, code, name }))}
    />
  );
}
