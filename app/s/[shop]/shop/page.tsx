import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { gradesWithoutRate } from "@/lib/data/shop/prices";
import type { Permission } from "@/lib/domain/access/permissions";
import { open } from "@/lib/gate/open";
import { bringFirstStepsBack } from "./actions";

const ROOMS: readonly (readonly [path: string, name: string, what: string, needs: Permission])[] = [
  ["settings", "Settings", "Name, address, tax, altitude, terms of quotes and invoices", "shop.write"],
  ["people", "People", "Who belongs here and in which role; invitations", "people.write"],
  ["hours", "Bays and hours", "Bays, working hours, days off, closures", "shop.write"],
  ["prices", "Labour and markup", "What an hour costs, what parts carry", "shop.write"],
  [
    "einvoices",
    "E-invoices",
    "For customers that are businesses: on or off, the shop’s numbers",
    "shop.write",
  ],
  [
    "paying",
    "How you are paid",
    "The account on invoices, letters and pages, and its references",
    "shop.write",
  ],
  ["numbers", "Numbers", "At which number quotes, jobs, invoices and receipts begin", "shop.write"],
  ["reminders", "Reminders", "When late invoices are reminded of, and what is asked for it", "shop.write"],
  ["letters", "Letters", "What customers are written: read it, change it, switch it off", "shop.write"],
  [
    "words",
    "Words in two languages",
    "What you wrote yourself, for customers of another language",
    "shop.write",
  ],
  ["mail", "Mail", "Mails to customers: sent, or waiting", "quote.send"],
  [
    "check",
    "Do the books add up",
    "Works out stock, reservations, numbers and totals from the ledgers",
    "audit.read",
  ],
  ["data", "Your data", "All of your records in one file, to keep or to take elsewhere", "shop.export"],
  ["audit", "Audit trail", "What was done, by whom, when", "audit.read"],
  [
    "security",
    "Who came in",
    "Sign-ins and refusals, passwords, second factors and roles of the shop's people",
    "audit.read",
  ],
];

export default async function Shop({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("shop.read", slug);
  const unset = await gradesWithoutRate(shop);
  const links = [...ROOMS.filter(([, , , needs]) => shop.can(needs))];
  return (
    <>
      <PageHead of={shop.name} title="Shop" sub={shop.name} />
      {unset.length > 0 && (
        <Note title="No labour rate yet.">
          Nobody has entered what an hour of {unset.join(", ")} costs, so no quote can be sent.{" "}
          {shop.can("shop.write") ? (
            <Link href={`/s/${slug}/shop/prices`} className="text-brass underline underline-offset-4">
              Set the rate
            </Link>
          ) : (
            "An owner sets it."
          )}
        </Note>
      )}
      <Section title="Rooms">
        <ul className="max-w-[720px]">
          {links.map(([path, name, what]) => (
            <li key={path} className="border-hair border-b">
              <Link
                href={`/s/${slug}/shop/${path}`}
                className="grid min-h-12 gap-x-6 py-2.5 no-underline sm:grid-cols-[200px_1fr]"
              >
                <strong>{name}</strong>
                <span className="text-soft">{what}</span>
              </Link>
            </li>
          ))}
          {shop.can("import.run") && (
            <li className="border-hair border-b">
              <Link
                href={`/s/${slug}/import`}
                className="grid min-h-12 gap-x-6 py-2.5 no-underline sm:grid-cols-[200px_1fr]"
              >
                <strong>Import</strong>
                <span className="text-soft">Customers, bikes, parts and prices from a CSV file</span>
              </Link>
            </li>
          )}
        </ul>
        {shop.can("shop.write") && (
          <Form action={bringFirstStepsBack} shop={slug} label="First steps" className="mt-4">
            <SubmitButton tone="quiet">Show the list of first steps on Today</SubmitButton>
          </Form>
        )}
      </Section>
    </>
  );
}
