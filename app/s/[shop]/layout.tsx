import type { ReactNode } from "react";
import { KeptFor } from "@/app/_ui/KeptFor";
import { Link } from "@/app/_ui/Link";
import { Offline } from "@/app/_ui/offline/Offline";
import { SampleMark } from "@/app/_ui/SampleMark";
import { FreshOnReturn } from "@/app/_ui/Screen";
import { Shell } from "@/app/_ui/Shell";
import { ShopLocale } from "@/app/_ui/ShopLocale";
import type { Permission } from "@/lib/domain/access/permissions";
import { enter } from "@/lib/gate/open";

const MENU: readonly (readonly [key: string, name: string, path: string, needs: Permission])[] = [
  ["today", "Today", "", "today.read"],
  ["quotes", "Quotes", "/quotes", "quote.read"],
  ["bookings", "Bookings", "/bookings", "booking.read"],
  ["jobs", "Jobs", "/jobs", "job.read"],
  ["bikes", "Bikes", "/bikes", "bike.read"],
  ["customers", "Customers", "/customers", "customer.read"],
  ["stock", "Stock", "/stock", "stock.read"],
  ["counter", "Counter", "/counter", "sale.write"],
  ["invoices", "Invoices", "/invoices", "invoice.read"],
  ["books", "Books", "/books", "books.read"],
  ["packages", "Packages", "/packages", "package.read"],
  ["bench", "Bench", "/bench", "bench.use"],
  ["figures", "Figures", "/figures", "figures.read"],
  ["shop", "Shop", "/shop", "shop.read"],
];

/** Draws the frame for whoever belongs here; each page checks for itself what it needs. */
export default async function ShopLayout({
  params,
  children,
}: {
  params: Promise<{ shop: string }>;
  children: ReactNode;
}) {
  const { shop: slug } = await params;
  const shop = await enter(slug);
  if (typeof shop === "string") return children;
  const who = `${shop.shopId}:${shop.by.personId}`;
  const menu = MENU.filter(([, , , needs]) => shop.can(needs)).map(([key, name, path]) => ({
    key,
    name,
    href: `/s/${slug}${path}`,
  }));
  return (
    <Shell
      shop={{ slug, name: shop.name }}
      menu={menu}
      find={`/s/${slug}/search`}
      mark={
        shop.sample ? (
          <SampleMark remove="/account/sample">
            Sample shop: nothing here is real, and no mail leaves it.
          </SampleMark>
        ) : undefined
      }
      person={
        <div className="grid gap-1">
          <Link href="/account" className="flex min-h-8 items-center pointer-coarse:min-h-12">
            {shop.by.name}
          </Link>
          {shop.shops.length > 1 &&
            shop.shops
              .filter((other) => other.slug !== slug)
              .map((other) => (
                <Link
                  key={other.slug}
                  href={`/s/${other.slug}`}
                  className="flex min-h-8 items-center pointer-coarse:min-h-12"
                >
                  To {other.name}
                </Link>
              ))}
        </div>
      }
    >
      <FreshOnReturn />
      <ShopLocale locale={shop.settings.locale}>
        <KeptFor who={who}>
          <Offline who={who} slug={slug} works={shop.can("job.work")}>
            {children}
          </Offline>
        </KeptFor>
      </ShopLocale>
    </Shell>
  );
}
