"use server";
import { previewImport, runImport } from "@/lib/data/imports/run";
import { action } from "@/lib/gate/action";
import { ImportSchema } from "@/lib/schemas/imports";

/** Reads a file and tells what it would do. Writes nothing. */
export const checkFile = action(
  "import.run",
  ImportSchema,
  async (shop, input) => ({
    shown: { view: JSON.stringify(await previewImport(shop, input)) },
  }),
  "file",
);

/** Brings a file in, all or nothing. */
export const bringIn = action(
  "import.run",
  ImportSchema,
  async (shop, input, call) => {
    const view = await runImport(shop, input, call.key);
    return { shown: { view: JSON.stringify(view) }, toast: `${view.added} added, ${view.changed} changed.` };
  },
  "file",
);
