"use server";
import { importLibrary, retireEntry, saveEntry, takeEntries } from "@/lib/data/library/write";
import { packagesBehind } from "@/lib/data/packages/offers";
import { action } from "@/lib/gate/action";
import type { OpenShop } from "@/lib/gate/open";
import { ImportLibrarySchema, TakeEntriesSchema } from "@/lib/schemas/library";
import {
  AccessEntryForm,
  CautionEntryForm,
  CheckEntryForm,
  type EntryForm,
  OperationEntryForm,
  RetireEntrySchema,
} from "@/lib/schemas/libraryForms";

const at = (slug: string, rest = "") => `/s/${slug}/packages/library${rest}`;

async function saved(shop: OpenShop, input: EntryForm, key: string | undefined) {
  const entry = await saveEntry(shop, { ...input, key });
  const behind = (await packagesBehind(shop)).filter(({ entries }) => entries.includes(entry.key));
  const offered =
    behind.length === 0
      ? ""
      : ` Offered to ${behind.map(({ name }) => name).join(", ")}: nothing there changes by itself.`;
  return { to: at(shop.slug, `/${entry.id}`), toast: `“${input.entry.name}” is saved.${offered}` };
}

export const saveAccessEntry = action("package.write", AccessEntryForm, (shop, input, { key }) =>
  saved(shop, input, key),
);
export const saveOperationEntry = action("package.write", OperationEntryForm, (shop, input, { key }) =>
  saved(shop, input, key),
);
export const saveCautionEntry = action("package.write", CautionEntryForm, (shop, input, { key }) =>
  saved(shop, input, key),
);
export const saveCheckEntry = action("package.write", CheckEntryForm, (shop, input, { key }) =>
  saved(shop, input, key),
);

export const take = action("package.write", TakeEntriesSchema, async (shop, input, { key }) => {
  const taken = await takeEntries(shop, { ...input, key });
  return {
    to: at(shop.slug),
    toast:
      taken === 0
        ? "All of that was in the library already."
        : `${taken} ${taken === 1 ? "entry is" : "entries are"} yours now. Look the minutes through: they are starting figures.`,
  };
});

export const bringLibraryIn = action(
  "package.write",
  ImportLibrarySchema,
  async (shop, input, { key }) => {
    const { added, kept } = await importLibrary(shop, { ...input, key });
    const rest = kept > 0 ? ` ${kept} were here already and stay as they are.` : "";
    return { to: at(shop.slug), toast: `${added} came into the library.${rest}` };
  },
  "file",
);

export const retireIt = action("package.write", RetireEntrySchema, async (shop, input) => {
  await retireEntry(shop, input);
  return {
    toast:
      input.active === "yes"
        ? "In the library again."
        : "Out of the library. Packages that picked it keep what they have.",
  };
});
