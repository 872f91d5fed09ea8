import NextForm from "next/form";
import { notFound } from "next/navigation";
import { Note } from "@/app/_ui/Note";
import { NumberField } from "@/app/_ui/NumberField";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { getPart } from "@/lib/data/stock/parts";
import { open } from "@/lib/gate/open";
import { CountedSchema } from "@/lib/schemas/stock";
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
  const { counted: typed } = await searchParams;
  const shop = await open("stock.write", slug);
  const part = await getPart(shop, Number(id) || 0, false);
  if (!part) notFound();
  const counted = typed === undefined ? null : CountedSchema.safeParse(typed);
  const whole = part.unit !== "each" || !counted?.success || counted.data % 1000 === 0;
  if (counted?.success && whole) {
    const { locale } = shop.settings;
    const text = (milli: number) => amountText(milli, part.unit, locale);
    const variance = counted.data - part.onHandMilli;
    const missing = part.reservedMilli - counted.data;
    return (
      <>
        <PageHead title={`Count of ${part.code}`} sub={part.name} />
        <TakeCount
          shop={slug}
          partId={part.id}
          typed={String(typed)}
          onHandMilli={part.onHandMilli}
          counted={text(counted.data)}
          ledger={text(part.onHandMilli)}
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
        title={`Count ${part.code}`}
        sub={[part.name, part.bin && `bin ${part.bin}`].filter(Boolean).join(", ")}
      />
      <Note>Count what lies there before you see what should. What the ledger says comes next.</Note>
      <NextForm action={`/s/${slug}/stock/${part.id}/count`} className="max-w-96">
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
