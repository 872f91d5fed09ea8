import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { ARTEFACTS, brokenRules, schemaFaults } from "../support/einvoiceChecks";

describe.skipIf(!ARTEFACTS)("x", () => {
  for (const sub of ["en16931/examples", "pint-anz/examples"])
    for (const name of readdirSync(join(ARTEFACTS ?? "", sub)))
      it(name, () => {
        const xml = readFileSync(join(ARTEFACTS ?? "", sub, name), "utf8");
        let t = Date.now();
        const r = brokenRules(xml);
        console.log(name, "sch", Date.now() - t, r);
        t = Date.now();
        console.log("xsd", schemaFaults(xml).slice(0, 3), Date.now() - t);
        expect(1).toBe(1);
      });
});
