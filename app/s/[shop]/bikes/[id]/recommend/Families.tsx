import { CONTROL, describedBy, FieldFrame } from "@/app/_ui/FieldFrame";

/** A drawer of jets to take from first. */
export function Families({
  name,
  label,
  families,
  chosen,
}: {
  name: string;
  label: string;
  families: readonly string[];
  chosen: string;
}) {
  const id = `bench-${name}`;
  const hint = "What the drawer has is taken first.";
  return (
    <FieldFrame id={id} label={label} hint={hint}>
      <select
        id={id}
        name={name}
        defaultValue={chosen}
        aria-describedby={describedBy(id, hint, undefined)}
        className={CONTROL}
      >
        <option value="">No drawer: the usual half sizes</option>
        {families.map((family) => (
          <option key={family} value={family}>
            {family}
          </option>
        ))}
      </select>
    </FieldFrame>
  );
}
