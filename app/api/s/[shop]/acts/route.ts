import { CARD_ACTS } from "@/app/_acts/cardActs";
import { sentFields } from "@/app/_acts/sentFields";
import { bothVersions } from "@/lib/data/jobs/bothVersions";
import { shopActs } from "@/lib/gate/keptAct";

/** Takes one act that a device kept while it had no connection. */
export const POST = shopActs(CARD_ACTS, (shop, _act, data) => bothVersions(shop, sentFields(data)));
