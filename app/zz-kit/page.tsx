import { ActBar } from "@/app/_ui/ActBar";
import { Button } from "@/app/_ui/Button";
import { Caution } from "@/app/_ui/Caution";
import { CheckField } from "@/app/_ui/CheckField";
import { ChoiceField } from "@/app/_ui/ChoiceField";
import { DataTable } from "@/app/_ui/DataTable";
import { DateField } from "@/app/_ui/DateField";
import { DayRule } from "@/app/_ui/DayRule";
import { Dialog } from "@/app/_ui/Dialog";
import { Empty } from "@/app/_ui/Empty";
import { Facts } from "@/app/_ui/Facts";
import { Figure } from "@/app/_ui/Figure";
import { Form } from "@/app/_ui/Form";
import { Instant } from "@/app/_ui/Instant";
import { JetDrawer } from "@/app/_ui/JetDrawer";
import { LambdaChart } from "@/app/_ui/LambdaChart";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Minutes } from "@/app/_ui/Minutes";
import { Money } from "@/app/_ui/Money";
import { Note } from "@/app/_ui/Note";
import { NumberField } from "@/app/_ui/NumberField";
import { Opens } from "@/app/_ui/Opens";
import { PageHead } from "@/app/_ui/PageHead";
import { Paper } from "@/app/_ui/Paper";
import { PlanStrip } from "@/app/_ui/PlanStrip";
import { PriceBar } from "@/app/_ui/PriceBar";
import { ReadingStepper } from "@/app/_ui/ReadingStepper";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { Shell } from "@/app/_ui/Shell";
import { State } from "@/app/_ui/State";
import { StepBar } from "@/app/_ui/StepBar";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import { kitAct, kitUndo } from "./act";

const because = [
  { fact: "Airbox opened by 48 mm", from: "package Open-road breathing, revision 7", effect: "+7.5" },
  { fact: "Air 4 % thinner than the bench day", from: "410 m, 19 °C, 1016 hPa", effect: "−2.5" },
];
const places = "Today Quotes Bookings Jobs Bikes Customers Stock Invoices Packages Bench Figures Shop".split(" ").map((name) => ({ key: name, name, href: name === "Quotes" ? "/zz-kit" : `/zz-kit/${name}` }));
const xs = [0, 0.15, 0.3, 0.45, 0.6, 0.75, 0.9, 1];
const after = [0.91, 0.918, 0.922, 0.918, 0.915, 0.914, 0.912, 0.902].map((y, i) => ({ x: xs[i] as number, y, low: y - 0.018, high: y + 0.018 }));
const before = [0.937, 0.98, 1.04, 1.06, 1.045, 1.022, 1.018, 1.034].map((y, i) => ({ x: xs[i] as number, y, low: y - 0.02, high: y + 0.02 }));

export default async function Kit({ searchParams }: { searchParams: Promise<Record<string, string>> }) {
  const query = await searchParams;
  const card = query.card === "1";
  if (card)
    return (
      <Shell shop={{ slug: "saltpan", name: "Job 618  TX 640" }} places={places} handsBusy>
        <StepBar label="Step 5 of 10" steps={[9, 6, 28, 5, 35, 20, 6, 10, 8, 12].map((minutes, i) => ({ minutes, state: i < 4 ? "done" : i === 4 ? "now" : "ahead" }))} />
        <p className="text-soft">Step 5 of 10 · hold point</p>
        <h1 className="font-bold text-[26px]">Needle seat height</h1>
        <p>Seat the needle in the slide, push it down with a fingertip, measure from the slide face to the needle shoulder.</p>
        <Caution title="Diaphragm.">A nick stops the slide rising. Keep blades and drill swarf away; check it against the light before closing.</Caution>
        <Form action={kitAct} shop="saltpan">
          <ReadingStepper name="reading" label="Reading" unit="mm" step={0.05} low={3} high={3.3} initial="3.15" />
          <ActBar main={<SubmitButton size="act">Pass and go on</SubmitButton>}>
            <Button>Found something</Button>
            <Button>Photo</Button>
          </ActBar>
        </Form>
      </Shell>
    );
  return (
    <Shell shop={{ slug: "saltpan", name: "Saltpan Carburettor Works" }} places={places} person={<span>Ines, desk</span>}>
      <PageHead title="Quote 1042" sub="Tarrant TX 640, 2006 · Ines Valdborg" state={<State shape="circle" tone="ink">Draft, revision 3</State>} actions={<><LinkButton href="/zz-kit?card=1">Compare 2 others</LinkButton><Button tone="main">Send for a yes</Button></>} />
      <div className="grid gap-x-[30px] min-[900px]:grid-cols-[370px_minmax(0,1fr)]">
        <Section title="Open-road breathing, revision 7">
          <Form action={kitAct} label="Options">
            <CheckField ruled name="o[]" value="a" initial label="Airbox opening, 48 mm" detail="kept 60 mm clear of the breather" figure="28 min" />
            <CheckField ruled name="o[]" value="b" initial label="Main jet to suit" detail="because the airbox is opened · 3 in the drawer" figure={<Opens name="Main jet" because={because} firmness="starting point">142.5</Opens>} />
            <CheckField ruled disabled name="o[]" value="c" label="Snorkel out only" detail="not with an airbox opening" figure="–" />
            <CheckField ruled name="o[]" value="d" label="Quiet freer silencer" detail={<State shape="diamond" tone="oxide">not in stock, 6 days</State>} figure="40 min" />
          </Form>
          <Note title="Starting point.">Verify by plug, lambda and test ride. Road use: emissions and noise rules may apply; the customer acknowledges this when accepting.</Note>
        </Section>
        <div>
          <Section title="Mixture over throttle, 410 m, spring and autumn">
            <LambdaChart title="Mixture over throttle" description="Lean from a quarter up as found; inside the wanted band after." before={before} after={after} wanted={{ low: 0.87, high: 0.94 }} beforeLabel="as found: lean from ¼ up" />
          </Section>
          <div className="grid gap-[26px] sm:grid-cols-[minmax(0,390px)_minmax(0,1fr)]">
            <Section title="Price, GST included">
              <Facts rows={[
                { name: "Work, 2 h 19 min at 118.00", value: <Opens because={because} firmness="firm" name="Work"><Money minor={27337} currency="AUD" locale="en-AU" /></Opens> },
                { name: "Opened once instead of three times", value: <Opens because={because}><Money minor={-6195} currency="AUD" locale="en-AU" credit /></Opens> },
                { name: "of which GST", value: 35.24, mono: true },
                { name: "Total AUD", value: <Money minor={38762} currency="AUD" locale="en-AU" />, strong: true },
              ]} />
              <PriceBar title="Price build-up" description="Work is most of it" currency="AUD" locale="en-AU" parts={[{ label: "Work", minor: 27337, tone: "labour" }, { label: "Parts", minor: 16420, tone: "parts" }, { label: "Sundries", minor: 1200, tone: "sundries" }, { label: "Opened once", minor: -6195, tone: "off" }]} />
            </Section>
            <Section title="Margin">
              <Figure value={46.2} decimals={1} unit="%" large />
              <p className="text-soft">Above the shop's 38 %. Two like it last year came in 9 min over.</p>
            </Section>
          </div>
        </div>
      </div>
      <Section title="Work plan · 2 h 19 min · tank and seat come off once">
        <PlanStrip title="Work plan" description="Ten steps" steps={[["open", "open up", 9], ["operation", "snorkel", 6], ["operation", "airbox opening", 28], ["open", "turn carb", 5], ["operation", "needle", 35], ["operation", "lift holes", 20], ["close", "turn back", 6], ["operation", "main jet", 10], ["operation", "idle", 8], ["close", "close up", 12]].map(([kind, name, minutes]) => ({ kind: kind as "open", name: name as string, minutes: minutes as number }))} brackets={[{ from: 0, to: 9, label: "seat, side covers, tank off" }, { from: 3, to: 6, label: "carburettor turned left · vent hose checked on closing" }]} />
      </Section>
      <Section title="Today">
        <DayRule title="Bays today" description="Two bays" from={480} to={1080} now={654} rows={[{ name: "Bay one", blocks: [{ from: 510, to: 708, label: "618 TX 640", tone: "now", href: "/zz-kit?a" }, { from: 750, to: 870, label: "619 Trail 400, arrives 12:15", href: "/zz-kit?b" }] }, { name: "Bay two", blocks: [{ from: 480, to: 600, label: "610 as left, ride", tone: "done" }, { from: 630, to: 972, label: "615 Trail 400, waits for an answer" }] }]} />
      </Section>
      <div className="grid gap-[34px] min-[900px]:grid-cols-2">
        <Section title="Drawer">
          <JetDrawer name="main jets, large round" sizes={[115, 117.5, 120, 122.5, 125, 127.5, 130, 132.5, 135, 137.5, 140, 142.5].map((size, i) => ({ size, label: String(size), onHand: [4, 2, 5, 3, 1, 4, 6, 2, 5, 3, 14, 3][i] as number, reserved: [0, 0, 1, 0, 1, 0, 0, 0, 2, 0, 0, 1][i] as number, point: 3, href: `/zz-kit?jet=${size}` }))} />
        </Section>
        <Section title="States">
          <div className="grid grid-cols-2 gap-2">
            {(["circle", "diamond", "square", "filled", "triangle", "dash"] as const).map((shape, i) => <State key={shape} shape={shape} tone={(["soft", "ink", "brass", "pine", "oxide", "soft"] as const)[i]}>{shape}</State>)}
          </div>
          <p><Opens because={because} firmness="starting point" name="Par">12.5</Opens> Left <Instant at="2026-11-25T00:30:00Z" locale="en-AU" zone="Australia/Adelaide" />, <Minutes minutes={139} />, <Money minor={1234567} currency="NOK" locale="nb-NO" code />. <Button tone="quiet">Remind</Button></p>
          <Empty title="No quotes yet" text="Start one from a bike, or look around with sample data." action={<><Button tone="main">New quote</Button><Button>Load sample data</Button></>} />
        </Section>
      </div>
      <Section title="Quotes">
        <DataTable caption="Quotes" locale="en-AU" zone="Australia/Adelaide" path="/zz-kit" query={query} search="Search quotes" filters={[{ name: "state", label: "State", options: [{ value: "draft", label: "Draft" }] }]} next="abc" previous={query.after ? "" : null}
          columns={[{ key: "no", header: "Quote", sortable: true }, { key: "bike", header: "Bike" }, { key: "state", header: "State", kind: "state" }, { key: "date", header: "Ends", kind: "date", sortable: true }, { key: "min", header: "Work", kind: "figure", unit: "min" }, { key: "sum", header: "Total", kind: "money", sortable: true }]}
          rows={[1042, 1041, 1039].map((n) => ({ id: String(n), href: `/zz-kit?open=${n}`, no: String(n), bike: { text: "Tarrant TX 640", sub: "Ines Valdborg" }, state: { shape: "circle", tone: "ink", word: "Draft" }, date: "2026-12-02", min: 139, sum: { minor: 38762, currency: "AUD" } }))} />
      </Section>
      <Section title="Form" aside={<a href="#x" className="text-brass">an aside</a>}>
        <Form action={kitAct} undo={kitUndo} shop="saltpan" className="max-w-xl">
          <TextField name="name" label="Name" hint="As on the registration" />
          <NumberField name="jet" label="Main jet" initial={142.5} step={2.5} min={60} max={220} unit="1/100 mm" />
          <SelectField name="bay" label="Bay" options={[{ value: "1", label: "Bay one" }, { value: "2", label: "Bay two" }]} />
          <DateField name="d" label="Drop-off" initial="2026-11-25" />
          <TextArea name="t" label="What the owner says" />
          <ChoiceField name="c" label="Tax" initial="in" options={[{ value: "in", label: "In the price" }, { value: "out", label: "On top", detail: "for trade customers" }]} />
          <CheckField name="ack" label="Road use acknowledged" />
          <ReadingStepper name="r" label="Float height" unit="mm" step={0.5} low={13} high={14} />
          <div className="flex gap-2.5"><SubmitButton>Save</SubmitButton><Button tone="danger">Void</Button>
            <Dialog trigger="Open a dialog" title="Another form"><Form action={kitAct} undo={kitUndo}><TextField name="name" label="Name" /><SubmitButton>Save</SubmitButton></Form></Dialog></div>
        </Form>
      </Section>
      <Paper size="a4">paper</Paper>
    </Shell>
  );
}
