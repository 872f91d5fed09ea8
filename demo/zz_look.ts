import { directory } from "@/lib/db/directory"; import { handleFor } from "@/lib/gate/handle"; import { getQuote } from "@/lib/data/quotes/get"; import { getToday } from "@/lib/data/today"; import {moneyProblems} from "@/lib/data/invoices/invariants";
for (const slug of ["saltpan","fjellrev"]) {
const row = await directory().read.shop.findFirstOrThrow({ where: { slug } });
const shop = handleFor(row, { personId: "x", name: "x", role: "owner", staffId: 1 }, new Date(process.argv[2] ?? Date.now()));
console.log(await moneyProblems(shop));
for (const q of await shop.read.quote.findMany({ where: { state: "draft" } })) {
  const v = await getQuote(shop, q.id, { margin: true }); const d = v!.draft!;
  console.log(q.number, v!.customer.name, v!.bike.name, d.price.grossMinor, d.price.marginBp, d.plan.minutes, d.plan.minutesSaved, d.savedMinor, d.warnings.map(w=>w.message+" | "+w.remedy));
  console.log(d.price.lines.map(l=>`${l.kind} ${l.name} ${l.shownMinor}`), d.parts.map(p=>`${p.code} ${p.quantityMilli} ${p.note}`));
  console.log(d.target.trouble, d.target.sheet?.carburettors.map(c=>[c.mainJet?.exact, c.mainJet?.chosen.size, c.mainJet?.note, c.slideRise?.value, c.settings.map(s=>`${s.key}:${s.from}->${s.value}`).join(" ")]), d.target.sheet?.assumptions.map(a=>a.fact), d.target.sheet?.refusals);
  console.log(d.groups.flatMap(g=>g.options).map(o=>`${o.ticked?"x":o.forbidden?"!":" "} ${o.name} ${o.minutes} ${o.size} ${o.because} ${o.notes.map(n=>n.text)}`));
}
const t = await getToday(shop, {quotes:true,invoices:true,stock:true});
console.log(JSON.stringify({...t, air: undefined, drawer: t.drawer?.sizes.map(s=>`${s.code}:${s.onHandMilli/1000}/${s.reservedMilli/1000}`)},null,0));
}
process.exit(0);
