import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { listPackages } from "@/lib/data/packages/list";
import { open } from "@/lib/gate/open";

/** Where the shop's own words stand that customers read, each to be written in another language too. */
export default async function WordsPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("shop.write", slug);
  const packages = (await listPackages(shop)).filter((one) => one.published !== null);
  const places = [
    {
      of: "shop",
      name: "The shop",
      what: "Your terms, the note on documents, the names of your labour grades",
    },
    ...packages.map((one) => ({ of: String(one.id), name: one.name, what: "Options, cautions and reasons" })),
  ];
  return (
    <>
      <PageHead
        of={shop.name}
        title="Words in two languages"
        sub="What you wrote yourself and customers read. Those of another language read it as you write it here, and as it is where you write nothing."
      />
      <ul className="max-w-[720px]">
        {places.map(({ of, name, what }) => (
          <li key={of} className="border-hair border-b">
            <Link
              href={`/s/${slug}/shop/words/${of}`}
              className="grid min-h-12 gap-x-6 py-2.5 no-underline sm:grid-cols-[240px_1fr]"
            >
              <strong>{name}</strong>
              <span className="text-soft">{what}</span>
            </Link>
          </li>
        ))}
      </ul>
    </>
  );
}
