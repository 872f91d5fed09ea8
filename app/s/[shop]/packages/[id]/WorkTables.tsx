import { Section } from "@/app/_ui/Section";
import type { Access, Operation, Recipe } from "@/lib/domain/packages/recipe";
import { measuredName } from "@/lib/domain/tuning/measurables";
import { WEAR_ITEMS } from "@/lib/domain/tuning/wear";
import { partText } from "./recipeWords";

/** The operations and the accesses of a recipe. */
export function WorkTables({ recipe }: { recipe: Recipe }) {
  const access = (key: string) => recipe.accesses.find((a) => a.key === key)?.name ?? key;
  const operation = (key: string) => recipe.operations.find((o) => o.key === key)?.name ?? key;
  return (
    <div className="grid gap-x-8 rail:grid-cols-2">
      <Section title="Work">
        <ul>
          {recipe.operations.map((o) => (
            <Line
              key={o.key}
              name={o.name}
              figure={`${o.minutes} min`}
              text={o.instruction}
              lines={operationLines(o, access, operation)}
            />
          ))}
        </ul>
      </Section>
      <Section title="What must be off, open or turned">
        <ul>
          {recipe.accesses.map((a) => (
            <Line
              key={a.key}
              name={a.name}
              figure={`${a.openMinutes} + ${a.closeMinutes} min`}
              text=""
              lines={accessLines(a, access)}
            />
          ))}
        </ul>
      </Section>
    </div>
  );
}

function Line({
  name,
  figure,
  text,
  lines,
}: {
  name: string;
  figure: string;
  text: string;
  lines: readonly string[];
}) {
  return (
    <li className="border-hair border-b py-2">
      <span className="flex items-baseline justify-between gap-4">
        <strong>{name}</strong>
        <span className="whitespace-nowrap font-mono">{figure}</span>
      </span>
      {text && <span className="block text-[15px]">{text}</span>}
      {lines.map((line) => (
        <span key={line} className="block text-[14px] text-soft">
          {line}
        </span>
      ))}
    </li>
  );
}

type Name = (key: string) => string;
const said = (label: string, list: readonly string[]) =>
  list.length > 0 ? [`${label}: ${list.join(", ")}`] : [];

function operationLines(o: Operation, access: Name, operation: Name): string[] {
  const holds = o.holdPoints.map((h) => {
    const unit = h.unit ? ` ${h.unit}` : "";
    const kept = h.measures === undefined ? "" : ` (${measuredName(h.measures, h.station ?? null)})`;
    if (h.low !== undefined && h.high !== undefined) return `${h.name} ${h.low} to ${h.high}${unit}${kept}`;
    return h.low !== undefined
      ? `${h.name} from ${h.low}${unit}${kept}`
      : h.high !== undefined
        ? `${h.name} up to ${h.high}${unit}${kept}`
        : `${h.name}${kept}`;
  });
  return [
    `Grade: ${o.grade}`,
    ...said("Needs", o.accesses.map(access)),
    ...said("After", o.after.map(operation)),
    ...(o.makesSwarf ? ["Makes swarf or dust: never with the fuel system open"] : []),
    ...said("Parts", o.parts.map(partText)),
    ...said("Hold points", holds),
    ...said("Cautions", o.cautions),
    ...said("Tools", o.tools),
    ...said(
      "Inspects the wear of",
      WEAR_ITEMS.filter(({ key }) => o.inspects.includes(key)).map(({ name }) => name.toLowerCase()),
    ),
    ...recheckLine(o),
  ];
}

function accessLines(a: Access, access: Name): string[] {
  return [
    ...said("Needs", a.needs.map(access)),
    ...said("Never together with", a.excludes.map(access)),
    ...(a.fuelOpen ? ["The fuel system is open with it"] : []),
    ...said("Checked on closing", a.closingChecks),
    ...said("Cautions", a.cautions),
    ...said("Tools", a.tools),
    ...recheckLine(a),
  ];
}

const recheckLine = ({ recheck }: Pick<Operation, "recheck">) =>
  recheck ? [`Looked at again after ${recheck.km} km or ${recheck.days} days: ${recheck.what}`] : [];
