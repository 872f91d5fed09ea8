import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { figureText } from "@/app/_ui/format";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { listSeverities } from "@/lib/data/shop/severities";
import type { OpenShop } from "@/lib/gate/open";
import { keepSeverity } from "../actions";

const BLANK = { id: 0, name: "", factor: null, active: true, version: 1 };

/** The shop's words for hard use, each with what intervals by distance are divided by. */
export async function Severities({ shop }: { shop: OpenShop }) {
  const rows = [...(await listSeverities(shop)), BLANK];
  return (
    <Section title="What bikes are used in" className="mt-8 max-w-[760px]">
      <p className="mb-2 text-[15px] text-soft">
        Chosen on a bike, it brings service, cleaning, wear checks and follow-ups by distance sooner. The
        factors are common practice, no source: put yours.
      </p>
      <ul>
        {rows.map((row) => (
          <li key={row.id} className="border-hair border-b py-3">
            <Form
              action={keepSeverity}
              shop={shop.slug}
              hidden={{ id: row.id ? String(row.id) : "", version: String(row.version) }}
              label={row.name || "New use"}
              className="grid items-end gap-x-3 gap-y-1 sm:grid-cols-[minmax(0,1fr)_8rem_auto_auto]"
            >
              <TextField
                name="name"
                label={row.id ? "Use" : "New use"}
                initial={row.name}
                required
                maxLength={60}
              />
              <TextField
                name="factor"
                label="Divides by"
                initial={row.factor === null ? "" : figureText(row.factor, shop.settings.locale)}
                inputMode="decimal"
                mono
                required
              />
              {row.id > 0 && <CheckField name="active" label="Offered" initial={row.active} />}
              <SubmitButton tone="second">{row.id ? "Save" : "Add"}</SubmitButton>
            </Form>
          </li>
        ))}
      </ul>
    </Section>
  );
}
