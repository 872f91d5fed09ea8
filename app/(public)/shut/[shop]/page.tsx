import type { Metadata } from "next";
import { notFound, redirect } from "next/navigation";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Trouble } from "@/app/_ui/Trouble";
import { shopsOf } from "@/lib/data/people/shops";
import { enter } from "@/lib/gate/open";
import { person } from "@/lib/gate/personAction";
import { whyShut } from "@/lib/gate/shut";

export const metadata: Metadata = { title: "This shop cannot be opened" };

/** Where a shop's people are led while its database cannot be opened; their other shops are a tap away. */
export default async function Shut({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const session = await person(`/shut/${slug}`);
  const shops = await shopsOf(session.personId);
  const shop = shops.find((one) => one.slug === slug);
  if (!shop) notFound();
  if ((await enter(slug)) !== "shut") redirect(`/s/${slug}`);
  const others = shops.filter((one) => one.slug !== slug);
  return (
    <Trouble
      title="This shop cannot be opened"
      acts={
        <LinkButton href={`/s/${slug}`} tone="main">
          Try again
        </LinkButton>
      }
    >
      <p>
        The server cannot read the records of <strong>{shop.name}</strong>. {await whyShut(slug)} The server's
        owner has been told.
      </p>
      <p>
        <strong>What is safe:</strong> nothing is written to these records while they cannot be read, and the
        other shops on this server run as usual.
      </p>
      <p>
        <strong>What to do:</strong> ask whoever runs the server. They can put the last good copy back.
      </p>
      {others.length > 0 && (
        <ul>
          {others.map((other) => (
            <li key={other.slug}>
              <Link href={`/s/${other.slug}`} className="flex min-h-11 items-center">
                To {other.name}
              </Link>
            </li>
          ))}
        </ul>
      )}
    </Trouble>
  );
}
