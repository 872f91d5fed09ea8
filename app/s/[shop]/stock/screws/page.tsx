import Form from "next/form";
import { buttonLook } from "@/app/_ui/buttonLook";
import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { findScrews } from "@/lib/data/parts/screws";
import { screwText } from "@/lib/domain/stock/screws";
import { open } from "@/lib/gate/open";
import { quantityText } from "@/lib/schemas/quantity";
import { FindScrewSchema } from "@/lib/schemas/screws";
import { ScrewFields } from "./ScrewFields";

interface Props {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}

/** From a worn screw to those of stock that can stand in for it, each with what differs. */
export default async function Screws({ params, searchParams }: Props) {
  const [{ shop: slug }, given] = await Promise.all([params, searchParams]);
  const shop = await open("stock.read", slug);
  const asked: Record<string, string> = {};
  for (const [name, value] of Object.entries(given))
    if (typeof value === "string") asked[name] = value.slice(0, 60);
  const read = Object.keys(asked).length > 0 ? FindScrewSchema.safeParse(asked) : null;
  const found = read?.success ? await findScrews(shop, read.data) : null;
  const errors = Object.fromEntries(
    (read?.error?.issues ?? []).map(({ path, message }) => [String(path[0]), message]),
  );
  const path = `/s/${slug}/stock/screws`;
  return (
    <>
      <PageHead
        of={shop.name}
        title="A screw from a worn one"
        sub="Thread, length, head and drive"
        actions={<LinkButton href={`/s/${slug}/stock`}>Parts</LinkButton>}
      />
      <Form
        key={JSON.stringify(asked)}
        action={path}
        aria-label="The worn screw"
        className="mb-5 max-w-[46rem]"
      >
        <ScrewFields screw={asked} errors={errors} />
        <button type="submit" className={buttonLook("main")}>
          Find it
        </button>
      </Form>
      {found && read?.success && (
        <DataTable
          caption={`In stock for ${screwText(read.data)}`}
          columns={[
            { key: "code", header: "Part" },
            { key: "screw", header: "Screw" },
            { key: "differs", header: "What differs" },
            { key: "free", header: "Free", kind: "figure" },
          ]}
          rows={found.map((one) => ({
            id: String(one.id),
            href: `/s/${slug}/stock/${one.id}`,
            code: { text: one.code, sub: one.name },
            screw: screwText(one.screw),
            differs: one.fit === "same" ? "nothing" : one.differs.join("; "),
            free: quantityText(one.freeMilli, "each"),
          }))}
          locale={shop.settings.locale}
          empty={
            <Empty
              title="No screw of this thread is described."
              text="Screws are found once their part says what they are: open the part and describe it."
            />
          }
        />
      )}
    </>
  );
}
