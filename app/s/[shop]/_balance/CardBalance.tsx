import { balancesOf, lastBand } from "@/lib/data/jobs/balances";
import type { OpenShop } from "@/lib/gate/open";
import { BalanceOnStep } from "./BalanceOnStep";
import { BalanceResult } from "./BalanceResult";

interface Props {
  readonly shop: OpenShop;
  readonly bikeId: number;
  readonly jobId: number;
  readonly carburettors: readonly { readonly position: number; readonly label: string }[];
  /** The step measures it: shown unfolded. */
  readonly asked: boolean;
}

/** On the card of a bike with several carburettors: what was read last on this job, and the next reading. */
export async function CardBalance({ shop, bikeId, jobId, carburettors, asked }: Props) {
  if (carburettors.length < 2 || !shop.can("sheet.write")) return null;
  const [{ rows }, last] = await Promise.all([balancesOf(shop, { bikeId, jobId }), lastBand(shop, bikeId)]);
  const newest = rows[0];
  return (
    <details open={asked} className="my-2 print:hidden">
      <summary className="inline-flex min-h-8 items-center font-semibold text-brass underline underline-offset-4 pointer-coarse:min-h-12">
        Vacuum balance
        {rows.length > 0 && `, read ${rows.length} ${rows.length === 1 ? "time" : "times"} on this job`}
      </summary>
      {newest && <BalanceResult found={newest} carburettors={carburettors} locale={shop.settings.locale} />}
      <BalanceOnStep slug={shop.slug} bikeId={bikeId} carburettors={carburettors} jobId={jobId} last={last} />
    </details>
  );
}
