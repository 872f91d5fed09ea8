"use server";
import { openKitInto } from "@/lib/data/kits/intoOption";
import { moveItem, putBack, removeItem, renamePackage } from "@/lib/data/packages/arrange";
import {
  addPackageRevision,
  createPackage,
  publishRevision,
  retirePackage,
} from "@/lib/data/packages/author";
import { beginDraft, dropDraft } from "@/lib/data/packages/draft";
import { copyPackage, importPackage } from "@/lib/data/packages/file";
import { saveItem } from "@/lib/data/packages/items";
import { answerOffers } from "@/lib/data/packages/offers";
import { pickEntries } from "@/lib/data/packages/pickEntries";
import { removePackage } from "@/lib/data/packages/remove";
import { takeStarter } from "@/lib/data/packages/starters";
import { action } from "@/lib/gate/action";
import { RemoveRecordSchema } from "@/lib/schemas/ids";
import { KitIntoOptionSchema } from "@/lib/schemas/kits";
import { AnswerOffersSchema, PickEntriesSchema } from "@/lib/schemas/libraryForms";
import {
  AddRevisionSchema,
  CopyPackageSchema,
  CreatePackageSchema,
  DropDraftSchema,
  ImportPackageSchema,
  PublishRevisionSchema,
  PutBackSchema,
  RenamePackageSchema,
  RetirePackageSchema,
  TakeStarterSchema,
} from "@/lib/schemas/packages";
import {
  AccessFormSchema,
  GroupFormSchema,
  OperationFormSchema,
  OptionFormSchema,
} from "@/lib/schemas/recipeForms";
import { ArrangeSchema, BeginDraftSchema, type ItemRef, type RecipePart } from "@/lib/schemas/recipeItem";
import { RuleFormSchema } from "@/lib/schemas/ruleForm";

const at = (slug: string, id: number, rest = "") => `/s/${slug}/packages/${id}${rest}`;

export const startPackage = action("package.write", CreatePackageSchema, async (shop, input, { key }) => {
  const id = await createPackage(shop, { ...input, key });
  await beginDraft(shop, { packageId: id });
  return {
    to: at(shop.slug, id, "/edit"),
    toast: "Package made. Write what must be opened, then the work, then what can be chosen.",
  };
});

export const takeStarterOver = action("package.write", TakeStarterSchema, async (shop, input, { key }) => {
  const id = await takeStarter(shop, { ...input, key });
  return {
    to: at(shop.slug, id),
    toast: "A draft of your own. Look its minutes and limits through, then publish it.",
  };
});

export const writeRevision = action("package.write", AddRevisionSchema, async (shop, input, { key }) => {
  const { number } = await addPackageRevision(shop, { ...input, key });
  return {
    to: at(shop.slug, input.packageId, `?revision=${number}`),
    toast: `Revision ${number} is a draft.`,
  };
});

export const begin = action("package.write", BeginDraftSchema, async (shop, input, { key }) => {
  const number = await beginDraft(shop, { ...input, key });
  return {
    to: at(shop.slug, input.packageId, "/edit"),
    toast: `Revision ${number} is a draft to work on; the published one stays in use.`,
  };
});

export const publish = action("package.write", PublishRevisionSchema, async (shop, input) => {
  const { number, packageId } = await publishRevision(shop, input);
  return {
    to: at(shop.slug, packageId),
    toast: `Revision ${number} is published: new quotes use it from now on.`,
  };
});

export const retire = action("package.write", RetirePackageSchema, async (shop, input) => {
  await retirePackage(shop, input);
  return {
    toast: input.active === "yes" ? "On the list for new quotes again." : "Off the list for new quotes.",
  };
});

export const takePackageOut = action("package.write", RemoveRecordSchema, async (shop, input) => {
  await removePackage(shop, input);
  return { to: `/s/${shop.slug}/packages`, toast: "Removed." };
});

/** Where a saved item leads: back to its list in the draft, or to a form for the next one. */
function saved(
  slug: string,
  part: RecipePart,
  { packageId, next }: Pick<ItemRef, "packageId" | "next">,
  key: string,
  name: string,
  kind = "",
) {
  const kept = kind && `&kind=${encodeURIComponent(kind)}`;
  const rest = next ? `/edit/${part}?after=${encodeURIComponent(key)}${kept}` : `/edit#${part}`;
  return { to: at(slug, packageId, rest), toast: `${name} is saved in the draft.` };
}

export const saveGroup = action("package.write", GroupFormSchema, async (shop, { item, ...ref }) => {
  const key = await saveItem(shop, "groups", ref, item);
  return saved(shop.slug, "groups", ref, key, `“${item.name}”`);
});

export const saveOption = action(
  "package.write",
  OptionFormSchema,
  async (shop, { item, fixedPrice, ...ref }) => {
    const key = await saveItem(shop, "options", ref, item, fixedPrice);
    return saved(shop.slug, "options", ref, key, `“${item.name}”`);
  },
);

export const saveOperation = action("package.write", OperationFormSchema, async (shop, { item, ...ref }) => {
  const key = await saveItem(shop, "operations", ref, item);
  return saved(shop.slug, "operations", ref, key, `“${item.name}”`);
});

export const saveAccess = action("package.write", AccessFormSchema, async (shop, { item, ...ref }) => {
  const key = await saveItem(shop, "accesses", ref, item);
  return saved(shop.slug, "accesses", ref, key, `“${item.name}”`);
});

export const saveRule = action("package.write", RuleFormSchema, async (shop, { item, ...ref }) => {
  const key = await saveItem(shop, "rules", ref, item);
  return saved(shop.slug, "rules", ref, key, "The rule", item.kind);
});

export const pickFromLibrary = action("package.write", PickEntriesSchema, async (shop, input, { key }) => {
  const added = await pickEntries(shop, { ...input, key });
  return {
    to: at(shop.slug, input.packageId, "/edit"),
    toast:
      added === 0 ? "All of it was in the draft." : `${added} came into the draft, with what must be open.`,
  };
});

export const openKit = action("package.write", KitIntoOptionSchema, async (shop, input, { key }) => {
  const { option, kit } = await openKitInto(shop, { ...input, key });
  return { to: at(shop.slug, input.packageId, "/edit"), toast: `The parts of ${kit} are in “${option}”.` };
});

export const answerLibrary = action("package.write", AnswerOffersSchema, async (shop, input, { key }) => {
  const number = await answerOffers(shop, { ...input, key });
  return number === null
    ? { to: at(shop.slug, input.packageId), toast: "Left as it is here." }
    : {
        to: at(shop.slug, input.packageId, `?revision=${number}`),
        toast: `In draft ${number}. Look it through, then publish it.`,
      };
});

export const arrange = action("package.write", ArrangeSchema, async (shop, { packageId, part, act }) => {
  const { way, key } = act;
  if (way !== "out") {
    await moveItem(shop, { packageId, part, key, way });
    return {};
  }
  const { name, namedBy, version, before } = await removeItem(shop, { packageId, part, key });
  const what = part === "rules" ? "The rule" : `“${name}”`;
  const from = namedBy.length > 0 ? `, and out of what named it: ${namedBy.join(", ")}` : "";
  return {
    toast: `${what} is out of the draft${from}.`,
    undo: { fields: { packageId: String(packageId), version: String(version), recipe: before } },
  };
});

export const undoRemove = action("package.write", PutBackSchema, async (shop, input) => {
  await putBack(shop, input);
  return { toast: "Back in the draft." };
});

export const dropIt = action("package.write", DropDraftSchema, async (shop, input) => {
  const { number, before } = await dropDraft(shop, input);
  return {
    toast: `Draft ${number} is thrown away; what is published stays.`,
    undo: { fields: { packageId: String(input.packageId), recipe: before } },
  };
});

export const rename = action("package.write", RenamePackageSchema, async (shop, input) => {
  await renamePackage(shop, input);
  return { toast: "Saved." };
});

export const copy = action("package.write", CopyPackageSchema, async (shop, input, { key }) => {
  const id = await copyPackage(shop, { ...input, key });
  return { to: at(shop.slug, id, "/edit"), toast: "Copied as a draft of its own." };
});

export const bringIn = action("package.write", ImportPackageSchema, async (shop, input, { key }) => {
  const id = await importPackage(shop, { ...input, key });
  return { to: at(shop.slug, id), toast: "Brought in as a draft. Look it over, then publish it." };
});
