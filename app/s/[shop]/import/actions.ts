"use server";
import { previewImport, runImport } from "@/lib/data/imports/run";
import { undoImport } from "@/lib/data/imports/undo";
import { action } from "@/lib/gate/action";
import { ImportSchema, RunSchema } from "@/lib/schemas/imports";

/** Reads a file and tells what it would do. Writes nothing. */
export const checkFile = action(
  "import.run",
  ImportSchema,
  async (shop, input) => ({
    shown: { view: JSON.stringify(await previewImport(shop, input)) },
  }),
  "file",
);

/** Takes a whole import back. */
export const takeImportBack = action("import.run", RunSchema, async (shop, { id }) => {
  const { removed, restored, putAway } = await undoImport(shop, id);
  const away = putAway > 0 ? `, ${putAway} put away` : "";
  return {
    to: `/s/${shop.slug}/import/runs?run=${id}`,
    toast: `Taken back: ${removed} removed, ${restored} as before${away}.`,
  };
});

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
