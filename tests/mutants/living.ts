import type { MutantResult } from "@stryker-mutator/api/core";
import { declareValuePlugin, PluginKind } from "@stryker-mutator/api/plugin";

/** Says of each mutant that no test noticed as it is found, so that a run that is stopped has told something. */
export const strykerPlugins = [
  declareValuePlugin(PluginKind.Reporter, "living", {
    onMutantTested({ status, fileName, location, mutatorName, replacement }: Readonly<MutantResult>) {
      if (status !== "Survived" && status !== "NoCoverage") return;
      const { line, column } = location.start;
      const name = fileName.replace(/^.*lib\/domain\//, "");
      console.error(`${name}:${line}:${column}  ${mutatorName}  ->  ${replacement || "(nothing)"}`);
    },
  }),
];
