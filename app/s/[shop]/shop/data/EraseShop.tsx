import { Form } from "@/app/_ui/Form";
import { Instant } from "@/app/_ui/Instant";
import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { ERASURE_DAYS, erasureOf } from "@/lib/data/people/eraseShop";
import type { OpenShop } from "@/lib/gate/open";
import { eraseThisShop, keepThisShop } from "./actions";

/** Asks for the whole shop to be erased, or takes that back. */
export async function EraseShop({ shop }: { shop: OpenShop }) {
  const asked = await erasureOf(shop.shopId);
  const { locale, zone } = shop.settings;
  return (
    <Section title="Erase this shop" className="mt-8">
      <div className="grid max-w-[720px] gap-4">
        <p>
          All of its records, its photos, and who belongs to it go for good. Your people keep their accounts.
          Backups of this server hold it until they age out, and exports that were downloaded hold it still.
          Check first what the law asks you to keep, and take the file above.
        </p>
        {asked ? (
          <>
            <Note title="This shop is going to be erased.">
              From <Instant at={asked.dueAt.toISOString()} locale={locale} zone={zone} /> on. Until then any
              owner can take it back.
            </Note>
            <Form action={keepThisShop} shop={shop.slug} label="Keep this shop">
              <SubmitButton tone="main">Keep this shop</SubmitButton>
            </Form>
          </>
        ) : (
          <Form action={eraseThisShop} shop={shop.slug} label="Erase this shop" className="grid gap-4">
            <TextField
              name="name"
              label="The name of this shop, to be sure"
              hint={`${shop.name}. It is erased ${ERASURE_DAYS} days from now, unless an owner takes it back.`}
            />
            <SubmitButton tone="danger">Erase this shop</SubmitButton>
          </Form>
        )}
      </div>
    </Section>
  );
}
