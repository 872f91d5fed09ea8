import { Instant } from "@/app/_ui/Instant";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { listAudit } from "@/lib/data/shop/records";
import { askedId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";

export default async function Audit({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<{ before?: string }>;
}) {
  const { shop: slug } = await params;
  const { before } = await searchParams;
  const shop = await open("audit.read", slug);
  const { rows, next } = await listAudit(shop, askedId(before));
  return (
    <>
      <PageHead of={shop.name} title="Audit trail" sub="Newest first. It only grows." />
      <ul className="max-w-[980px]">
        {rows.map((row) => (
          <li key={row.id} className="grid gap-x-6 border-hair border-b py-2 sm:grid-cols-[190px_1fr]">
            <Instant at={row.at.toISOString()} locale={shop.settings.locale} zone={shop.settings.zone} />
            <span className="min-w-0">
              <strong>{row.personName}</strong> {row.act} {row.noun} {row.nounId ?? ""}
              {row.detail !== null && (
                <code className="block break-words font-mono text-[13px] text-soft">
                  {JSON.stringify(row.detail)}
                </code>
              )}
            </span>
          </li>
        ))}
      </ul>
      {next && (
        <LinkButton href={`/s/${slug}/shop/audit?before=${next}`} tone="second" className="mt-4">
          Older
        </LinkButton>
      )}
    </>
  );
}
