import { notFound } from "next/navigation";
import { Facts } from "@/app/_ui/Facts";
import { dateText, instantText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { moneyText } from "@/app/_ui/moneyText";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { getDay } from "@/lib/data/endOfDay/get";
import type { Compared } from "@/lib/domain/endOfDay/drawer";
import { netOf } from "@/lib/domain/endOfDay/takings";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { DrawerFacts } from "../DrawerFacts";
import { MoneyRows } from "../MoneyRows";
import { Takings } from "../Takings";

/** A closed day as it was counted, its payments, and what was recorded for it later. */
export default async function ClosedDayPage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("day.close", slug);
  const found = await getDay(shop, pathId(id));
  if (!found) notFound();
  const { doc, money, after } = found;
  const { zone } = shop.settings;
  const { currency, locale, drawer } = doc;
  const look = { currency, locale };
  const text = (minor: number) => moneyText(minor, currency, locale);
  const rows = { slug, zone, ...look };
  return (
    <>
      <PageHead
        of={shop.name}
        title={`End of ${dateText(doc.day, locale)}`}
        sub={`closed by ${doc.closedBy}, ${instantText(doc.closedAt, locale, doc.zone)}${doc.fromDay === doc.day ? "" : `, with all days from ${dateText(doc.fromDay, locale)}`}`}
        state={
          <State
            shape={drawer.differenceMinor === 0 ? "filled" : "triangle"}
            tone={drawer.differenceMinor === 0 ? "pine" : "oxide"}
          >
            {drawer.differenceMinor === 0
              ? "right"
              : `${text(Math.abs(drawer.differenceMinor))} ${currency} ${drawer.differenceMinor < 0 ? "short" : "over"}`}
          </State>
        }
        actions={
          <LinkButton href={`/api/s/${slug}/days/${found.id}/pdf`} download>
            Print the sheet
          </LinkButton>
        }
      />
      <div className="grid gap-x-10 rail:grid-cols-[minmax(0,3fr)_minmax(0,2fr)]">
        <div className="min-w-0">
          <Section title="Takings">
            <Takings takings={doc.takings} {...look} />
          </Section>
          <Section title="The drawer">
            <DrawerFacts
              {...look}
              floatMinor={doc.floatMinor}
              cashMinor={netOf(doc.takings, "cash")}
              moves={doc.moves}
              expectedMinor={drawer.expectedMinor}
            />
          </Section>
        </div>
        <div className="min-w-0">
          <Section title="Counted">
            <Facts
              rows={[
                ...doc.pieces.map(({ valueMinor, pieces }) => ({
                  key: String(valueMinor),
                  name: `${pieces} × ${text(valueMinor)}`,
                  value: text(valueMinor * pieces),
                  mono: true,
                })),
                ...comparedRows(drawer, text),
                { key: "left", name: "Stays in the drawer", value: text(doc.leftMinor), mono: true },
                { key: "taken", name: "To the bank", value: text(doc.takenMinor), mono: true },
              ]}
            />
          </Section>
          {doc.terminal && (
            <Section title="Card terminal">
              <Facts rows={comparedRows(doc.terminal, text)} />
            </Section>
          )}
        </div>
      </div>
      <Section title="Payments">
        <MoneyRows caption="Payments on the sheet" rows={money} {...rows} />
      </Section>
      {after.length > 0 && (
        <Section title="Recorded after closing">
          <MoneyRows caption="Payments recorded after the day was closed" rows={after} {...rows} />
        </Section>
      )}
    </>
  );
}

const comparedRows = (
  { expectedMinor, countedMinor, differenceMinor, reason }: Compared,
  text: (minor: number) => string,
) => [
  { key: "counted", name: "Counted", value: text(countedMinor), mono: true },
  { key: "expected", name: "Should be", value: text(expectedMinor), mono: true },
  { key: "difference", name: "Difference", value: text(differenceMinor), mono: true, strong: true },
  ...(reason ? [{ key: "reason", name: "Why", value: reason }] : []),
];
