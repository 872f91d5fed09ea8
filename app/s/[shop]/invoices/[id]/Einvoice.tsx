import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { InvoiceView } from "@/lib/data/invoices/get";
import type { MendedAt } from "@/lib/domain/einvoice/requirements";
import { noteOrder } from "../actions";

interface EinvoiceProps {
  slug: string;
  invoice: InvoiceView;
  mayInvoice: boolean;
}

/** What keeps a draft from being a valid e-invoice: the rule, and the way to what mends it. */
export function BrokenRules({ slug, invoice }: Omit<EinvoiceProps, "mayInvoice">) {
  if (invoice.broken.length === 0) return null;
  return (
    <Note title="It is to be an e-invoice. Before it can be issued:">
      <ul>
        {invoice.broken.map(({ rule, what, at }) => (
          <li key={`${rule} ${at}`}>
            {what} <MendLink slug={slug} customerId={invoice.customer?.id} at={at} />{" "}
            <span className="text-soft">(rule {rule})</span>
          </li>
        ))}
      </ul>
    </Note>
  );
}

function MendLink({ slug, customerId, at }: { slug: string; customerId: number | undefined; at: MendedAt }) {
  const { href, text } = {
    shop: { href: `/s/${slug}/shop/settings`, text: "Settings" },
    shopEinvoice: { href: `/s/${slug}/shop/einvoices`, text: "The shop’s e-invoices" },
    customer: { href: `/s/${slug}/customers/${customerId}/edit`, text: "The customer" },
    customerEinvoice: { href: `/s/${slug}/customers/${customerId}/einvoice`, text: "Their e-invoices" },
    draft: { href: "#order-number", text: "Their order number" },
    lines: { href: "#lines", text: "The lines" },
  }[at];
  return (
    <Link href={href} className="inline-block py-1 text-brass underline underline-offset-4">
      {text}
    </Link>
  );
}

/** The customer's own order number, which an e-invoice quotes. */
export function OrderNumber({ slug, invoice, mayInvoice }: EinvoiceProps) {
  const einvoice = invoice.doc?.einvoice;
  if (!mayInvoice || !einvoice || invoice.state !== "draft") return null;
  return (
    <Section title="E-invoice" id="order-number">
      <Form
        action={noteOrder}
        shop={slug}
        hidden={{ id: String(invoice.id) }}
        label="Their order number"
        className="max-w-md"
      >
        <TextField
          name="number"
          label="Their order number"
          initial={einvoice.orderNumber}
          hint={einvoice.buyerReference ? `Their reference: ${einvoice.buyerReference}` : undefined}
          maxLength={80}
          mono
        />
        <SubmitButton tone="second">Note it</SubmitButton>
      </Form>
    </Section>
  );
}
