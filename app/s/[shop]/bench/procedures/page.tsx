import { LineDrawing } from "@/app/_ui/LineDrawing";
import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { PROCEDURES } from "@/lib/domain/procedures/procedures";
import { open } from "@/lib/gate/open";

/** Every procedure with its drawing, side by side. */
export default async function Procedures({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("bench.use", slug);
  return (
    <>
      <PageHead of={shop.name} title="Measuring" sub="Bench: how each value of a card or a sheet is read" />
      <ul className="grid gap-x-8 gap-y-6 sm:grid-cols-2 xl:grid-cols-3">
        {PROCEDURES.map((one) => (
          <li key={one.id} className="keep min-w-0 border-hair border-b pb-3">
            <Link
              href={`/s/${slug}/bench/procedures/${one.id}`}
              className="inline-flex min-h-8 items-center font-semibold underline-offset-4 hover:underline pointer-coarse:min-h-12"
            >
              {one.name}
            </Link>
            <LineDrawing drawing={one.drawing} />
            <p className="mt-1 text-[14px] text-soft">{one.instrument}</p>
          </li>
        ))}
      </ul>
    </>
  );
}
