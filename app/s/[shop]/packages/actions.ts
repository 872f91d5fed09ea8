"use server";
import { moveItem, putBack, removeItem, renamePackage } from "@/lib/data/packages/arrange";
import { addRevision, createPackage, publishRevision, retirePackage } from "@/lib/data/packages/author";
import { beginDraft } from "@/lib/data/packages/draft";
import { copyPackage, importPackage } from "@/lib/data/packages/file";
import { saveItem } from "@/lib/data/packages/items";
import { action } from "@/lib/gate/action";
import {
  AddRevisionSchema,
  CopyPackageSchema,
  CreatePackageSchema,
  ImportPackageSchema,
  PublishRevisionSchema,
  PutBackSchema,
  RenamePackageSchema,
  RetirePackageSchema,
} from "@/lib/schemas/packages";
import {
  AccessFormSchema,
  GroupFormSchema,
  OperationFormSchema,
  OptionFormSchema,
} from "@/lib/schemas/recipeForms";
import { ArrangeSchema, BeginDraftSchema } from "@/lib/schemas/recipeItem";
import { RuleFormSchema } from "@/lib/schemas/ruleForm";

const at = (slug: string, id: number, rest = "") => `/s/${slug}/packages/${id}${rest}`;

export const startPackage = action("package.write", CreatePackageSchema, async (shop, input, { key }) => {
  const id = await createPackage(shop, { ...input, key });
  await beginDraft(shop, { packageId: id });
  return { to: at(shop.slug, id, "/edit"), toast: "Package made. Begin with a group of options." };
});

export const writeRevision = action("package.write", AddRevisionSchema, async (shop, input, { key }) => {
  const { number } = await addRevision(shop, { ...input, key });
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

export const saveGroup = action("package.write", GroupFormSchema, async (shop, { item, ...ref }) => {
  await saveItem(shop, "groups", ref, item);
  return { to: at(shop.slug, ref.packageId, "/edit"), toast: "Group saved in the draft." };
});

export const saveOption = action(
  "package.write",
  OptionFormSchema,
  async (shop, { item, fixedPrice, ...ref }) => {
    await saveItem(shop, "options", ref, item, fixedPrice);
    return { to: at(shop.slug, ref.packageId, "/edit"), toast: "Option saved in the draft." };
  },
);

export const saveOperation = action("package.write", OperationFormSchema, async (shop, { item, ...ref }) => {
  await saveItem(shop, "operations", ref, item);
  return { to: at(shop.slug, ref.packageId, "/edit"), toast: "Operation saved in the draft." };
});

export const saveAccess = action("package.write", AccessFormSchema, async (shop, { item, ...ref }) => {
  await saveItem(shop, "accesses", ref, item);
  return { to: at(shop.slug, ref.packageId, "/edit"), toast: "Access saved in the draft." };
});

export const saveRule = action("package.write", RuleFormSchema, async (shop, { item, ...ref }) => {
  await saveItem(shop, "rules", ref, item);
  return { to: at(shop.slug, ref.packageId, "/edit"), toast: "Rule saved in the draft." };
});

export const arrange = action("package.write", ArrangeSchema, async (shop, { packageId, part, act }) => {
  const { way, key } = act;
  if (way !== "out") {
    await moveItem(shop, { packageId, part, key, way });
    return {};
  }
  const { name, version, before } = await removeItem(shop, { packageId, part, key });
  return {
    toast: `“${name}” is out of the draft.`,
    undo: { fields: { packageId: String(packageId), version: String(version), recipe: before } },
  };
});

export const undoRemove = action("package.write", PutBackSchema, async (shop, input) => {
  await putBack(shop, input);
  return { toast: "Back in the draft." };
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
