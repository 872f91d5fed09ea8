import { notFound } from "next/navigation";
import { Facts } from "@/app/_ui/Facts";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Minutes } from "@/app/_ui/Minutes";
import { Money } from "@/app/_ui/Money";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { jobLabour } from "@/lib/data/figures/jobLabour";
import type { Reckoned } from "@/lib/domain/labour/reckoned";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { LabourTable } from "./LabourTable";

/** A job's labour as it was planned, spent and billed, cut four ways that come to the same. */
export default async function JobTime({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("job.read", slug);
  const job = await jobLabour(shop, pathId(id));
  if (!job) notFound();
  const base = `/s/${slug}`;
  const { currency, locale } = shop.settings;
  const money = shop.can("invoice.read") ? { currency, locale } : null;
  const shown = { all: job.all, base, money };
  return (
    <>
      <PageHead
        of={shop.name}
        title="Planned, spent, billed"
        sub={`Job ${job.number} · ${job.title}`}
        actions={<LinkButton href={`${base}/jobs/${job.id}`}>Back to the job</LinkButton>}
      />
      <p className="mb-5 max-w-prose text-soft">
        {job.all.billedMinutes === null
          ? "No invoice is issued yet, so nothing is billed. "
          : "Billed is the labour on the issued invoice, shared out over the rows. "}
        {money && "Money of what was planned and spent is at today's price of an hour of each grade. "}
        Hours are as recorded: overtime is not computed.
      </p>
      {(job.rides.count > 0 || job.rides.plannedMinutes > 0) && (
        <Section title="Test rides">
          <Facts
            rows={[
              { name: "Ridden", value: job.rides.count === 1 ? "once" : `${job.rides.count} times` },
              { name: "As planned", value: <Took of={job.rides} as="planned" money={money} /> },
              { name: "As it took", value: <Took of={job.rides} as="spent" money={money} /> },
            ]}
          />
        </Section>
      )}
      <LabourTable title="By step" of="Step" rows={job.steps} {...shown} />
      <LabourTable title="By operation" of="Operation" rows={job.operations} {...shown} />
      <LabourTable title="By person" of="Person" rows={job.people} {...shown} />
      <LabourTable title="By package" of="Package" rows={job.packages} {...shown} />
    </>
  );
}

interface TookProps {
  of: Reckoned;
  as: "planned" | "spent";
  money: { readonly currency: string; readonly locale: string } | null;
}

/** So long, and what that costs. */
function Took({ of, as, money }: TookProps) {
  return (
    <>
      <Minutes minutes={of[`${as}Minutes`]} />
      {money && (
        <span className="text-soft">
          , <Money minor={of[`${as}Minor`]} {...money} />
        </span>
      )}
    </>
  );
}
