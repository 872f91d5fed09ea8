import { notFound } from "next/navigation";
import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { procedure } from "@/lib/domain/procedures/procedures";
import { open } from "@/lib/gate/open";
import { ProcedureBody } from "../../../_procedures/ProcedureBody";

export default async function ProcedurePage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("bench.use", slug);
  const one = procedure(id);
  if (!one) notFound();
  return (
    <>
      <PageHead
        of={shop.name}
        title={one.name}
        sub={
          <Link href={`/s/${slug}/bench/procedures`} className="text-brass underline underline-offset-4">
            Measuring
          </Link>
        }
      />
      <ProcedureBody procedure={one} />
    </>
  );
}
