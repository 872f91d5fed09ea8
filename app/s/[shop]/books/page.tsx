import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { open } from "@/lib/gate/open";
import { ROOMS } from "./rooms";

/** What the accountant comes for: the rooms of the books. */
export default async function Books({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("books.read", slug);
  return (
    <>
      <PageHead
        of={shop.name}
        title="Books"
        sub="Money as it was recorded, for the owner and the accountant"
      />
      {Object.entries(ROOMS).map(([head, rooms]) => (
        <Section key={head} title={head}>
          <ul className="max-w-[720px]">
            {rooms
              .filter(([, , , needs]) => shop.can(needs))
              .map(([path, name, what]) => (
                <li key={path} className="border-hair border-b">
                  <Link
                    href={`/s/${slug}/${path}`}
                    className="grid min-h-12 gap-x-6 py-2.5 no-underline sm:grid-cols-[200px_1fr]"
                  >
                    <strong>{name}</strong>
                    <span className="text-soft">{what}</span>
                  </Link>
                </li>
              ))}
          </ul>
        </Section>
      ))}
    </>
  );
}
