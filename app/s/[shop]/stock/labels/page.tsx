import { NumberField } from "@/app/_ui/NumberField";
import { PageHead } from "@/app/_ui/PageHead";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { Suggestions } from "@/app/_ui/Suggestions";
import { TextField } from "@/app/_ui/TextField";
import { labelParts } from "@/lib/data/stock/labels";
import { binsToOffer } from "@/lib/data/stock/lying";
import { listFamilies } from "@/lib/data/stock/parts";
import { labelFiles, MOST_LABELS } from "@/lib/domain/stock/labelFiles";
import { open } from "@/lib/gate/open";
import { LabelsSchema } from "@/lib/schemas/parts";
import { StockMenu } from "../StockMenu";
import { LabelFiles } from "./LabelFiles";

interface LabelsPageProps {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[]>>;
}

export default async function LabelsPage({ params, searchParams }: LabelsPageProps) {
  const { shop: slug } = await params;
  const shop = await open("stock.read", slug);
  const asked = LabelsSchema.parse(await searchParams);
  const [bins, families, parts] = await Promise.all([
    binsToOffer(shop.read),
    listFamilies(shop),
    labelParts(shop, asked),
  ]);
  const count = parts.length * asked.copies;
  const { ids, family, bin, paper, copies, start } = asked;
  const query = new URLSearchParams({ ids: ids.join(","), family, bin, paper, copies: `${copies}` });
  const files = count <= MOST_LABELS ? labelFiles(count, start) : [];
  const to = `/api/s/${slug}/stock/labels`;
  const none = { value: "", label: "none" };
  return (
    <>
      <PageHead of={shop.name} title="Labels" />
      <StockMenu shop={slug} here="/labels" />
      <p className="mb-5 max-w-prose text-soft">
        Labels say bin, code and name, with the code to scan. One part's label is on its own page; here are
        those of a drawer or a bin.
      </p>
      {files.length > 1 && <LabelFiles to={`${to}?${query}&start=${start}`} count={count} files={files} />}
      <form action={to} target="_blank" className="max-w-[34rem]" rel="noopener">
        <Suggestions id="bins" values={bins} />
        <div className="grid gap-x-5 sm:grid-cols-2">
          <SelectField
            name="family"
            label="Drawer"
            options={[none, ...families.map((value) => ({ value, label: value }))]}
          />
          <TextField
            name="bin"
            label="or bin"
            list="bins"
            mono
            maxLength={40}
            hint="A drawer goes before a bin."
          />
          <SelectField
            name="paper"
            label="Paper"
            options={[
              { value: "roll", label: "roll, 62 mm by 29 mm" },
              { value: "sheet", label: "A4 sheet, 3 by 8 of 70 mm by 37 mm" },
            ]}
          />
          <NumberField name="copies" label="Copies of each" initial={1} min={1} max={100} />
          <NumberField
            name="start"
            label="First free label"
            initial={1}
            min={1}
            max={24}
            hint="On a sheet that is partly used."
          />
        </div>
        <SubmitButton size="act">Make the PDF</SubmitButton>
      </form>
    </>
  );
}
