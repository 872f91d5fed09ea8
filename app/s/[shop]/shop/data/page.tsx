import { buttonLook } from "@/app/_ui/buttonLook";
import { ComeBack } from "@/app/_ui/ComeBack";
import { Form } from "@/app/_ui/Form";
import { figureText } from "@/app/_ui/format";
import { Instant } from "@/app/_ui/Instant";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { type ExportState, exportOf } from "@/lib/data/people/exports";
import { open } from "@/lib/gate/open";
import { exportAll } from "./actions";
import { EraseShop } from "./EraseShop";

export default async function YourData({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("shop.export", slug);
  const made = await exportOf(shop.shopId, shop.now);
  const { locale, zone } = shop.settings;
  return (
    <>
      <PageHead
        of={shop.name}
        title="Your data"
        sub="All records of this shop, yours to keep or to take elsewhere"
      />
      <Section title="Everything in one file">
        <div className="grid max-w-[720px] gap-4">
          <p>
            One zip file with every table as CSV for a spreadsheet and as JSON for other programs, all photos,
            the database itself where it is SQLite, and a README that says what is what. A new shop can be
            opened from it, on this server or another.
          </p>
          <p className="text-soft">
            What customers wrote and were told is in it. Passwords and sessions of your people are not. It is
            kept here for a day; who asked for it and who fetched it stands in the audit trail.
          </p>
          {made.state === "failed" && <Note title="The last try failed.">{made.failure}</Note>}
          {made.state === "waiting" && <Waiting {...made} />}
          {made.state === "ready" && (
            <div className="grid gap-3">
              <p>
                Made <Instant at={made.readyAt.toISOString()} locale={locale} zone={zone} />, kept until{" "}
                <Instant at={made.until.toISOString()} locale={locale} zone={zone} />.
              </p>
              <p>
                <a href={`/api/s/${slug}/export`} download className={buttonLook("main")}>
                  Download, {figureText(made.bytes / 1_000_000, locale, 1)} MB
                </a>
              </p>
            </div>
          )}
          {made.state !== "waiting" && (
            <Form action={exportAll} shop={slug} label="Everything in one file">
              <SubmitButton tone={made.state === "ready" ? "quiet" : "main"}>
                {made.state === "ready" ? "Make it anew" : "Make the file"}
              </SubmitButton>
            </Form>
          )}
        </div>
      </Section>
      {shop.can("shop.erase") && <EraseShop shop={shop} />}
    </>
  );
}

function Waiting({ done, of }: Extract<ExportState, { state: "waiting" }>) {
  return (
    <div role="status">
      <p className="font-semibold">
        {of === 0 ? "It waits for its turn." : `It is being made: ${done} of ${of} parts.`}
      </p>
      <p className="text-soft">You may go on elsewhere and come back.</p>
      <ComeBack />
    </div>
  );
}
