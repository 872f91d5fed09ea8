import NextForm from "next/form";
import { notFound } from "next/navigation";
import { Link } from "@/app/_ui/Link";
import { Note } from "@/app/_ui/Note";
import { NumberField } from "@/app/_ui/NumberField";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { getPart } from "@/lib/data/stock/parts";
import { binText, fetchOrder } from "@/lib/domain/stock/bins";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { CountedSchema } from "@/lib/schemas/stockCounts";
import { amountText, signedText } from "../../amount";
import { TakeCount } from "./TakeCount";

export default async function CountPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug, id } = await params;
  const { counted: typed, bin: asked } = await searchParams;
  const shop = await open("stock.write", slug);
  const part = await getPart(shop, pathId(id), false);
  if (!part) notFound();
  const order = fetchOrder(part.bins, part.bin);
  const bin = typeof asked === "string" ? asked.trim().slice(0, 30) : (order[0]?.bin ?? part.bin);
  const there = order.find((one) => one.bin === bin)?.onHandMilli ?? 0;
  const counted = typed === undefined ? null : CountedSchema.safeParse(typed);
  const whole = part.unit !== "each" || !counted?.success || counted.data % 1000 === 0;
  if (counted?.success && whole) {
    const { locale } = shop.settings;
    const text = (milli: number) => amountText(milli, part.unit, locale);
    const variance = counted.data - there;
    const missing = part.reservedMilli - (part.onHandMilli + variance);
    return (
      <>
        <PageHead
          of={shop.name}
          title={`Count of ${part.code}`}
          sub={[part.name, bin && `bin ${bin}`].filter(Boolean).join(", ")}
        />
        <TakeCount
          shop={slug}
          partId={part.id}
          typed={String(typed)}
          bin={bin}
          thereMilli={there}
          counted={text(counted.data)}
          ledger={text(there)}
          variance={variance === 0 ? null : signedText(variance, part.unit, locale)}
          missing={missing > 0 ? text(missing) : null}
        />
      </>
    );
  }
  const error =
    counted && !counted.success ? counted.error.issues[0]?.message : whole ? undefined : "Pieces come whole.";
  return (
    <>
      <PageHead
        of={shop.name}
        title={`Count ${part.code}`}
        sub={[part.name, bin && `bin ${bin}`].filter(Boolean).join(", ")}
      />
      {order.some((one) => one.bin !== bin) && (
        <p className="mb-3 flex flex-wrap items-center gap-x-5">
          <span className="text-soft">It lies elsewhere too: count</span>
          {order
            .filter((one) => one.bin !== bin)
            .map((one) => (
              <Link
                key={one.bin}
                href={`/s/${slug}/stock/${part.id}/count?bin=${encodeURIComponent(one.bin)}`}
                className="inline-flex min-h-8 items-center pointer-coarse:min-h-12"
              >
                {binText(one.bin)}
              </Link>
            ))}
        </p>
      )}
      <Note>Count what lies there before you see what should. What the ledger says comes next.</Note>
      <NextForm action={`/s/${slug}/stock/${part.id}/count`} className="max-w-96">
        <input type="hidden" name="bin" value={bin} />
        <NumberField
          name="counted"
          label="Counted"
          unit={part.unit === "each" ? undefined : part.unit}
          min={0}
          required
          error={error}
          initial={typeof typed === "string" ? typed : undefined}
        />
        <SubmitButton size="act">Compare</SubmitButton>
      </NextForm>
    </>
  );
}
