import type { ShopHandle } from "@/lib/db/shop";
import { dayIn, monthsAfter } from "@/lib/domain/schedule/days";
import { intervalFor } from "@/lib/domain/tuning/severity";
import { RECHECK } from "../followUps/create";
import { jobDealings } from "./progress";

/** What is to be looked at next: by which day or at which distance, whichever comes first. */
export interface NextCheck {
  /** "ask": the shop asks how it runs. "again": `what` was hot and cold since. "service": the model's interval. */
  readonly kind: "ask" | "again" | "service";
  readonly what: string;
  readonly dueOn: string | null;
  readonly dueKm: number | null;
}

/** What is to pay, of the job's invoices or, before there is one, of what was agreed. */
export interface ToPay {
  readonly currency: string;
  readonly rows: readonly {
    readonly kind: "invoice" | "agreed" | "added" | "deposit";
    /** An invoice's number as written, or what was added. */
    readonly name: string;
    readonly dueOn: string | null;
    readonly minor: number;
  }[];
  readonly leftMinor: number;
}

/**
 * What closes a handover on paper, on the staff's page and on the customer's: the next checks, what is to pay and who signed.
 * Null where there is no such job.
 */
export async function handedOver(shop: ShopHandle, jobId: number) {
  const job = await shop.read.job.findUnique({
    where: { id: jobId },
    select: {
      finishedAt: true,
      odometerKm: true,
      bike: {
        select: {
          odometerKm: true,
          severity: { select: { name: true, factor: true } },
          modelCard: { select: { serviceKm: true, serviceMonths: true } },
        },
      },
      signatures: {
        select: { signedBy: true, signature: true, signedAt: true },
        orderBy: { id: "desc" },
        take: 1,
      },
    },
  });
  if (!job) return null;
  const [followUps, { zone, units }, dealt] = await Promise.all([
    shop.read.followUp.findMany({
      where: { jobId, state: "due" },
      select: { what: true, recheck: true, dueOn: true, dueKm: true },
      orderBy: [{ dueOn: "asc" }, { id: "asc" }],
      take: 20,
    }),
    shop.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true, units: true } }),
    jobDealings(shop, jobId),
  ]);
  const checks: NextCheck[] = followUps.map(({ what, recheck, dueOn, dueKm }) => ({
    kind: recheck ? "again" : "ask",
    what: recheck ? what.replace(RECHECK, "") : "",
    dueOn,
    dueKm,
  }));
  const { serviceKm, serviceMonths } = job.bike.modelCard;
  const km = job.bike.odometerKm ?? job.odometerKm;
  const service: NextCheck = {
    kind: "service",
    what: "",
    dueOn:
      serviceMonths === null || job.finishedAt === null
        ? null
        : monthsAfter(dayIn(zone, job.finishedAt), serviceMonths),
    dueKm: serviceKm === null || km === null ? null : km + intervalFor(serviceKm, job.bike.severity).km,
  };
  const due = service.dueOn !== null || service.dueKm !== null;
  return {
    checks: job.finishedAt !== null && due ? [...checks, service] : checks,
    toPay: toPayOf(dealt),
    signed: job.signatures[0] ?? null,
    /** Of the shop's distances. */
    units,
  };
}

/** The same sums that the customer's page shows. */
function toPayOf(dealt: Awaited<ReturnType<typeof jobDealings>>): ToPay {
  const { currency } = dealt;
  const invoices = dealt.invoices.filter((one) => one.kind === "invoice" && !one.credited);
  if (invoices.length > 0)
    return {
      currency,
      rows: invoices.map((one) => ({
        kind: "invoice",
        name: one.written,
        dueOn: one.dueOn,
        minor: one.leftMinor,
      })),
      leftMinor: invoices.reduce((sum, one) => sum + one.leftMinor, 0),
    };
  if (!dealt.agreed) return { currency, rows: [], leftMinor: 0 };
  const rows: ToPay["rows"] = [
    { kind: "agreed", name: dealt.agreed.quote, dueOn: null, minor: dealt.agreed.grossMinor },
    ...dealt.added.map((one) => ({
      kind: "added" as const,
      name: one.title,
      dueOn: null,
      minor: one.grossMinor,
    })),
    ...(dealt.depositPaidMinor > 0
      ? [{ kind: "deposit" as const, name: "", dueOn: null, minor: -dealt.depositPaidMinor }]
      : []),
  ];
  return { currency, rows, leftMinor: rows.reduce((sum, row) => sum + row.minor, 0) };
}
